import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { setupCard, valueAt } from '../../../sim/lab/index.ts';
import { FIELDS, type FieldPath } from '../../../sim/terms/fields.ts';
import { DEFAULT_GRADE } from '../../../sim/terms/grades.ts';
import { LiveElement } from '../../store/live-element.ts';
import { CAUTIONS } from '../../ui/safety/cautions.ts';
import { pictogram } from '../../ui/safety/pictograms.ts';
import '../../ui/day/day-warning.ts';
import { controlStyles } from '../../ui/styles.ts';
import { bottleWords } from '../../ui/text/bottle-words.ts';
import { count, quantity, significant, withUnit } from '../../ui/text/format.ts';
import type { LabDraft } from '../draft.ts';

const COLUMN: readonly FieldPath[] = ['column.bore_cm', 'column.tube_cm', 'bed.length_cm', 'bench.start_HCl_M', 'bench.start_head_mm'];

/** A number with its unit and nothing else. */
const AMOUNT = /^[\d.\s]+\S*$/;

/** What the stockroom sets out for this lab, on paper: columns, resin, bottles, the work-up, waste and cautions. */
@customElement('bf-setup-card')
export class SetupCardPage extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; max-width: 52rem; }
      .title { margin: 0 0 0.25rem; }
      h3 { font-size: 1.1rem; margin: var(--gap) 0 0.25rem; }
      p { margin: 0 0 0.25rem; overflow-wrap: anywhere; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .scroll { overflow-x: auto; }
      table { border-collapse: collapse; width: 100%; font-size: var(--text-small); }
      th, td { padding: 0.2em 0.6em 0.2em 0; text-align: left; vertical-align: top; font-weight: 400; overflow-wrap: break-word; }
      thead th { color: var(--soft); border-bottom: 1px solid var(--edge); }
      tbody tr + tr > * { border-top: 1px solid var(--rule); }
      tbody th { width: 30%; }
      .amount { white-space: nowrap; }
      .box { width: 1.6em; }
      .box::before { content: ''; display: inline-block; width: 0.9em; height: 0.9em; border: 1.5px solid var(--edge); border-radius: 2px; vertical-align: -0.1em; }
      .cautions { list-style: none; margin: 0; padding: 0; display: grid; grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); gap: 0.25rem var(--gap); font-size: var(--text-small); }
      .cautions li { display: flex; gap: var(--gap-small); align-items: center; }
      .cautions svg { flex: none; }
      @media print {
        :host { max-width: none; }
        .scroll { overflow: visible; }
        section, tr, li { break-inside: avoid; }
        h3 { break-after: avoid; }
      }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  /** Whether it can be seen: the day is worked out only then. */
  @property({ type: Boolean }) shown = false;

  override render() {
    const scenario = this.draft?.scenario;
    if (!this.draft || !scenario) return html`<p role="status">The card appears once everything in the lab is valid.</p>`;
    const { values } = scenario;
    const card = setupCard(scenario);
    const grade = valueAt(this.draft.json, 'resin.grade') ?? DEFAULT_GRADE;
    return html`<h2 class="title">Set-up card: ${scenario.title}</h2>
      <p>${card.groups} groups of ${values['class.people']}, ${count(card.aliquots, 'aliquot')} and ${count(card.columns, 'column')} each, ${withUnit(String(values['class.period_min']), 'min')}.</p>
      <bf-day-warning .scenario=${this.shown ? scenario : undefined}></bf-day-warning>
      ${this.table(
        'Columns and resin',
        ['for each column', 'amount'],
        [
          [`columns for the class`, String(card.groups * card.columns)],
          ...COLUMN.map((path) => [FIELDS[path].label, valueWords(path, values[path])]),
          [`settled resin, ${String(grade)}`, quantity(card.resin_mL, 'mL', 2)],
          ['settled resin for the class, with a fifth to spare', quantity(card.resinClass_mL, 'mL', 2)],
        ],
      )}
      ${this.table(
        'Bottles',
        ['bottle', 'a group', 'the class', 'how'],
        card.bottles.map((bottle) => [bottle.label, quantity(bottle.each_mL, 'mL'), quantity(bottle.class_mL, 'mL'), bottleWords(bottle, card.stock_M)]),
      )}
      ${this.table(
        'Stock and work-up',
        ['prepare', 'the class', 'how'],
        [
          [`${card.stock_M} mol/L HCl (37 %)`, quantity(card.stock_mL, 'mL'), 'for all the bottles above'],
          ...card.supplies.map(({ name, amount, unit, how }) => [name, quantity(amount, unit), how]),
        ],
      )}
      ${this.table(
        'Waste, kept apart',
        ['stream', 'what', 'volume', 'rule'],
        card.waste.map(({ stream, what, volume_mL, rule }) => [stream, what, volume_mL === undefined ? 'solid' : quantity(volume_mL, 'mL', 2), rule]),
      )}
      <section><h3>Cautions</h3><ul class="cautions">${Object.values(CAUTIONS).map(({ heading, pictogram: sign }) => html`<li>${pictogram(sign)}<span>${heading}</span></li>`)}</ul>
      <p>${card.note}</p></section>
      <p class="soft">The volumes follow from the lab’s procedure, with a quarter of the acid and a fifth of the rest to spare. The amounts for the work-up are those of a typical group.</p>`;
  }

  /** With a box to tick in front of every row. */
  private table(heading: string, columns: readonly string[], rows: readonly (readonly string[])[]) {
    if (rows.length === 0) return nothing;
    return html`<section><h3>${heading}</h3><div class="scroll" role="region" aria-label=${heading} tabindex="0"><table>
      <thead><tr><td></td>${columns.map((column) => html`<th scope="col">${column}</th>`)}</tr></thead>
      <tbody>${rows.map(([first, ...rest]) => html`<tr><td class="box"></td><th scope="row">${first}</th>${rest.map((text) => html`<td class=${AMOUNT.test(text) ? 'amount' : ''}>${text}</td>`)}</tr>`)}</tbody>
    </table></div></section>`;
  }
}

function valueWords(path: FieldPath, value: number): string {
  if (path === 'bench.start_HCl_M') return value === 0 ? 'water' : `${withUnit(String(value), 'mol/L')} HCl`;
  const text = String(value);
  return withUnit(text.includes('e') ? significant(value, 4) : text, FIELDS[path].unit);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-setup-card': SetupCardPage;
  }
}
