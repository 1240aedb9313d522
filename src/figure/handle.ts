import { LitElement, css, html, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { emit } from '../ui/emit.ts';
import { millilitres, spoken } from '../ui/text/format.ts';

export interface HandleEvent {
  readonly entry: number;
  readonly kind: 'eluent' | 'receiver';
  readonly delivered_mL: number;
  readonly phase: 'move' | 'drop' | 'cancel';
}

/** Steps of the arrow keys, alone and with shift, and the grid that a drag snaps to, mL. */
const STEP_ML = 0.1;
const STRIDE_ML = 1;
/** Decimals of a volume told, mL: enough to find a frame again, few enough to hide the binary rest. */
const DECIMALS = 6;

const SHAPES = {
  eluent: svg`<path d="M12 22C7 22 5 18.5 5 15.5C5 11.5 12 3 12 3S19 11.5 19 15.5C19 18.5 17 22 12 22Z"></path>`,
  receiver: svg`<path d="M4 5H20L18 21H6Z"></path><path class="level" d="M6.5 12H17.5"></path>`,
} as const;

/**
 * A change of eluent (a drop) or of receiver (a beaker) on the volume axis, to drag or to move by keys. It only tells where
 * it is wanted; its owner moves it.
 */
@customElement('bf-axis-handle')
export class AxisHandle extends LitElement {
  static override styles = css`
    /* px like the figure it stands on, so that two tiers never overlap */
    :host { position: absolute; width: 28px; height: 28px; margin: -14px; touch-action: pan-y; cursor: ew-resize; border-radius: 50%; color: var(--ink); z-index: 1; }
    @media (pointer: coarse) { :host::before { content: ''; position: absolute; inset: -8px; } }
    :host(:focus-visible) { outline: 3px solid var(--focus); outline-offset: 0; }
    :host(:hover), :host(:focus), :host([held]) { z-index: 3; }
    svg { position: absolute; inset: 0; margin: auto; width: 22px; height: 22px; }
    path { fill: var(--sheet); stroke: var(--ink); stroke-width: 2; stroke-linejoin: round; }
    :host(:hover) path, :host(:focus) path, :host([held]) path { fill: var(--accent); stroke: var(--paper); stroke-width: 1.5; paint-order: fill; }
    span { position: absolute; left: calc(100% - 2px); top: 50%; transform: translateY(-50%); padding: 0 0.25em; white-space: nowrap; font-size: var(--text-small);
      pointer-events: none; border-radius: var(--round); opacity: 0; }
    :host([kind='receiver']) span { top: 10px; }
    :host([turned]) span { left: auto; right: calc(100% - 2px); }
    :host([labelled]) span { opacity: 1; }
    :host(:hover) span, :host(:focus) span, :host([held]) span { opacity: 1; background: var(--sheet); box-shadow: 0 0 0 1px var(--edge); }
    @media print { :host { display: none; } }
  `;

  @property({ attribute: false }) entry = -1;
  @property({ reflect: true }) kind: 'eluent' | 'receiver' = 'eluent';
  /** What is poured or put under the tip from here on. */
  @property() label = '';
  @property({ type: Number }) mL = 0;
  @property({ type: Number }) min = 0;
  @property({ type: Number }) max = 0;
  @property({ type: Number }) pxPerMl = 1;
  /** The label shows all the time, not only when the handle is in use. */
  @property({ type: Boolean, reflect: true }) labelled = false;
  /** The label stands on the left. */
  @property({ type: Boolean, reflect: true }) turned = false;
  @property({ type: Boolean, reflect: true }) held = false;
  /** Where it was when it was taken up, and where the pointer took it. */
  private taken: { readonly mL: number; readonly clientX: number } | undefined;
  private wanted = 0;

  constructor() {
    super();
    this.addEventListener('pointerdown', this.grip);
    this.addEventListener('pointermove', this.drag);
    this.addEventListener('pointerup', this.release);
    this.addEventListener('pointercancel', this.cancel);
    this.addEventListener('keydown', this.key);
    this.addEventListener('blur', this.release);
  }

  override connectedCallback() {
    super.connectedCallback();
    this.tabIndex = 0;
    this.setAttribute('role', 'slider');
  }

  override updated() {
    const what = this.kind === 'eluent' ? `${this.label} poured` : `receiver ${this.label} put under the tip`;
    this.setAttribute('aria-label', what);
    this.setAttribute('aria-valuemin', this.min.toFixed(2));
    this.setAttribute('aria-valuemax', Math.max(this.min, this.max).toFixed(2));
    this.setAttribute('aria-valuenow', this.mL.toFixed(2));
    this.setAttribute('aria-valuetext', `${what} from ${spoken(this.mL, 'mL')} delivered`);
  }

  override render() {
    return html`<svg viewBox="0 0 24 24" aria-hidden="true">${SHAPES[this.kind]}</svg><span aria-hidden="true">${this.label} at ${millilitres(this.mL)}</span>`;
  }

  private grip(event: PointerEvent) {
    if (event.button !== 0) return;
    event.preventDefault();
    this.release();
    this.setPointerCapture(event.pointerId);
    this.focus({ preventScroll: true });
    this.take(event.clientX);
  }

  private drag(event: PointerEvent) {
    if (!this.taken || !this.hasPointerCapture(event.pointerId)) return;
    this.move(this.taken.mL + (event.clientX - this.taken.clientX) / this.pxPerMl);
  }

  private release() {
    if (!this.taken) return;
    const moved = this.wanted !== this.taken.mL;
    this.taken = undefined;
    this.tell(moved ? 'drop' : 'cancel');
  }

  private cancel() {
    if (!this.taken) return;
    this.wanted = this.taken.mL;
    this.taken = undefined;
    this.tell('cancel');
  }

  private key(event: KeyboardEvent) {
    const side = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (side !== undefined) {
      this.take(0);
      this.move(this.wanted + side * (event.shiftKey ? STRIDE_ML : STEP_ML));
    } else if (event.key === 'Home' || event.key === 'End') {
      this.take(0);
      this.move(event.key === 'Home' ? this.min : this.max);
    } else if (event.key === 'Enter') this.release();
    else if (event.key === 'Escape' && this.taken) this.cancel();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  private take(clientX: number) {
    if (this.taken) return;
    this.taken = { mL: this.mL, clientX };
    this.wanted = this.mL;
  }

  private move(mL: number) {
    const snapped = Math.round(Math.max(this.min, Math.min(this.max, mL)) / STEP_ML) * STEP_ML;
    const next = Number(Math.max(this.min, Math.min(this.max, snapped)).toFixed(DECIMALS));
    if (next === this.wanted) return;
    this.wanted = next;
    this.tell('move');
  }

  private tell(phase: HandleEvent['phase']) {
    emit<HandleEvent>(this, 'bf-handle', { entry: this.entry, kind: this.kind, delivered_mL: this.wanted, phase });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-axis-handle': AxisHandle;
  }
}
