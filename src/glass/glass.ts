import { LitElement, type PropertyValues, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { shownTheme, watchTheme } from '../ui/look/theme.ts';
import { glassStyles } from './glass-styles.ts';
import { glassWords } from './glass-words.ts';
import { type Layout, layoutOf, SIDE_NAMED } from './layout.ts';
import { EXAGGERATION } from '../plot/liquid.ts';
import type { Stage } from './scene/stage.ts';
import { drawsWebGL } from './scene/webgl.ts';
import { sideName, turned } from './sides.ts';
import { bedSummary } from './summary.ts';
import { Carrying } from './touch/carrying.ts';
import { handles } from './touch/handles.ts';
import { Squeezing } from './touch/squeezing.ts';
import { Turning } from './touch/turning.ts';
import './unrolled.ts';

/** While the run plays the bed is put into words at most so often, ms. */
const WORDS_EVERY_MS = 1000;
/** A smaller change in the height of the bed is not drawn, cm: half a px at most. */
const SEEN_CM = 0.01;
const STILLNESS = '(prefers-reduced-motion: reduce)';

type Drawing = 'waiting' | 'shown' | 'lost' | 'none';

/**
 * The glass column. Fills its container; the unrolled bed takes its place where there is no WebGL. The receiver under the tip is
 * that of the moment.
 *
 * @fires bf-depth - {depth_cm} while the pointer or the keys point at a depth of the bed, undefined when they leave it
 * @fires glass-depth - {depth_cm, pressed} the same, and once more with `pressed` when the place is pressed or entered
 * @fires glass-clamp - {open_percent} the clamp was dragged or turned by keys so far, or pressed: then undefined
 * @fires glass-pour - the open top of the tube was pressed
 * @fires glass-receiver - {label} a receiver was pressed, or dragged under the tip
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
  /** px from the top of the element to the top and the bottom of the bed. */
  @property({ type: Number }) bedTop = 140;
  @property({ type: Number }) bedBottom = 420;
  @property({ type: Boolean }) playing = false;
  /** Model time over real time. */
  @property({ type: Number }) speed = 1;
  /** cm below the bed top at which a line is drawn. */
  @property({ type: Number }) depth_cm: number | undefined;
  /** Side that is looked at until the reader turns the column, degrees from the front by the left. */
  @property({ type: Number }) from_deg = 0;
  /** Names the ions beside their bands. */
  @property({ type: Boolean }) names = false;
  /** Clamp, receivers and the top of the tube can be pressed. */
  @property({ type: Boolean }) acts = false;
  @state() private drawing: Drawing = 'waiting';
  @state() private size = { width: 0, height: 0 };
  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;
  @query('.stage') private readonly place!: HTMLElement | null;

  private stage: Stage | undefined;
  /** The canvas that is drawn on or will be once the drawing is loaded. */
  private entering: { readonly canvas: HTMLCanvasElement } | undefined;
  /** Why there is no drawing. */
  private reason = '';
  private layout: Layout | undefined;
  private placed: Layout | undefined;
  /** Height of the resin as it is drawn, cm. */
  private stands_cm: number | undefined;
  private words = '';
  private wordsAt = Number.NEGATIVE_INFINITY;
  private stopTheme: (() => void) | undefined;
  private readonly turning = new Turning(this, {
    layout: () => this.layout,
    length: () => this.scenario?.values['bed.length_cm'] ?? 0,
    point: (depth_cm, pressed) => this.tellDepth(depth_cm, pressed),
  });
  private readonly carrying = new Carrying(this, (label) => emit(this, 'glass-receiver', { label }));
  private readonly squeezing = new Squeezing(this, (open_percent) => emit(this, 'glass-clamp', { open_percent }));
  private readonly stillness = matchMedia(STILLNESS);
  private readonly redraw = () => this.requestUpdate();
  private readonly sizes = new ResizeObserver(([entry]) => {
    if (entry) this.size = { width: entry.contentRect.width, height: entry.contentRect.height };
  });

  override connectedCallback() {
    super.connectedCallback();
    this.stillness.addEventListener('change', this.redraw);
    this.stopTheme = watchTheme(this.redraw);
    if (this.hasUpdated) this.requestUpdate('scenario');
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.stillness.removeEventListener('change', this.redraw);
    this.stopTheme?.();
    this.sizes.disconnect();
    this.leaveStage();
  }

  override willUpdate(changed: PropertyValues<this>) {
    const { scenario, moment, size } = this;
    if (changed.has('scenario') || !moment) this.leaveStage();
    if (changed.has('from_deg')) this.turning.lookFrom(this.from_deg);
    if (!scenario) return;
    const stands_cm = moment && Math.round(moment.bed_cm / SEEN_CM) * SEEN_CM;
    const placing = stands_cm !== this.stands_cm || ['size', 'bedTop', 'bedBottom', 'scenario'].some((name) => changed.has(name as keyof Glass));
    if (size.width > 0 && placing) {
      this.stands_cm = stands_cm;
      this.layout = layoutOf({ ...size, bedTop: this.bedTop, bedBottom: this.bedBottom }, scenario.values, stands_cm);
    }
    const now = performance.now();
    if (moment && (!this.playing || now - this.wordsAt > WORDS_EVERY_MS)) {
      this.words = bedSummary(scenario, moment);
      this.wordsAt = now;
    }
  }

  override render() {
    const { scenario, moment, layout } = this;
    if (!scenario || !moment) return nothing;
    if (this.drawing === 'none') return this.unrolled(this.reason);
    return html`<div class="stage ${shownTheme(document)}">
        <canvas aria-hidden="true" @webglcontextlost=${this.lose} @webglcontextrestored=${this.regain}></canvas>
        ${layout ? glassWords({ scenario, moment, drawn: this.pictured ?? moment, layout, labels: this.labels, names: this.names, hints: this.acts, paused: this.acts && !this.playing, turnedTo: this.squeezing.percent, depth: this.marked }) : nothing}
        ${this.hand()}
        ${layout && this.acts ? this.handles(scenario, moment, layout) : nothing}
        ${this.exaggerate ? html`<span class="stronger" aria-hidden="true">faint colours ×${EXAGGERATION}</span>` : nothing}
        ${this.drawing === 'lost' ? html`<div class="instead">${this.unrolled('The drawing was interrupted; the bed is shown unrolled until it is back.')}</div>` : nothing}
      </div>
      <p class="unseen">${this.words}</p>
      <p class="unseen" id="keys">Left and right arrow keys turn the column, up and down mark a depth, Page Up and Page Down in larger steps, Enter asks about it, Home looks from the front.</p>`;
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

  /** The moment of the picture, while there is one. */
  private get pictured(): Moment | undefined {
    return this.drawing === 'shown' ? this.stage?.pictured : undefined;
  }

  /** cm; where a line is drawn. */
  private get marked(): number | undefined {
    return this.depth_cm ?? this.turning.pointed;
  }

  private hand() {
    const { turning } = this;
    const side = sideName(turning.side);
    return html`<div class="hand" role="slider" tabindex="0" aria-label="Turn the column" aria-describedby="keys" aria-valuemin="0" aria-valuemax="359"
        aria-valuenow=${Math.round(turned(-turning.side)) % 360} aria-valuetext="seen from the ${side}"
        @pointerdown=${turning.take} @pointermove=${turning.move} @pointerup=${turning.letGo} @pointercancel=${turning.letGo}
        @pointerleave=${turning.leave} @blur=${turning.leave} @keydown=${turning.key}></div>
      <button type="button" class="turn ${this.size.width < SIDE_NAMED ? 'aside' : ''}" aria-label="Seen from the ${side}: turn by a quarter" @click=${turning.quarter}>↻${this.size.width < SIDE_NAMED ? nothing : html` ${side}`}</button>`;
  }

  private handles(scenario: Scenario, moment: Moment, layout: Layout) {
    const { labels, carrying, squeezing } = this;
    return handles({ scenario, moment, labels, layout, carrying, squeezing, pour: () => emit(this, 'glass-pour', {}) });
  }

  private unrolled(note: string) {
    return html`<bf-unrolled whole .scenario=${this.scenario} .moment=${this.moment} .labels=${this.labels} .exaggerate=${this.exaggerate}
      .bedTop=${this.bedTop} .bedBottom=${this.bedBottom} .depth_cm=${this.depth_cm}></bf-unrolled><p class="note" role="status">${note}</p>`;
  }

  private showMoment(stage: Stage, scenario: Scenario, moment: Moment) {
    const { labels, exaggerate, playing, speed } = this;
    stage.show({ scenario, moment, labels, exaggerate, dragged: this.carrying.dragged }, { playing, speed, still: this.stillness.matches });
    stage.shade(shownTheme(document) === 'dark');
    stage.markDepth(this.marked);
    stage.look(this.turning.side, this.turning.dragging);
  }

  /** Loads the drawing once the page has been painted, so that the rest of it does not wait. */
  private async enterStage(canvas: HTMLCanvasElement, scenario: Scenario) {
    if (this.entering?.canvas === canvas) return;
    // Each way in has a mark of its own: one that was given up meanwhile must not draw on the canvas of the next.
    const entering = { canvas };
    this.entering = entering;
    if (!drawsWebGL()) return this.doWithout('This browser draws no WebGL, so the bed is shown unrolled.');
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    try {
      const { Stage: Drawn } = await import('./scene/stage.ts');
      if (this.entering !== entering) return;
      this.stage = new Drawn(canvas, scenario, this.redraw);
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

  private tellDepth(depth_cm: number | undefined, pressed: boolean) {
    emit(this, 'bf-depth', { depth_cm });
    emit(this, 'glass-depth', { depth_cm, pressed });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-glass': Glass;
  }
}
