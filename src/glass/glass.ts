import { LitElement, type PropertyValues, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { liquidColour } from '../../sim/colour/liquid.ts';
import { hexOf } from '../../sim/colour/srgb.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { glassStyles } from './glass-styles.ts';
import { type GlassWords, glassWords } from './glass-words.ts';
import { depthUnder, type Layout, layoutOf } from './layout.ts';
import { nearestTurn, sideName, SIDES, turned } from './sides.ts';
import type { Stage } from './scene/stage.ts';
import { bedSummary } from './summary.ts';
import { drawsWebGL } from './scene/webgl.ts';
import './unrolled.ts';

/** Degrees per px of a drag, and most of looking down. */
const DRAG_SIDE = 0.6;
const DRAG_DOWN = 0.2;
const DOWN_MAX = 25;
/** Degrees, and share of the bed, per key press. */
const KEY_SIDE = 15;
const KEY_DOWN = 5;
const KEY_DEPTH = 0.05;
/** While the run plays the bed is put into words at most so often, ms. */
const WORDS_EVERY_MS = 1000;
const CARD = hexOf(liquidColour({ HCl_M: 0, ions: {} }, 1));
const STILLNESS = '(prefers-reduced-motion: reduce)';

type Drawing = 'waiting' | 'shown' | 'lost' | 'none';

/**
 * The glass column in three dimensions. Fills its container; the unrolled bed takes its place where there is no WebGL.
 *
 * @fires bf-depth - {depth_cm} while the pointer or the keys point at a depth of the bed, undefined when they leave it
 */
@customElement('bf-glass')
export class Glass extends LitElement {
  static override styles = [controlStyles, hiddenStyles, glassStyles];

  @property({ attribute: false }) scenario: Scenario | undefined;
  @property({ attribute: false }) moment: Moment | undefined;
  /** Faint colours of liquids made stronger; said on the glass. */
  @property({ type: Boolean }) exaggerate = false;
  /** Names of the receivers, by slot. */
  @property({ attribute: false }) labels: readonly string[] = [];
  /** px from the top of the element to the top and the bottom of the bed, looked at level. */
  @property({ type: Number }) bedTop = 140;
  @property({ type: Number }) bedBottom = 420;
  @property({ type: Boolean }) playing = false;
  /** Model time over real time. */
  @property({ type: Number }) speed = 1;
  /** cm below the bed top at which a line is drawn. */
  @property({ type: Number }) depth_cm: number | undefined;
  @state() private side = 0;
  @state() private down = 0;
  @state() private pointed: number | undefined;
  @state() private drawing: Drawing = 'waiting';
  @state() private size = { width: 0, height: 0 };
  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;
  @query('.stage') private readonly place!: HTMLElement | null;

  private stage: Stage | undefined;
  /** The canvas that is drawn on or will be once the drawing is loaded. */
  private entering: HTMLCanvasElement | undefined;
  /** Why there is no drawing. */
  private reason = '';
  private layout: Layout | undefined;
  private placed: Layout | undefined;
  private words = '';
  private wordsAt = Number.NEGATIVE_INFINITY;
  private dragged: { x: number; y: number } | undefined;
  private readonly stillness = matchMedia(STILLNESS);
  private readonly redraw = () => this.requestUpdate();
  private readonly sizes = new ResizeObserver(([entry]) => {
    if (entry) this.size = { width: entry.contentRect.width, height: entry.contentRect.height };
  });

  override connectedCallback() {
    super.connectedCallback();
    this.stillness.addEventListener('change', this.redraw);
    if (this.hasUpdated) this.requestUpdate('scenario');
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.stillness.removeEventListener('change', this.redraw);
    this.sizes.disconnect();
    this.leaveStage();
  }

  override willUpdate(changed: PropertyValues<this>) {
    const { scenario, moment, size } = this;
    if (changed.has('scenario') || !moment) this.leaveStage();
    if (!scenario) return;
    const placing = ['size', 'bedTop', 'bedBottom', 'scenario'].some((name) => changed.has(name as keyof Glass));
    if (size.width > 0 && placing) this.layout = layoutOf({ ...size, bedTop: this.bedTop, bedBottom: this.bedBottom }, scenario.values);
    const now = performance.now();
    if (moment && (!this.playing || now - this.wordsAt > WORDS_EVERY_MS)) {
      this.words = bedSummary(scenario, moment);
      this.wordsAt = now;
    }
  }

  override render() {
    if (!this.scenario || !this.moment) return nothing;
    if (this.drawing === 'none') return this.unrolled(this.reason);
    return html`<div class="stage" style="--card:${CARD}">
        <canvas aria-hidden="true" @webglcontextlost=${this.lose} @webglcontextrestored=${this.regain}></canvas>
        ${this.layout ? glassWords(this.told(this.scenario, this.moment, this.layout)) : nothing}
        <div class="hand" role="slider" tabindex="0" aria-label="Turn the glass" aria-describedby="keys" aria-valuemin="0" aria-valuemax="359"
          aria-valuenow=${Math.round(turned(-this.side)) % 360} aria-valuetext="seen from the ${sideName(this.side)}${this.down > 0 ? ', a little from above' : ''}"
          @pointerdown=${this.take} @pointermove=${this.move} @pointerup=${this.letGo} @pointercancel=${this.letGo} @pointerleave=${this.leave} @blur=${this.leave} @keydown=${this.key}></div>
        ${this.drawing === 'lost' ? html`<div class="instead">${this.unrolled('The drawing was interrupted; the bed is shown unrolled until it is back.')}</div>` : nothing}
      </div>
      ${this.lookFrom()}
      <p class="unseen">${this.words}</p>
      <p class="unseen" id="keys">Left and right arrow keys turn the glass, up and down look on it from above or level, Page Up and Page Down mark a depth, Home looks from the front.</p>`;
  }

  override updated() {
    const { layout, scenario, moment, canvas } = this;
    if (this.place) this.sizes.observe(this.place);
    if (!this.isConnected || !scenario || !moment || !layout || !canvas) return;
    if (!this.stage) {
      this.enterStage(canvas, scenario);
      return;
    }
    if (layout !== this.placed) this.stage.place(layout);
    this.placed = layout;
    this.showMoment(this.stage, scenario, moment);
  }

  private lookFrom() {
    return html`<div class="look" role="group" aria-labelledby="look"><span id="look">Look from</span>${SIDES.map(
      ({ side, deg }) =>
        html`<button type="button" aria-pressed=${this.down === 0 && turned(this.side) === deg} @click=${() => this.turnTo(deg, 0)}>${side}</button>`,
    )}</div>`;
  }

  private told(scenario: Scenario, moment: Moment, layout: Layout): GlassWords {
    const { labels, exaggerate, side, down } = this;
    return { scenario, moment, layout, labels, exaggerate, side, down, depth: this.depth_cm ?? this.pointed };
  }

  private unrolled(note: string) {
    return html`<bf-unrolled whole .scenario=${this.scenario} .moment=${this.moment} .labels=${this.labels} .exaggerate=${this.exaggerate}
      .bedTop=${this.bedTop} .bedBottom=${this.bedBottom} .depth_cm=${this.depth_cm}></bf-unrolled><p class="note" role="status">${note}</p>`;
  }

  private showMoment(stage: Stage, scenario: Scenario, moment: Moment) {
    stage.show(
      { scenario, moment, labels: this.labels, exaggerate: this.exaggerate },
      { playing: this.playing, speed: this.speed, still: this.stillness.matches },
    );
    const depth = this.depth_cm ?? this.pointed;
    stage.markDepth(depth === undefined ? undefined : depth / scenario.values['bed.length_cm']);
    stage.look(this.side, this.down, this.dragged !== undefined);
  }

  /** Loads the drawing once the page has been painted, so that the rest of it does not wait. */
  private async enterStage(canvas: HTMLCanvasElement, scenario: Scenario) {
    if (this.entering === canvas) return;
    this.entering = canvas;
    if (!drawsWebGL()) return this.doWithout('This browser draws no WebGL, so the bed is shown unrolled.');
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    try {
      const { Stage: Drawn } = await import('./scene/stage.ts');
      if (this.entering !== canvas) return;
      this.stage = new Drawn(canvas, scenario);
    } catch (error) {
      return this.doWithout(`The drawing could not be loaded (${error instanceof Error ? error.message : String(error)}), so the bed is shown unrolled.`);
    }
    this.drawing = 'shown';
  }

  private doWithout(reason: string) {
    this.reason = reason;
    this.drawing = 'none';
  }

  private leaveStage() {
    this.stage?.dispose();
    this.stage = undefined;
    this.entering = undefined;
    this.placed = undefined;
    if (this.drawing !== 'none') this.drawing = 'waiting';
  }

  private lose(event: Event) {
    event.preventDefault();
    this.stage?.setLost(true);
    this.drawing = 'lost';
  }

  private regain() {
    this.stage?.setLost(false);
    this.drawing = 'shown';
  }

  private turnTo(side: number, down: number) {
    this.side = nearestTurn(this.side, side);
    this.down = Math.min(DOWN_MAX, Math.max(0, down));
  }

  private take(event: PointerEvent & { currentTarget: HTMLElement }) {
    this.dragged = { x: event.clientX, y: event.clientY };
    event.currentTarget.setPointerCapture(event.pointerId);
    this.point(event);
  }

  private move(event: PointerEvent) {
    const { dragged } = this;
    if (!dragged) return this.point(event);
    this.side += DRAG_SIDE * (event.clientX - dragged.x);
    this.down = Math.min(DOWN_MAX, Math.max(0, this.down + DRAG_DOWN * (event.clientY - dragged.y)));
    this.dragged = { x: event.clientX, y: event.clientY };
  }

  private letGo() {
    this.dragged = undefined;
  }

  private leave() {
    if (this.pointed !== undefined) this.pointAt(undefined);
  }

  private key(event: KeyboardEvent) {
    const { scenario } = this;
    if (!scenario || event.ctrlKey || event.altKey || event.metaKey) return;
    const sides = { ArrowLeft: 1, ArrowRight: -1 }[event.key];
    const downs = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const depths = { PageDown: 1, PageUp: -1 }[event.key];
    if (sides) this.turnTo(this.side + sides * KEY_SIDE, this.down);
    else if (downs) this.turnTo(this.side, this.down + downs * KEY_DOWN);
    else if (depths) this.pointAt((this.pointed ?? 0) + depths * KEY_DEPTH * scenario.values['bed.length_cm']);
    else if (event.key === 'Home') this.turnTo(0, 0);
    else if (event.key === 'Escape') this.leave();
    else return;
    event.preventDefault();
  }

  private point(event: PointerEvent) {
    const { layout, place } = this;
    if (!layout || !place) return;
    const box = place.getBoundingClientRect();
    const depth = depthUnder(layout, event.clientX - box.left, event.clientY - box.top, this.down);
    if (depth === undefined) this.leave();
    else this.pointAt(depth);
  }

  private pointAt(depth: number | undefined) {
    const length = this.scenario?.values['bed.length_cm'] ?? 0;
    this.pointed = depth === undefined ? undefined : Math.min(length, Math.max(0, depth));
    emit(this, 'bf-depth', { depth_cm: this.pointed });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-glass': Glass;
  }
}
