import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { amountOf, amountRange, FAULTS, severityOf } from '../../sim/faults/index.ts';
import { CONTROLS } from '../../sim/terms/controls.ts';
import { LIMITS } from '../../sim/terms/limits.ts';
import type { FaultKind } from '../../sim/terms/fault-kinds.ts';
import type { Fault } from '../../sim/terms/types.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles } from '../ui/styles.ts';
import { SIDES } from './severity.ts';
import '../ui/number.ts';
import '../ui/segmented.ts';

/** Severity first offered, as a share of the most; a choice. */
const FIRST_SEVERITY = 0.6;
const DEGREES = 'degrees';
const NONE = 'none';

/**
 * Severity, side and depth of one fault, and the two ways to impose it.
 *
 * @fires bf-impose - {fault, when: 'start' | 'now'}
 */
@customElement('bf-fault-form')
export class FaultForm extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: grid; gap: var(--gap-small); }
      .buttons { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      p { margin: 0; font-size: var(--text-small); color: var(--soft); }
    `,
  ];

  @property() kind: FaultKind = 'channel';
  @property({ type: Number }) length_cm = 7;
  /** The fault can also begin at the moment shown. */
  @property({ type: Boolean }) canNow = false;
  @state() private amount = Number.NaN;
  @state() private side = '0';
  @state() private deg = 45;
  @state() private depth_cm = Number.NaN;

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (!changed.has('kind')) return;
    this.amount = Number(amountOf(this.kind, FIRST_SEVERITY).toPrecision(2));
    this.depth_cm = Number.NaN;
  }

  override render() {
    const { kind, deepest_cm } = this;
    const { hasSide, hasDepth, place } = FAULTS[kind];
    return html`
      <bf-number slider show-range .of=${amountRange(kind)} .value=${this.amount}
        @bf-input=${this.takeAmount} @bf-change=${this.takeAmount}></bf-number>
      ${hasSide ? this.sides() : nothing}
      ${
        hasDepth
          ? html`<bf-number slider show-range .of=${CONTROLS['fault.depth_cm']} .max=${deepest_cm} .value=${this.depthShown()}
        @bf-input=${this.takeDepth} @bf-change=${this.takeDepth}></bf-number>`
          : nothing
      }
      <div class="buttons">
        <button type="button" class="primary" @click=${() => this.impose('start')}>Impose before the run</button>
        ${this.canNow ? html`<button type="button" @click=${() => this.impose('now')}>Impose now</button>` : nothing}
      </div>
      ${place === 'bed' ? nothing : html`<p>${place === 'scenario' ? 'This fault lies in the bottles or the packing' : 'This fault lies in the operator’s actions and changes the procedure'}, so it can only be imposed from the start.</p>`}`;
  }

  private sides() {
    const choices = [
      ...SIDES.map(({ label, deg }) => ({ value: String(deg), label })),
      { value: DEGREES, label: 'degrees' },
      { value: NONE, label: this.kind === 'channel' ? 'core' : 'any' },
    ];
    return html`<bf-segmented label="side" .value=${this.side} .choices=${choices} @bf-change=${this.takeSide}></bf-segmented>
      ${this.side === DEGREES ? html`<bf-number show-range .of=${LIMITS['fault.side_deg']} .value=${this.deg} @bf-change=${this.takeDegrees}></bf-number>` : nothing}`;
  }

  /** The whole bed, as a ruler reads it. */
  private get deepest_cm(): number {
    return Number(this.length_cm.toFixed(1));
  }

  private depthShown(): number {
    return Number.isNaN(this.depth_cm) ? this.deepest_cm : Math.min(this.depth_cm, this.deepest_cm);
  }

  private fault(): Fault {
    const { kind, deepest_cm } = this;
    const { hasSide, hasDepth } = FAULTS[kind];
    const depth = this.depthShown();
    return {
      kind,
      severity: Math.min(1, Math.max(0, severityOf(kind, this.amount))),
      ...(hasSide && this.side !== NONE ? { side_deg: this.side === DEGREES ? this.deg : Number(this.side) } : {}),
      ...(hasDepth && depth < deepest_cm ? { depth_share: depth / deepest_cm } : {}),
    };
  }

  private impose(when: 'start' | 'now') {
    emit(this, 'bf-impose', { fault: this.fault(), when });
  }

  private takeAmount(event: CustomEvent<{ value: number }>) {
    this.amount = event.detail.value;
  }

  private takeDepth(event: CustomEvent<{ value: number }>) {
    this.depth_cm = event.detail.value;
  }

  private takeSide(event: CustomEvent<{ value: string }>) {
    this.side = event.detail.value;
  }

  private takeDegrees(event: CustomEvent<{ value: number }>) {
    this.deg = event.detail.value;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fault-form': FaultForm;
  }
}
