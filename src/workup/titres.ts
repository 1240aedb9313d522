import { columnName } from '../ui/text/column-name.ts';
import { receiverName } from '../ui/text/receiver-words.ts';
import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { type KeptResult, sameAliquot, type Titration } from '../../sim/report/index.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import type { WorkUpStore } from '../store/work-up-store.ts';
import { KEPT_MAX } from '../store/keep/work-up.ts';
import type { Row } from '../ui/text/csv.ts';
import { amountsAsked } from '../ui/text/amounts-asked.ts';
import { emit } from '../ui/emit.ts';
import { fixed, millilitres } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import '../ui/table.ts';

const TITRES = [
  { key: 'titration', label: 'titration' },
  { key: 'initial', label: 'first reading', unit: 'mL', show: (value: number) => fixed(value, 2) },
  { key: 'final', label: 'last reading', unit: 'mL', show: (value: number) => fixed(value, 2) },
  { key: 'start', label: 'pH at start', show: (value: number) => fixed(value, 2) },
  { key: 'end', label: 'pH at end', show: (value: number) => fixed(value, 2) },
  { key: 'seen', label: 'end point' },
];
const CAUSES = [
  { key: 'cause', label: 'cause' },
  { key: 'percent', label: 'change', unit: '%' },
  { key: 'mL', label: 'as titrant', unit: 'mL' },
  { key: 'text', label: 'why' },
];
/** Share of the cobalt of the fullest receiver from which another is worth a titration; a choice. */
const WORTH = 0.5;
/** Causes that change nothing visible are left out, %. */
const VISIBLE_PERCENT = 0.005;

/**
 * The titrations so far, why they find too much or too little, and what to do with the result.
 *
 * @fires bf-next-run - words on the next aliquot, which was run
 */
@customElement('bf-titres')
export class Titres extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); }
      h2 { font-size: 1em; margin: 0; }
      p { margin: 0; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; }
      summary::before { content: '▸'; width: 1.25em; }
      details[open] summary::before { content: '▾'; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    const titrations = session?.workUp.figures?.titrations ?? [];
    const last = titrations.at(-1);
    if (!session || !last) return nothing;
    const result = session.workUp.result;
    const { kept } = session.workUp.saved;
    const { store } = session;
    const again = result !== undefined && kept.some((one) => sameAliquot(one, result)) ? result : undefined;
    return html`<section aria-labelledby="heading">
      <h2 id="heading">Titrations of this eluate</h2>
      <bf-table caption="Burette and meter" .columns=${TITRES} .rows=${titrations.map(rowOf)} turns></bf-table>
      <div class="row">
        <a href="#notebook">Calculate the molarity in the notebook</a>
        ${result ? html`<button type="button" class="primary" @click=${this.keep}>${again ? 'Replace the earlier result of this aliquot' : 'Keep the result of this aliquot'}</button>` : nothing}
      </div>
      ${
        kept.length === 0
          ? html`<p class="soft">Kept results are compared in the notebook: ${KEPT_MAX} aliquots, each run over the column separately.</p>`
          : html`<p>${again ? `${keptWords(again)} ` : ''}${kept.length} of ${KEPT_MAX} aliquots kept.</p>
        <div class="row">
          ${this.waiting(session).map((label) => html`<button type="button" @click=${() => session.workUp.take(label)}>Work up “${receiverName(label)}”</button>`)}
          <button type="button" @click=${() => this.next(true)} ?disabled=${store.busy}>Next aliquot, handled the same</button>
          <button type="button" @click=${() => this.next(false)} ?disabled=${store.busy}>Next aliquot, by hand</button>
        </div>`
      }
      <details><summary>Why the last titration is not exact</summary>
        ${
          session.workUp.showsAmounts
            ? html`<bf-table caption="From an ideal work-up to this titre, cause by cause" .columns=${CAUSES} .rows=${causesOf(last)}></bf-table>
        <p class="soft">The causes are switched on one after another in this order. Where only a direction is given, the size depends on constants that are not published for thiocyanate in acetone, on the faintest blue that an eye sees, or on how fast lumps dissolve: the sign is certain, but a figure would be invented.</p>`
            : amountsAsked(session.workUp.askForAmounts)
        }
      </details>
    </section>`;
  }

  /** Receivers of this run with about as much cobalt as this one that are not kept yet. */
  private waiting({ workUp, store }: Session): string[] {
    const least = WORTH * (workUp.richest?.Co_mmol === undefined ? Number.POSITIVE_INFINITY : Number(workUp.richest.Co_mmol));
    const done = workUp.saved.kept
      .filter(({ seed, scenario }) => seed === store.scenario?.seed && scenario === store.scenario.id)
      .map(({ receiver }) => receiver);
    return workUp.receivers.flatMap(({ label, Co_mmol }) =>
      Number(Co_mmol ?? 0) >= least && label !== workUp.saved.receiver && !done.includes(label) ? [label] : [],
    );
  }

  private keep() {
    const { session } = this;
    const result = session?.workUp.result;
    if (!session || !result) return;
    session.workUp.keep(result);
    emit(this, 'bf-announce', keptWords(result));
  }

  private async next(same: boolean) {
    const { session } = this;
    const opened = await session?.nextAliquot(same);
    if (!session || !opened) return;
    const column = columnName(session.store.scenario?.seed ?? 0);
    if (same)
      return emit(
        this,
        'bf-next-run',
        `The next aliquot was run over ${column} with the same actions at the same times: ${heldWords(session.workUp)} Work it up here.`,
      );
    location.hash = '#bench';
    emit(this, 'bf-announce', `Next column: ${column}`);
  }
}

function keptWords({ receiver, seed }: KeptResult): string {
  return `Kept: “${receiverName(receiver)}”, ${columnName(seed)}.`;
}

function heldWords({ receiver, saved }: WorkUpStore): string {
  const name = `“${receiverName(saved.receiver)}”`;
  return receiver ? `${name} holds ${millilitres(receiver.volume_mL)}.` : `nothing ran into ${name}.`;
}

function rowOf({ titre, pH }: Titration, i: number): Row {
  const seen = titre.pink
    ? titre.blueReturned > 0
      ? `blue gone, came back ${titre.blueReturned === 1 ? 'once' : `${titre.blueReturned} times`}`
      : 'blue gone for good'
    : 'not yet';
  return { titration: String(i + 1), initial: titre.initial_mL, final: titre.final_mL, start: pH.start, end: pH.end, seen };
}

function causesOf({ causes, bias_percent }: Titration): Row[] {
  const rows: Row[] = causes
    .filter(({ percent }) => Math.abs(percent) >= VISIBLE_PERCENT)
    .map(({ cause, percent, mL, text, illustrative }) => {
      if (illustrative) return { cause, percent: percent > 0 ? 'late, finds more' : 'early, finds less', text };
      return { cause, percent: fixed(percent, 2), mL: fixed(mL, 3), text };
    });
  return [
    ...rows,
    {
      cause: 'together',
      percent: fixed(bias_percent, 2),
      mL: fixed(
        causes.reduce((sum, { mL }) => sum + mL, 0),
        3,
      ),
      text: 'against the cobalt that the receiver holds',
    },
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-titres': Titres;
  }
}
