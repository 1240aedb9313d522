import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { own } from '../../../sim/input/index.ts';
import { effective, valueAt, withValueAt } from '../../../sim/lab/index.ts';
import { FIELDS, type Field, type FieldPath } from '../../../sim/terms/fields.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { stepOf } from './contents.ts';
import '../../ui/number.ts';

/** One parameter of the tables: its number and what is wrong with it; on a press, what it means and where its default comes from. */
@customElement('bf-lab-field')
export class LabField extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      .row { display: flex; align-items: end; gap: 0.125rem; }
      bf-number { min-width: 0; }
      .ask { padding: 0 0.5em; color: var(--accent); flex: none; }
      .about { margin: 0.125rem 0 0; font-size: var(--text-small); color: var(--soft); overflow-wrap: anywhere; }
      .about button { font-size: inherit; min-height: 1.75rem; }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  @property({ attribute: false }) path: FieldPath = 'column.bore_cm';
  @state() private asked = false;

  override render() {
    const { draft, path } = this;
    if (!draft) return nothing;
    const row: Field = FIELDS[path];
    const value = effective(draft.json, path) ?? valueAt(draft.json, path);
    return html`<div class="row">
        <bf-number .of=${{ ...row, step: stepOf(path) }} .value=${typeof value === 'number' ? value : Number.NaN} .error=${live(draft.problemAt(path))} @bf-change=${this.take}></bf-number>
        <button type="button" class="plain ask" aria-expanded=${this.asked ? 'true' : 'false'} aria-label="About ${row.label}" @click=${this.ask}>?</button>
      </div>
      ${this.asked ? this.about(draft, row) : nothing}`;
  }

  private about(draft: LabDraft, row: Field) {
    const usual = effective(withValueAt(draft.json, this.path, undefined), this.path) ?? row.default;
    const isSet = valueAt(draft.json, this.path) !== undefined;
    const unit = row.unit === '' ? '' : ` ${row.unit}`;
    const note = own(own(draft.json, 'fitted'), this.path);
    const fitted =
      note === undefined
        ? ''
        : `Fitted to your run, ${String(own(note, 'date'))}: 95 % within ${String(own(note, 'low'))} to ${String(own(note, 'high'))}${unit}. `;
    return html`<p class="about">${fitted}${row.meaning}. From ${row.min} to ${row.max}${unit}; usual: ${usual}${unit}, ${row.source} (${row.status}).
      ${isSet ? html`<button type="button" @click=${() => draft.set(this.path, undefined)}>Use ${usual}${unit}</button>` : nothing}</p>`;
  }

  private ask() {
    this.asked = !this.asked;
  }

  /** The usual value is not written, so that it follows the grade of resin. */
  private take(event: CustomEvent<{ value: number }>) {
    const { draft, path } = this;
    const { value } = event.detail;
    if (!draft) return;
    const usual = effective(withValueAt(draft.json, path, undefined), path);
    draft.set(path, value === usual ? undefined : value);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-field': LabField;
  }
}
