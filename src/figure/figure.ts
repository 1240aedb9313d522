import { adoptStyles, LitElement, type PropertyValues, html, nothing, svg } from 'lit';
import { styled } from '../ui/styled.ts';
import { customElement, property, query, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { Theme } from '../../sim/colour/index.ts';
import type { IonId, Scenario } from '../../sim/terms/types.ts';
import { plotStyles } from '../plot/styles.ts';
import type { FractionTargets, Handle, Plan, StartWindow, SwitchWindow } from '../../sim/history/index.ts';
import { emit } from '../ui/emit.ts';
import { shownTheme, watchTheme } from '../ui/look/theme.ts';
import { eyeStrip, eyeWords } from './eye-words.ts';
import { axisEnd, nominalTop } from './drawing.ts';
import type { HandleEvent } from './handle.ts';
import type { Held } from './handles.ts';
import { Looking } from './cursor/looking.ts';
import type { Portion } from './rows/dripped.ts';
import { depthMark, hatch, nowLine, nowWords, veil } from './rows/marks.ts';
import { drawnWords, placedWords } from './rows/labels.ts';
import type { PredictionMark } from './rows/predictions.ts';
import { Fetched } from './fetched.ts';
import { depthRow } from './rows/row-depth.ts';
import { pouredNotes, pouredRow } from './rows/row-poured.ts';
import { receiverRow } from './rows/row-receivers.ts';
import type { Measured } from './streaks/measured.ts';
import type { StreakImage } from './streaks/streak-image.ts';
import { figureStyles } from './styles.ts';
import { spokenRun } from './summary.ts';
import { type Size, type Worked, workedFor } from './worked.ts';

const NONE: readonly Portion[] = [];

/** Where a bed of the nominal length is drawn, px from the top of the element. */
export interface LayoutDetail {
  readonly bedTop: number;
  readonly bedBottom: number;
}

/**
 * The run as three rows over one axis of delivered volume: what was poured, where the bands were, what came out.
 *
 * Events: `bf-mark` (MarkDetail), `bf-ask` (a place of the past, or of the forecast, that was pressed), `bf-look-back` (from the mark of the moment), `bf-layout` (LayoutDetail), `bf-point` (PointDetail, or undefined on leaving), `bf-handle` (HandleEvent).
 */
@customElement('bf-figure')
export class RunFigure extends LitElement {
  static override styles = [plotStyles, figureStyles];

  @property({ attribute: false }) scenario: Scenario | undefined;
  @property({ attribute: false }) plan: Plan | undefined;
  /** The run as it would be; shown instead while it is there. */
  @property({ attribute: false }) preview: Plan | undefined;
  /** The preview is worked out along one lane; the exact one follows. */
  @property({ type: Boolean }) rough = false;
  @property({ type: Number }) now_mL = 0;
  @property({ type: Number }) now_min = 0;
  /** Theme of the picture; that of the page when left out. */
  @property() theme: Theme | undefined;
  @property({ type: Boolean }) logScale = false;
  @property({ attribute: false }) handles: readonly Handle[] = [];
  @property({ attribute: false }) showForecast = true;
  /** Nothing that takes an instrument: of the bands only the edges of this ion, of the effluent nothing. */
  @property({ attribute: false }) byEye: IonId | undefined;
  /** By eye it asks for predictions, which a press sets. */
  @property({ type: Boolean }) asks = false;
  /** Faint colours of liquids are shown stronger, as in the glass. */
  @property({ attribute: false }) exaggerate = false;
  /** What has left is not shown: it is being asked about. */
  @property({ type: Boolean }) covered = false;
  /** Where the run has come to, mL; `now_mL` is less while one looks back. */
  @property({ attribute: false }) present_mL: number | undefined;
  /** Changes of receiver that meet the targets, where they may be shown. */
  @property({ attribute: false }) window: SwitchWindow | undefined;
  /** Starts of the next eluent that meet them. */
  @property({ attribute: false }) startWindow: StartWindow | undefined;
  /** With these the verdict on the receivers is written under them. */
  @property({ attribute: false }) targets: FractionTargets | undefined;
  /** What was lost of the target is painted on what left. */
  @property({ type: Boolean }) losses = false;
  @property({ attribute: false }) predictions: readonly PredictionMark[] = [];
  /** Depth marked from outside, cm. */
  @property({ attribute: false }) depth_cm: number | undefined;
  /** Delivered volume marked from outside, mL. */
  @property({ attribute: false }) cursor_mL: number | undefined;

  @state() private size: Size = { width: 0, height: 0 };
  @state() private held: Held | undefined;
  @query('canvas') private canvas!: HTMLCanvasElement | null;
  private readonly measuring = new Fetched(this, 'The bands of the figure', async () => {
    const part = await import('./instruments.ts');
    if (this.shadowRoot) adoptStyles(this.shadowRoot, [plotStyles, figureStyles, part.instrumentStyles]);
    return part;
  });
  private readonly lookingBack = new Fetched(this, 'The handle to look back', () => import('./now-handle.ts'));
  private readonly dripping = new Fetched(this, 'The drips', () => import('./rows/dripped.ts'));
  private readonly marking = new Fetched(this, 'The predictions', () => import('./rows/predictions.ts'));
  private readonly looking = new Looking(this);
  private image: StreakImage | undefined;
  private readonly sizes = new ResizeObserver(([entry]) => {
    if (entry) this.size = { width: Math.round(entry.contentRect.width), height: Math.round(entry.contentRect.height) };
  });
  private worked: Worked | undefined;
  private measured: Measured | undefined;
  private told: LayoutDetail | undefined;
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
    else {
      // While a handle is held the axis must not slide away under it.
      const end_mL = this.held && this.worked ? this.worked.end_mL : axisEnd(this.scenario, this.plan ?? plan, this.byEye && this.now_mL);
      this.worked = workedFor(this.worked, this.scenario, plan, { ...this.size, byEye: this.byEye !== undefined }, end_mL);
    }
    if (this.takesInstruments) this.measuring.want();
    if (this.present_mL) this.lookingBack.want();
    if (this.byEye !== undefined && this.now_mL > 0) this.dripping.want();
    if (this.predictions.length > 0) this.marking.want();
    this.measured = this.worked && this.takesInstruments ? this.instruments?.measuredFor(this.measured, this.worked) : undefined;
  }

  private get takesInstruments(): boolean {
    return (
      this.byEye === undefined || this.handles.length > 0 || this.window !== undefined || this.startWindow !== undefined || this.losses || this.showForecast
    );
  }

  /** What takes an instrument to see, once it is loaded. */
  get instruments() {
    return this.measuring.part;
  }

  private get drips() {
    return this.byEye === undefined ? undefined : this.dripping.part;
  }

  override render() {
    const { worked, measured, instruments } = this;
    if (!worked) return html`<div class="stage"></div>`;
    const { layout, plan, x } = worked;
    const { width, height, left, right, depth } = layout;
    const until = this.showForecast ? undefined : this.now_mL;
    const moved = this.held?.kind === 'receiver' ? this.held : undefined;
    const seen = this.drips?.portionsOf(worked, this.now_mL, this.exaggerate) ?? NONE;
    const placed = instruments?.placedHandles(this.held?.handles ?? this.handles, worked, this.held, until) ?? [];
    return html`<div class=${this.rough ? 'stage rough' : 'stage'}>${this.rough ? html`<p class="rough-note">rough: along one lane</p>` : nothing}
      <canvas ?hidden=${this.byEye !== undefined} ${styled({ left: `${left}px`, top: `${depth.top}px`, width: `${right - left}px`, height: `${depth.bottom - depth.top}px` })} aria-hidden="true"></canvas>
      <svg class="plot" width=${width} height=${height} role="img" aria-label=${this.spoken(plan, seen)}>
        ${hatch()}
        ${guard([worked, until], () => pouredRow(worked, until))}
        ${guard([worked, measured, this.byEye], () => this.bands(worked))}
        ${this.startWindow ? instruments?.startBand(worked, this.startWindow) : nothing}
        ${guard([worked, measured, this.logScale, this.byEye, this.covered], () => (this.byEye || this.covered || !measured ? eyeStrip(worked) : instruments?.effluentRow(measured, measured.curves, this.logScale)))}
        ${guard([worked, seen], () => this.drips?.drippedRow(worked, seen))}
        ${guard([measured, this.logScale, this.losses, this.targets], () => (this.losses && this.targets && measured ? instruments?.lossMarks(measured, this.targets, this.logScale) : nothing))}
        ${veil(worked, this.now_mL, this.showForecast)}
        ${guard([worked, instruments, this.window], () => (this.window ? instruments?.windowBand(worked, this.window) : nothing))}
        ${instruments?.stems(placed, worked)}
        ${guard([worked, moved, until], () => receiverRow(worked, moved, until))}
        ${this.targets && this.showForecast ? instruments?.verdictLine(worked, this.targets, this.now_mL, moved) : nothing}
        ${this.marking.part?.predictionMarks(worked, this.predictions)}
        ${nowLine(worked, this.now_mL)}
        ${guard([worked, until], () => pouredNotes(worked, until))}
        ${guard([measured, this.byEye], () => (this.byEye || !measured ? nothing : instruments?.legend(measured, measured.tops)))}
        ${guard(this.byEye ? [worked, this.byEye, this.asks, this.predictions, this.marking.part, this.drips, this.now_mL, seen] : [worked, measured, this.logScale, this.window, this.losses, this.targets, this.predictions, this.marking.part, this.handles, until, this.covered], () => (this.byEye ? this.wordsByEye(worked, this.byEye, seen) : this.words(until)))}
        ${nowWords(worked, this.now_mL)}
        ${this.depth_cm === undefined ? nothing : depthMark(worked, this.depth_cm, this.now_mL)}
        ${this.looking.cross(worked)}
      </svg>
      ${this.looking.surface(worked)}
      ${this.present_mL === undefined ? nothing : html`<bf-now-handle ${styled({ left: `${x(this.now_mL)}px`, top: `${layout.effluent.bottom}px` })} .mL=${this.now_mL} .max=${this.present_mL} .pxPerMl=${x(1) - x(0)}></bf-now-handle>`}
      <div @bf-handle=${this.hold}>${placed.map(
        ({ handle, at, y, min, max, labelled, turned, held }) => html`<bf-axis-handle ${styled({ left: `${at}px`, top: `${y}px` })}
        .entry=${handle.entry} .kind=${handle.kind} .label=${handle.label} .mL=${handle.delivered_mL} .min=${min} .max=${max} .pxPerMl=${x(1) - x(0)}
        ?labelled=${labelled} ?turned=${turned} ?held=${held}></bf-axis-handle>`,
      )}</div>
    </div>`;
  }

  override updated() {
    const { worked, measured, scenario, instruments } = this;
    if (!worked || !scenario) return;
    if (this.canvas && measured && instruments) {
      this.image ??= new instruments.StreakImage();
      this.image.draw(this.canvas, measured.plan, measured.tops, this.theme ?? shownTheme(document), measured.end_mL, scenario.values['numerics.frame_mL']);
    }
    this.tellLayout(nominalTop(worked), worked.layout.depth.bottom);
  }

  private tellLayout(bedTop: number, bedBottom: number) {
    if (this.told?.bedTop === bedTop && this.told.bedBottom === bedBottom) return;
    this.told = { bedTop, bedBottom };
    emit<LayoutDetail>(this, 'bf-layout', this.told);
  }

  private spoken(plan: Plan, seen: readonly Portion[]) {
    if (this.showForecast) return guard([plan], () => spokenRun(plan));
    return `The run so far: what was poured, where the bands were, which receiver stood under the tip.${this.drips?.spokenDrips(seen) ?? ''}`;
  }

  /** Of the bands by eye only the edges of one. */
  private bands(worked: Worked) {
    const { byEye, measured, instruments } = this;
    const tracks = byEye ? worked.tracks.filter(({ ion }) => ion === byEye) : worked.tracks;
    if (byEye || !measured || !instruments) return depthRow(worked, tracks);
    return depthRow(worked, tracks, instruments.acidFronts(measured, measured.acid));
  }

  private wordsByEye(worked: Worked, ion: IonId, seen: readonly Portion[]) {
    const predicted = (['depth', 'effluent'] as const).flatMap((row) => this.marking.part?.predictionWishes(worked, this.predictions, row) ?? []);
    return svg`${this.asks ? eyeWords(worked, this.now_mL, ion, this.predictions, this.drips?.hasLeft(worked.plan, ion, this.now_mL)) : nothing}${drawnWords(placedWords([...predicted, ...(this.drips?.edgeWishes(worked, ion, this.now_mL) ?? []), ...(this.drips?.drippedWishes(worked, seen) ?? [])]))}`;
  }

  private words(until: number | undefined) {
    const { measured, instruments, predictions, losses, targets, window, handles } = this;
    if (!measured || !instruments) return nothing;
    const judged = losses && targets ? instruments.lossWishes(measured, targets) : [];
    const offered = window && !losses ? instruments.windowWishes(measured, window) : [];
    const marked = (row: 'depth' | 'effluent') => this.marking.part?.predictionWishes(measured, predictions, row) ?? [];
    const shown = instruments.depthWords(measured, until, marked('depth'));
    if (this.covered) return shown;
    const before = [...marked('effluent'), ...judged];
    return svg`${shown}${instruments.effluentWords(measured, measured.curves, this.logScale, { before, after: offered, until_mL: until ?? Number.POSITIVE_INFINITY, uprights: instruments.uprightsOf(measured, { handles, window, predictions }) })}`;
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
