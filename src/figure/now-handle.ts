import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { emit } from '../ui/emit.ts';
import { spoken } from '../ui/text/format.ts';

const STEP_ML = 0.1;
const STRIDE_ML = 1;

/**
 * The moment shown, to drag back along the volume axis and forth again up to the present.
 *
 * @fires bf-look-back - {delivered_mL} wanted; undefined for the present
 */
@customElement('bf-now-handle')
export class NowHandle extends LitElement {
  static override styles = css`
    :host { position: absolute; width: 24px; height: 24px; margin: -12px; z-index: 2; touch-action: pan-y; cursor: ew-resize; border-radius: 50%; }
    :host::after { content: ''; position: absolute; inset: 5px; border-radius: 50%; background: var(--accent); border: 2px solid var(--paper); }
    :host(:hover)::after, :host(:focus)::after { inset: 2px; }
    :host(:focus-visible) { outline: 3px solid var(--focus); }
    @media (pointer: coarse) { :host::before { content: ''; position: absolute; inset: -10px; } }
    @media print { :host { display: none; } }
  `;

  @property({ type: Number }) mL = 0;
  @property({ type: Number }) max = 0;
  @property({ type: Number }) pxPerMl = 1;
  private taken: { readonly mL: number; readonly clientX: number } | undefined;

  constructor() {
    super();
    this.addEventListener('pointerdown', this.grip);
    this.addEventListener('pointermove', this.drag);
    this.addEventListener('pointerup', this.drop);
    this.addEventListener('pointercancel', this.drop);
    this.addEventListener('keydown', this.key);
  }

  override connectedCallback() {
    super.connectedCallback();
    this.tabIndex = 0;
    this.setAttribute('role', 'slider');
    this.setAttribute('aria-label', 'Moment shown');
  }

  override updated() {
    this.setAttribute('aria-valuemin', '0');
    this.setAttribute('aria-valuemax', Math.max(this.mL, this.max).toFixed(2));
    this.setAttribute('aria-valuenow', this.mL.toFixed(2));
    this.setAttribute('aria-valuetext', `${spoken(this.mL, 'mL')} delivered`);
  }

  override render() {
    return html``;
  }

  private grip(event: PointerEvent) {
    if (event.button !== 0) return;
    event.preventDefault();
    this.setPointerCapture(event.pointerId);
    this.focus({ preventScroll: true });
    this.taken = { mL: this.mL, clientX: event.clientX };
  }

  private drag(event: PointerEvent) {
    if (this.taken) this.tell(this.taken.mL + (event.clientX - this.taken.clientX) / this.pxPerMl);
  }

  private drop() {
    this.taken = undefined;
  }

  private key(event: KeyboardEvent) {
    const side = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (side !== undefined) this.tell(this.mL + side * (event.shiftKey ? STRIDE_ML : STEP_ML));
    else if (event.key === 'Home') this.tell(0);
    else if (event.key === 'End') this.tell(this.max);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  private tell(mL: number) {
    const delivered_mL = mL >= this.max ? undefined : Math.max(0, mL);
    emit(this, 'bf-look-back', { delivered_mL });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-now-handle': NowHandle;
  }
}
