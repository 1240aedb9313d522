import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { own } from '../../../sim/input/index.ts';
import { valueAt } from '../../../sim/lab/index.ts';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { plotStyles } from '../../plot/styles.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import { readRows, type Scale } from '../../ui/text/curve-table.ts';
import type { LabDraft } from '../draft.ts';
import { partStyles } from '../sections/styles.ts';
import { curveDrawing, isDrawn } from './curve-drawing.ts';
import { drawnWords, takenWords, typedWords } from './curve-words.ts';
import '../../ui/segmented.ts';

const SIZE = { width: 420, height: 260 };

/** Tables of D_v against HCl that replace the built-in curves: typed or pasted from a spreadsheet, and drawn with them. */
@customElement('bf-lab-curve')
export class CurvePart extends LiveElement {
  static override styles = [
    controlStyles,
    plotStyles,
    partStyles,
    css`
      textarea { font-variant-numeric: tabular-nums; min-height: 8rem; }
      svg.plot { width: 100%; max-width: 30rem; height: auto; }
      svg.plot .own { fill: var(--paper); stroke-width: 2; }
      ol { margin: 0; padding: 0; list-style: none; }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @state() private chosen: IonId | undefined;
  /** Text that is typed but not used yet. */
  @state() private text: string | undefined;
  @state() private scale: Scale = 'plain';

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const ions = ionsOf(draft.json);
    const ion = this.chosen && ions.includes(this.chosen) ? this.chosen : ions[0];
    if (!ion) return nothing;
    const taken = valueAt(draft.json, `curves.${ion}`);
    const text = this.text ?? textOf(taken);
    const { points, issues } = text.trim() === '' ? { points: [], issues: [] } : readRows(text, this.scale);
    const { name } = IONS[ion];
    return html`<div class="row"><label class="text">metal<select @change=${this.choose}>${ions.map((one) => html`<option value=${one} .selected=${one === ion}>${IONS[one].name}</option>`)}</select></label>
        <bf-segmented label="second number" .value=${this.scale} .choices=${[
          { value: 'plain', label: 'Dᵥ' },
          { value: 'log', label: 'log Dᵥ' },
        ]} @bf-change=${this.takeScale}></bf-segmented></div>
      <p class="soft">Your table changes only how strongly the resin takes the metal up. Charge, colour and titration stay those of the metal. A metal that is not listed here is first ticked under “Metals in this lab”.</p>
      <label class="text">HCl in mol/L and Dᵥ, one pair per line, as copied from a spreadsheet. Separate the two numbers by a tab, semicolon or comma; the first line may be a heading.
        <textarea spellcheck="false" aria-invalid=${issues.length > 0 ? 'true' : 'false'} .value=${text} @input=${this.type}></textarea></label>
      ${issues.length > 0 ? html`<ol class="problem" role="alert" aria-label="Rows that cannot be used">${issues.map((issue) => html`<li>${typedWords(issue)}</li>`)}</ol>` : nothing}
      ${this.plot(draft, ion, points)}
      <div class="row">
        <button type="button" class=${this.text === undefined ? '' : 'primary'} ?disabled=${this.text === undefined || points.length === 0 || issues.length > 0} @click=${() => this.use(ion, points)}>Use this table for ${name}</button>
        ${taken === undefined ? nothing : html`<button type="button" @click=${() => this.use(ion, undefined)}>Back to the built-in curve</button>`}
      </div>
      <p class="problem" role="alert">${draft.issues
        .filter(({ path }) => path.startsWith('curves'))
        .map(takenWords)
        .join(' ')}</p>
      <p class="soft">${taken === undefined ? `The run uses the built-in curve for ${name}, recalled from the classic papers, not read.` : `The run uses your table for ${name}.`}</p>`;
  }

  private plot(draft: LabDraft, ion: IonId, points: readonly (readonly [number, number])[]) {
    const scenario: Scenario | undefined = draft.scenario ?? this.last;
    if (!scenario) return nothing;
    this.last = scenario;
    const words = drawnWords(points.length, points.filter((point) => !isDrawn(point)).length);
    return html`<svg class="plot" viewBox="0 0 ${SIZE.width} ${SIZE.height}" role="img" aria-label="Distribution coefficient of ${IONS[ion].name} against HCl: ${words}">${curveDrawing({ scenario, ion, points, ...SIZE })}</svg>
      <p class="soft">Drawn: ${words}.</p>`;
  }

  /** The last valid lab; it gives the resin of the built-in curve. */
  private last: Scenario | undefined;

  private choose(event: Event & { target: HTMLSelectElement }) {
    const { value } = event.target;
    this.chosen = ionsOf(this.draft?.json).find((ion) => ion === value);
    this.text = undefined;
    this.scale = 'plain';
  }

  private takeScale(event: CustomEvent<{ value: string }>) {
    this.scale = event.detail.value === 'log' ? 'log' : 'plain';
  }

  private type(event: Event & { target: HTMLTextAreaElement }) {
    this.text = event.target.value;
  }

  private use(ion: IonId, points: readonly (readonly [number, number])[] | undefined) {
    this.draft?.set(
      `curves.${ion}`,
      points?.map(([c, D]) => [c, D]),
    );
    this.text = undefined;
    this.scale = 'plain';
  }
}

function ionsOf(json: unknown): IonId[] {
  const listed = own(json, 'ions');
  return (Array.isArray(listed) ? listed.map(String) : []).filter((ion): ion is IonId => Object.hasOwn(IONS, ion));
}

function textOf(curve: unknown): string {
  return Array.isArray(curve) ? curve.map((row: unknown) => (Array.isArray(row) ? row.join('\t') : String(row))).join('\n') : '';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-curve': CurvePart;
  }
}
