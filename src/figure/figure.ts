import { LitElement, type PropertyValues, html, nothing, svg } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import { styleMap } from 'lit/directives/style-map.js';
import type { Theme } from '../../sim/colour/plot.ts';
import type { Scenario } from '../../sim/types.ts';
import { plotStyles } from '../plot/styles.ts';
import type { Handle } from '../store/edit.ts';
import type { Plan } from '../store/planner.ts';
import { deliveredAtEnd, type FractionTargets, type SwitchWindow } from '../store/windows.ts';
import { emit } from '../ui/emit.ts';
import { shownTheme, watchTheme } from '../ui/theme.ts';
import { depthWords } from './depth-words.ts';
import { axisEnd, type Drawing, volumeScale } from './drawing.ts';
import { acidGridOf } from './fronts.ts';
import type { HandleEvent } from './handle.ts';
import { type Held, placedHandles, stems } from './handles.ts';
import { type FigureLayout, layoutOf } from './layout.ts';
import { legend } from './legend.ts';
import { depthMark, hatch, nowLine, type PredictionMark, predictionBoxes, predictionMarks, veil, verdictLine, windowBand, windowNotes } from './marks.ts';
import { cursor } from '../plot/cursor.ts';
import { type Point, pointAt } from './point.ts';
import { readOut, spokenPoint } from './read-out.ts';
import { depthRow } from './row-depth.ts';
import { effluentRow, effluents, effluentWords } from './row-effluent.ts';
import { pouredRow } from './row-poured.ts';
import { receiverRow } from './row-receivers.ts';
import { StreakImage } from './streak-image.ts';
import { rampTops } from './streaks.ts';
import { figureStyles } from './styles.ts';
import { spokenRun } from './summary.ts';
import { tracksOf } from './tracks.ts';

/** Where the cursor is told to be. */
export interface PointDetail {
  readonly delivered_mL: number;
  readonly time_min: number;
  readonly depth_cm: number;
}

/** Where the bed is drawn, px from the top of the element. */
export interface LayoutDetail {
  readonly bedTop: number;
  readonly bedBottom: number;
}

/** All that is worked out of a run before it is drawn; kept as long as the run and the size stay the same. */
interface Worked extends Drawing {
  readonly tracks: ReturnType<typeof tracksOf>;
  readonly acid: ReturnType<typeof acidGridOf>;
  readonly curves: ReturnType<typeof effluents>;
  readonly tops: readonly number[];
  readonly end_mL: number;
}

/** Steps of the arrow keys, alone and with shift: mL across, share of the bed down. */
const STEP = { mL: 0.1, stride_mL: 1, depth: 0.02 } as const;

/**
 * The run as three rows over one axis of delivered volume: what was poured, where the bands were, what came out.
 *
 * Events: `bf-layout` (LayoutDetail), `bf-point` (PointDetail, or undefined on leaving), `bf-handle` (HandleEvent).
 */
@customElement('bf-figure')
export class RunFigure extends LitElement {
  static override styles = [plotStyles, figureStyles];

  @property({ attribute: false }) scenario: Scenario | undefined;
  @property({ attribute: false }) plan: Plan | undefined;
  /** The run as it would be; shown instead while it is there. */
  @property({ attribute: false }) preview: Plan | undefined;
  @property({ type: Number }) now_mL = 0;
  @property({ type: Number }) now_min = 0;
  /** Theme of the picture; that of the page when left out. */
  @property() theme: Theme | undefined;
  @property({ type: Boolean }) logScale = false;
  @property({ attribute: false }) handles: readonly Handle[] = [];
  @property({ attribute: false }) showForecast = true;
  /** Changes of receiver that meet the targets, where they may be shown. */
  @property({ attribute: false }) window: SwitchWindow | undefined;
  /** With these the verdict on the receivers is written under them. */
  @property({ attribute: false }) targets: FractionTargets | undefined;
  @property({ attribute: false }) predictions: readonly PredictionMark[] = [];
  /** Depth marked from outside, cm. */
  @property({ attribute: false }) depth_cm: number | undefined;
  /** Delivered volume marked from outside, mL. */
  @property({ attribute: false }) cursor_mL: number | undefined;

  @state() private size = { width: 0, height: 0 };
  @state() private look: { readonly mL: number; readonly share: number } | undefined;
  @state() private held: Held | undefined;
  @query('canvas') private canvas!: HTMLCanvasElement | null;
  private readonly image = new StreakImage();
  private readonly sizes = new ResizeObserver(([entry]) => {
    if (entry) this.size = { width: Math.round(entry.contentRect.width), height: Math.round(entry.contentRect.height) };
  });
  private worked: Worked | undefined;
  private stopWatching: (() => void) | undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.sizes.observe(this);
    this.stopWatching = watchTheme(() => this.requestUpdate());
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.sizes.disconnect();
    this.stopWatching?.();
  }

  override willUpdate(changed: PropertyValues) {
    if (changed.has('plan') && this.held?.dropped) this.held = undefined;
    const plan = this.preview ?? this.plan;
    if (!this.scenario || !plan || this.size.width === 0) this.worked = undefined;
    else this.worked = this.workedFor(this.scenario, plan);
  }

  override render() {
    const { worked } = this;
    if (!worked) return html`<div class="stage"></div>`;
    const { layout, plan, x } = worked;
    const { width, height, left, right, depth } = layout;
    const until = this.showForecast ? undefined : this.now_mL;
    const moved = this.held?.kind === 'receiver' ? this.held : undefined;
    const placed = placedHandles(this.held?.handles ?? this.handles, worked, this.held, until);
    return html`<div class="stage">
      <canvas style=${styleMap({ left: `${left}px`, top: `${depth.top}px`, width: `${right - left}px`, height: `${depth.bottom - depth.top}px` })} aria-hidden="true"></canvas>
      <svg class="plot" width=${width} height=${height} role="img" aria-label=${guard([plan], () => spokenRun(plan))}>
        ${hatch()}
        ${guard([worked, until], () => pouredRow(worked, until))}
        ${guard([worked], () => svg`${depthRow(worked, worked.tracks, worked.acid)}${legend(worked, worked.tops)}`)}
        ${guard([worked, this.logScale], () => effluentRow(worked, worked.curves, this.logScale))}
        ${veil(worked, this.now_mL, this.showForecast)}
        ${guard([worked, this.window], () => (this.window ? windowBand(worked, this.window) : nothing))}
        ${guard([worked, this.logScale, this.window, this.predictions, until], () => this.words(worked, until))}
        ${stems(placed, worked)}
        ${guard([worked, moved, until], () => receiverRow(worked, moved, until))}
        ${guard([worked, moved, this.targets, this.showForecast], () => (this.targets && this.showForecast ? verdictLine(worked, this.targets, moved) : nothing))}
        ${predictionMarks(worked, this.predictions)}
        ${nowLine(worked, this.now_mL)}
        ${this.depth_cm === undefined ? nothing : depthMark(worked, this.depth_cm)}
        ${this.looks(worked)}
      </svg>
      ${this.surface(worked)}
      <div @bf-handle=${this.hold}>${placed.map(({ handle, px, y, min, max, labelled, turned, held }) => html`<bf-axis-handle style=${`left: ${px}px; top: ${y}px`}
        .entry=${handle.entry} .kind=${handle.kind} .label=${handle.label} .mL=${handle.delivered_mL} .min=${min} .max=${max} .pxPerMl=${x(1) - x(0)}
        ?labelled=${labelled} ?turned=${turned} ?held=${held}></bf-axis-handle>`)}</div>
    </div>`;
  }

  override updated(changed: PropertyValues) {
    const { worked, scenario } = this;
    if (!worked || !scenario || !this.canvas) return;
    this.image.draw(this.canvas, worked.plan, worked.tops, this.theme ?? shownTheme(document), worked.end_mL, scenario.values['numerics.frame_mL']);
    if (changed.has('size')) emit<LayoutDetail>(this, 'bf-layout', { bedTop: worked.layout.depth.top, bedBottom: worked.layout.depth.bottom });
  }

  private workedFor(scenario: Scenario, plan: Plan): Worked {
    const { worked: old } = this;
    const { width, height } = this.size;
    const layout: FigureLayout = old?.layout.width === width && this.fits(old.layout, height) ? old.layout : layoutOf(width, height);
    // While a handle is held the axis must not slide away under it.
    const end_mL = this.held && old ? old.end_mL : axisEnd(scenario, this.plan ?? plan);
    if (old && old.plan === plan && old.scenario === scenario && old.layout === layout && old.end_mL === end_mL) return old;
    const drawing = { scenario, plan, layout, x: volumeScale(layout, end_mL) };
    const same = old?.plan === plan;
    return { ...drawing, end_mL, tracks: same ? old.tracks : tracksOf(plan), tops: same ? old.tops : rampTops(scenario, plan), acid: acidGridOf(drawing), curves: effluents(drawing) };
  }

  private fits(layout: FigureLayout, height: number): boolean {
    return layout.height === layoutOf(layout.width, height).height;
  }

  private words(worked: Worked, until: number | undefined) {
    const taken = [...predictionBoxes(worked, this.predictions), ...(this.window ? windowNotes(worked, this.window).map(({ box }) => box) : [])];
    return svg`${depthWords(worked, worked.tracks, worked.acid, until)}${effluentWords(worked, worked.curves, this.logScale, taken, until)}`;
  }

  private looks(worked: Worked) {
    const { x, layout } = worked;
    const mL = this.look?.mL ?? this.cursor_mL;
    if (mL === undefined) return nothing;
    const cross = this.look && this.look.share <= 1 ? depthMark(worked, this.look.share * worked.scenario.values['bed.length_cm']) : nothing;
    return svg`${cursor({ at: x(mL), top: layout.poured.top, bottom: layout.receivers.top, kind: 'look' })}${cross}`;
  }

  private surface(worked: Worked) {
    const { layout: { left, right, poured, effluent }, plan } = worked;
    const point = this.pointed(worked);
    const shown = point ?? this.pointFor(worked, this.now_mL, 0);
    return html`<div class="surface" tabindex="0" role="slider" aria-label="Cursor on the volume axis" aria-valuemin="0" aria-valuemax=${deliveredAtEnd(plan).toFixed(2)}
        aria-valuenow=${shown.delivered_mL.toFixed(2)} aria-valuetext=${point ? spokenPoint(point) : `${shown.delivered_mL.toFixed(1)} millilitres delivered`}
        style=${styleMap({ left: `${left}px`, top: `${poured.top}px`, width: `${right - left}px`, height: `${effluent.bottom - poured.top}px` })}
        @pointermove=${this.point} @pointerdown=${this.point} @pointerleave=${this.leave} @keydown=${this.key} @blur=${this.leave}></div>
      ${point ? html`<div class="read-out" style=${styleMap(this.besideCursor(worked))}>${readOut(point)}</div>` : nothing}`;
  }

  /** Over the row that is not being looked at, on the side away from the cursor. */
  private besideCursor({ layout: { left, right, width, height, depth, effluent, narrow }, x }: Worked): Record<string, string> {
    const { mL, share } = this.look ?? { mL: 0, share: 0 };
    const onLeft = x(mL) > (left + right) / 2;
    const side: Record<string, string> = narrow ? { left: '0.25rem', right: '0.25rem' } : onLeft ? { left: `${left + 8}px` } : { right: `${width - right + 8}px` };
    return share <= 1 ? { ...side, top: `${effluent.top - (narrow ? 30 : 0)}px` } : { ...side, bottom: `${height - depth.bottom + 8}px` };
  }

  private pointed(worked: Worked): Point | undefined {
    return this.look && this.pointFor(worked, this.look.mL, Math.min(1, this.look.share));
  }

  private pointFor({ scenario, plan }: Worked, mL: number, share: number): Point {
    return pointAt(scenario, plan, mL, share * scenario.values['bed.length_cm']);
  }

  private point(event: PointerEvent & { currentTarget: HTMLElement }) {
    const { worked } = this;
    if (!worked) return;
    const box = event.currentTarget.getBoundingClientRect();
    const { layout, x } = worked;
    const px = layout.left + event.clientX - box.left;
    const y = layout.poured.top + event.clientY - box.top;
    const share = Math.max(0, (y - layout.depth.top) / (layout.depth.bottom - layout.depth.top));
    this.lookAt(x.invert(px), share);
  }

  private key(event: KeyboardEvent) {
    const { worked } = this;
    if (!worked) return;
    const { mL, share } = this.look ?? { mL: this.now_mL, share: 0 };
    const step = event.shiftKey ? STEP.stride_mL : STEP.mL;
    const moves: Record<string, [number, number]> = {
      ArrowLeft: [mL - step, share], ArrowRight: [mL + step, share], ArrowUp: [mL, share - STEP.depth], ArrowDown: [mL, share + STEP.depth],
      Home: [0, share], End: [this.lastShown(worked), share],
    };
    const move = moves[event.key];
    if (event.key === 'Escape' && this.look) this.leave();
    else if (move) this.lookAt(move[0], Math.max(0, Math.min(1, move[1])));
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  private lookAt(mL: number, share: number) {
    const { worked } = this;
    if (!worked) return;
    this.look = { mL: Math.max(0, Math.min(mL, this.lastShown(worked))), share };
    const { delivered_mL, time_min, depth_cm } = this.pointFor(worked, this.look.mL, Math.min(1, share));
    emit<PointDetail>(this, 'bf-point', { delivered_mL, time_min, depth_cm });
  }

  private leave() {
    if (!this.look) return;
    this.look = undefined;
    emit(this, 'bf-point', undefined);
  }

  private lastShown({ plan }: Worked): number {
    return this.showForecast ? deliveredAtEnd(plan) : Math.min(this.now_mL, deliveredAtEnd(plan));
  }

  private hold({ detail }: CustomEvent<HandleEvent>) {
    const { entry, kind, delivered_mL, phase } = detail;
    const handles = this.held?.dropped === false ? this.held.handles : this.handles;
    this.held = phase === 'cancel' ? undefined : { entry, kind, delivered_mL, handles, dropped: phase === 'drop' };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-figure': RunFigure;
  }
}
