import { receiverName } from '../ui/text/receiver-words.ts';
import { LitElement, type PropertyValues, css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { hexOf, liquidColour } from '../../sim/colour/index.ts';
import { readingAt } from '../../sim/history/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { emit } from '../ui/emit.ts';
import { at, styled } from '../ui/styled.ts';
import { fixed, millilitres, withUnit } from '../ui/text/format.ts';
import { depthTicks } from './labels.ts';
import { depthAt, layoutOf, type Layout } from './layout.ts';
import { EXAGGERATION } from '../plot/liquid.ts';
import { beakerDiameter, beakerVolume, headSolution, receiverContents } from './scene/liquids.ts';
import { bedSummary } from './summary.ts';
import { columnsOf, UnrolledDrawing } from './unrolled-drawing.ts';

/** Room for the names of the sides under the bed, px. */
const SIDES_BELOW = 24;
/** Share of the bed by which a key moves the depth mark. */
const KEY_SHARE = 0.05;

/**
 * The bed unrolled: angle across with the front in the middle, depth down, and the core as a strip of its own. Needs no WebGL
 * and prints. Fills its container.
 *
 * @fires bf-depth - {depth_cm} while the pointer or the keys point at a depth of the bed, undefined when they leave it
 */
@customElement('bf-unrolled')
export class Unrolled extends LitElement {
  static override styles = css`
    :host { display: block; position: relative; width: 100%; height: 100%; overflow: hidden; font-size: var(--text-small); color: var(--ink); }
    *, *::before, *::after { box-sizing: border-box; }
    .bed { position: absolute; outline: 1px solid var(--edge); cursor: crosshair; touch-action: pan-y; }
    .bed:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
    canvas { position: absolute; inset: 0; width: 100%; height: 100%; }
    .gap { position: absolute; top: -1px; bottom: -1px; background: var(--paper); }
    .head { position: absolute; border: solid var(--edge); border-width: 1px 1px 0; }
    .text { position: absolute; white-space: nowrap; color: var(--soft); line-height: 1.1; }
    .centre { transform: translateX(-50%); }
    .tick { transform: translate(-100%, -50%); }
    .tick::after { content: ''; display: inline-block; width: 5px; margin-left: 3px; border-top: 1px solid var(--edge); vertical-align: middle; }
    .depth { position: absolute; left: 0; right: 0; height: 0; border-top: 1.5px solid #18202c; outline: 1px solid #ffffff; pointer-events: none; }
    .depth span { position: absolute; right: 2px; bottom: 2px; padding: 0 0.25em; background: #ffffff; color: #18202c; }
    .words { position: absolute; left: 0; right: 0; bottom: 0; overflow: auto; margin: 0; padding-top: var(--gap-small); line-height: 1.35; }
    .words p { margin: 0 0 0.5em; }
    ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); }
    li { display: flex; align-items: center; gap: 0.4em; }
    .swatch { width: 1.1em; height: 1.1em; border: 1px solid var(--edge); print-color-adjust: exact; }
    .head, canvas { print-color-adjust: exact; }
  `;

  @property({ attribute: false }) scenario: Scenario | undefined;
  @property({ attribute: false }) moment: Moment | undefined;
  @property({ type: Boolean }) exaggerate = false;
  @property({ attribute: false }) labels: readonly string[] = [];
  /** px from the top of the element to the top and the bottom of the bed. */
  @property({ type: Number }) bedTop = 60;
  @property({ type: Number }) bedBottom = 360;
  /** cm below the bed top at which a line is drawn. */
  @property({ type: Number }) depth_cm: number | undefined;
  /** Adds the liquids and receivers, for use without the glass. */
  @property({ type: Boolean }) whole = false;
  @state() private size = { width: 0, height: 0 };
  @state() private pointed: number | undefined;
  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;
  @query('.words') private readonly words!: HTMLElement | null;

  private drawing: UnrolledDrawing | undefined;
  private readonly sizes = new ResizeObserver(() => {
    this.size = { width: this.clientWidth, height: this.clientHeight };
  });

  override connectedCallback() {
    super.connectedCallback();
    this.sizes.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.sizes.disconnect();
  }

  override render() {
    const { scenario, moment, size } = this;
    if (!scenario || !moment || size.width === 0) return nothing;
    const layout = layoutOf({ ...size, bedTop: this.bedTop, bedBottom: this.bedBottom }, scenario.values, moment.bed_cm);
    const columns = columnsOf(scenario.values['bed.lanes'], size.width);
    const summary = bedSummary(scenario, moment);
    return html`
      ${moment.level_cm > 0 ? this.head(scenario, moment, layout, columns) : nothing}
      ${columns.sides.map(({ side, x }) => html`<span class="text centre" aria-hidden="true" ${styled(at({ left: columns.left + x, top: layout.bedBottom + 4 }))}>${side}</span>`)}
      ${depthTicks(layout, scenario).map(({ y, text }) => html`<span class="text tick" aria-hidden="true" ${styled(at({ left: columns.left - 1, top: y }))}>${text}</span>`)}
      <div class="bed" tabindex="0" role="img" aria-label="The bed unrolled, front in the middle, top at the top" aria-describedby="words"
        ${styled(at({ left: columns.left, top: layout.bedTop, width: columns.width, height: layout.bedBottom - layout.bedTop }))}
        @pointermove=${this.point} @pointerdown=${this.point} @pointerleave=${this.leave} @blur=${this.leave} @keydown=${this.key}>
        <canvas></canvas>
        ${columns.core ? html`<div class="gap" ${styled(at({ left: columns.core.x - columns.gap, width: columns.gap }))}></div>` : nothing}
        ${this.line(scenario, moment)}
      </div>
      <div class="words" ${styled(at({ top: layout.bedBottom + SIDES_BELOW }))} role="group" aria-label="The bed in words"><p id="words">${summary}</p>${this.whole ? this.receivers(scenario, moment) : nothing}</div>`;
  }

  override updated(changed: PropertyValues<this>) {
    const { scenario, moment } = this;
    if (!scenario || !moment || !this.canvas) return;
    // What has to be scrolled must be within reach of the keyboard.
    if (this.words) this.words.tabIndex = this.words.scrollHeight > this.words.clientHeight ? 0 : -1;
    if (changed.has('scenario')) this.drawing = undefined;
    this.drawing ??= new UnrolledDrawing(scenario);
    this.drawing.draw(this.canvas, moment, this.exaggerate, columnsOf(scenario.values['bed.lanes'], this.size.width), devicePixelRatio);
  }

  private head(scenario: Scenario, moment: Moment, layout: Layout, { left, width, core, gap }: ReturnType<typeof columnsOf>) {
    const top = layout.above(moment.level_cm);
    const colour = hexOf(liquidColour(headSolution(scenario, moment), scenario.values['column.bore_cm'], { exaggerate: this.exaggerate ? EXAGGERATION : 1 }));
    const wide = core ? core.x - gap : width;
    return html`<div class="head" ${styled({ ...at({ left, top, width: wide, height: layout.bedTop - top }), background: colour })}></div>
      <span class="text" aria-hidden="true" ${styled(at({ left, top: Math.max(0, top - 18) }))}>liquid ${withUnit(fixed(moment.level_cm * 10, 0), 'mm')}</span>`;
  }

  private line({ values }: Scenario, { bed_cm }: Moment) {
    const depth = this.depth_cm ?? this.pointed;
    if (depth === undefined) return nothing;
    return html`<div class="depth" ${styled({ top: `${(100 * depth) / values['bed.length_cm']}%` })}><span>${fixed(readingAt(values['bed.length_cm'], bed_cm, depth), 1)} cm</span></div>`;
  }

  private receivers(scenario: Scenario, moment: Moment) {
    const path = beakerDiameter(beakerVolume(scenario, moment));
    return html`<ul aria-label="Receivers">${receiverContents(scenario, moment, this.labels).map(
      ({ slot, label, volume_mL, solution }) => html`<li>
      <span class="swatch" ${styled({ background: hexOf(liquidColour(solution, path, { exaggerate: this.exaggerate ? EXAGGERATION : 1 })) })}></span>
      ${receiverName(label)}, ${millilitres(volume_mL)}${slot === moment.receiver ? ' (under the tip)' : ''}</li>`,
    )}</ul>`;
  }

  private point(event: PointerEvent) {
    const { scenario } = this;
    if (!scenario) return;
    const layout = layoutOf({ ...this.size, bedTop: this.bedTop, bedBottom: this.bedBottom }, scenario.values, this.moment?.bed_cm);
    const box = this.getBoundingClientRect();
    // Shown enlarged, the pointer is in px of the window and the layout in its own.
    this.pointAt(depthAt(layout, ((event.clientY - box.top) * this.size.height) / box.height));
  }

  private leave() {
    if (this.pointed !== undefined) this.pointAt(undefined);
  }

  private key(event: KeyboardEvent) {
    const length = this.scenario?.values['bed.length_cm'] ?? 0;
    const steps = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (event.key === 'Escape') return this.leave();
    if (steps === undefined) return;
    event.preventDefault();
    this.pointAt((this.pointed ?? 0) + steps * KEY_SHARE * length);
  }

  private pointAt(depth: number | undefined) {
    const length = this.scenario?.values['bed.length_cm'] ?? 0;
    this.pointed = depth === undefined ? undefined : Math.min(length, Math.max(0, depth));
    emit(this, 'bf-depth', { depth_cm: this.pointed });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-unrolled': Unrolled;
  }
}
