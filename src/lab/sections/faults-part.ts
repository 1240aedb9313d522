import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { amountOf, amountRange, FAULT_GROUPS, FAULTS, severityOf } from '../../../sim/faults/index.ts';
import { own } from '../../../sim/input/index.ts';
import { valueAt } from '../../../sim/lab/index.ts';
import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import { LIMITS } from '../../../sim/terms/limits.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { partStyles } from './styles.ts';
import '../../ui/number.ts';

/** Severity first offered, as a share of the most; a choice. */
const FIRST_SEVERITY = 0.6;

/** What is wrong with the column from the start, and whether students are told. */
@customElement('bf-lab-faults')
export class FaultsPart extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      li { border-top: 1px solid var(--rule); padding-top: var(--gap-small); }
      .check { display: flex; gap: var(--gap-small); align-items: center; min-height: var(--target); }
      h3 { font-size: 1rem; margin: 0; }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const faults = listOf(valueAt(draft.json, 'faults'));
    const kinds = faults.map((fault) => own(fault, 'kind'));
    return html`<ul>${faults.map((fault, i) => this.fault(draft, fault, i))}</ul>
      <div class="row" data-path="faults"><label>Add a fault <select @change=${this.add}><option value="">choose …</option>
        ${Object.entries(FAULT_GROUPS).map(
          ([group, label]) =>
            html`<optgroup label=${label}>${FAULT_KINDS.filter((kind) => FAULTS[kind].group === Number(group) && !kinds.includes(kind)).map((kind) => html`<option value=${kind}>${FAULTS[kind].label}</option>`)}</optgroup>`,
        )}</select></label></div>
      <p class="problem" role="alert">${draft.problemAt('faults')}</p>
      <label class="check"><input type="checkbox" .checked=${draft.lab.hidden} @change=${(event: Event & { target: HTMLInputElement }) => draft.setHidden(event.target.checked)} />
        Students have to find out what is wrong, if anything</label>
      ${draft.lab.hidden ? html`<p class="soft">Title, purpose and notes are shown to them as you write them. A sealed link hides the fault from view, but not from someone who examines the code of the page.</p>` : nothing}`;
  }

  private fault(draft: LabDraft, fault: unknown, i: number) {
    const kind = FAULT_KINDS.find((one) => one === own(fault, 'kind'));
    const path = `faults[${i}]`;
    const remove = () => draft.set('faults', keptOr(listOf(valueAt(draft.json, 'faults')).filter((_, at) => at !== i)));
    if (!kind)
      return html`<li data-path=${path}><p class="problem" role="alert">${draft.problemAt(`${path}.kind`)}</p><button type="button" @click=${remove}>Remove</button></li>`;
    const { label, what, hasSide, hasDepth } = FAULTS[kind];
    return html`<li data-path=${path}><div role="group" aria-label=${label}><h3>${label}</h3><p class="soft">${what}</p>
      <div class="row">
        ${this.amount(draft, `${path}.severity`, kind)}
        ${hasSide ? this.number(draft, `${path}.side_deg`, LIMITS['fault.side_deg'], 0) : nothing}
        ${hasDepth ? this.number(draft, `${path}.depth_share`, LIMITS['fault.depth_share'], 1) : nothing}
        <button type="button" class="plain" @click=${remove}>Remove<span class="unseen"> ${label}</span></button>
      </div>
      <p class="problem" role="alert">${draft.problemAt(`${path}.kind`)}</p></div></li>`;
  }

  /** Severity as the amount that it stands for: minutes dry, centimetres missing. */
  private amount(draft: LabDraft, path: string, kind: FaultKind) {
    const value = valueAt(draft.json, path);
    const amount = Number(amountOf(kind, typeof value === 'number' ? value : 1).toPrecision(3));
    return html`<bf-number data-path=${path} .of=${amountRange(kind)} .value=${amount} .error=${draft.problemAt(path)}
      @bf-change=${(event: CustomEvent<{ value: number }>) => draft.set(path, Number(severityOf(kind, event.detail.value).toPrecision(6)))}></bf-number>`;
  }

  private number(draft: LabDraft, path: string, of: (typeof LIMITS)[`fault.${'side_deg' | 'depth_share'}`], usual: number) {
    const value = valueAt(draft.json, path);
    return html`<bf-number data-path=${path} .of=${of} .value=${typeof value === 'number' ? value : usual} .error=${draft.problemAt(path)}
      @bf-change=${(event: CustomEvent<{ value: number }>) => draft.set(path, event.detail.value)}></bf-number>`;
  }

  private add(event: Event & { target: HTMLSelectElement }) {
    const { draft } = this;
    const { target } = event;
    const kind = FAULT_KINDS.find((one): one is FaultKind => one === target.value);
    target.value = '';
    if (draft && kind) draft.set('faults', [...listOf(valueAt(draft.json, 'faults')), { kind, severity: FIRST_SEVERITY }]);
  }
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function keptOr<T>(list: readonly T[]): readonly T[] | undefined {
  return list.length > 0 ? list : undefined;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-faults': FaultsPart;
  }
}
