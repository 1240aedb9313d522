import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { distributionOf, passageOf } from '../../../sim/chemistry/index.ts';
import {
  bandAt,
  deliveredAtEnd,
  depthAtReading,
  bedHeightOf,
  frameAt,
  frameAtTime,
  frontMeeting,
  type FrontMeeting,
  inBedAt,
  instantAtTime,
  onRuler,
  type Plan,
} from '../../../sim/history/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { SPEEDS } from '../../store/run/playback.ts';
import { mayRunProcedure } from '../../store/run/procedure.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import type { Session } from '../../store/session.ts';
import { LiveElement } from '../../store/live-element.ts';
import { plotStyles } from '../../plot/styles.ts';
import { emit } from '../../ui/emit.ts';
import { fixed, millilitres } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';
import { bedDrawing, bedLayout } from './bed-drawing.ts';
import { Fit } from './fit.ts';
import { edgeSentence } from '../here/edge-words.ts';
import { acidText, motionSentence, percentOf } from '../sentences.ts';
import { partStyles } from '../styles.ts';

const HEIGHT = 320;
/** Longest the meeting of front and band may take to watch, s; assumed. */
const WATCH_S = 45;

/**
 * What the bed does: bands and acid front of the run with the chosen depth, and the meeting of front and band, slowed.
 *
 * @fires bf-depth - {depth_cm} another depth was pressed
 */
@customElement('bf-why-bed')
export class BedPart extends LiveElement {
  static override styles = [controlStyles, plotStyles, partStyles];

  @property({ attribute: false }) session: Session | undefined;
  @property() ion: IonId = 'Co';
  @property({ type: Number }) depth = 0;
  /** The acid is taken from the bed: then the depth follows the pointer without a press. */
  @property({ type: Boolean }) bound = false;
  private readonly fit = new Fit(this);

  override render() {
    const store = this.session?.store;
    const { scenario, plan } = store ?? {};
    if (!store || !scenario || !plan) return nothing;
    if (deliveredAtEnd(plan) <= 0) return this.empty();
    if (this.session?.sees === 'eye')
      return html`<p class="say">Bands, acid and the meeting of front and band in your own bed are shown with the figure, or when the run is over.</p>`;
    const meeting = this.told(meetingIn(plan, scenario, this.ion), store);
    const acid = inBedAt(plan, 'HCl', instantAtTime(plan, store.now), this.depth);
    return html`
      <p class="say">Now, at ${fixed(this.read(), 1)} cm: ${fixed(acid, 1)} mol/L HCl. ${motionSentence(scenario, this.ion, acid)} ${edgeSentence(scenario, plan, this.ion, store.moment?.delivered_mL ?? 0)}</p>
      ${this.fit.width ? this.plot() : nothing}
      <div class="row">
        ${meeting ? html`<button type="button" class="primary" @click=${() => this.playMeeting(meeting)}>Play the front passing the ${IONS[this.ion].name} band, slowed</button>` : nothing}
        ${store.playing ? html`<button type="button" @click=${() => store.pause()}>Pause</button>` : nothing}
        ${store.present === undefined ? nothing : html`<span role="status">Looking back at ${millilitres(store.moment?.delivered_mL ?? 0)}; the run waits.</span> <button type="button" @click=${() => store.lookBack(undefined)}>Return to the present</button>`}
        <button type="button" @click=${this.followBand} ?disabled=${!this.band()}>Depth of the band now</button>
      </div>
      <p>${meeting ? this.meetingLine(scenario, plan, meeting) : `In this run no front of weaker acid sets free the ${IONS[this.ion].name} band.`}</p>
      <p class="status">Left: bands (all but 1 % at either end, while a fiftieth or more of the metal is on the bed) and half height of the acid front, dashed, against the volume delivered. Right: the bed now; every band against its own highest value. Depths are those of a ruler beside the bed, which shrinks in acid; grey, its top. The line is the chosen depth; press another one to move it, then it follows the pointer.</p>`;
  }

  /** A meeting that is still to come is told only with the forecast. */
  private told(meeting: FrontMeeting | undefined, { present, now }: ColumnStore): FrontMeeting | undefined {
    return meeting && (this.session?.sees === 'forecast' || meeting.to_min <= (present ?? now)) ? meeting : undefined;
  }

  private empty() {
    if (this.session?.sees === 'eye')
      return html`<p class="say">Nothing has been poured yet. What the bed does is shown here with the figure, or when the run is over.</p>`;
    const { store } = this.session ?? {};
    const runs = store !== undefined && mayRunProcedure(store);
    return html`<p class="say">Nothing has been poured yet, so the bed holds only the liquid it was stored in.</p>
      ${runs ? html`<p><button type="button" class="primary" @click=${this.useProcedure}>Run the procedure of this lesson</button></p>` : nothing}`;
  }

  private plot() {
    const store = this.session?.store;
    if (!store?.scenario || !store.plan) return nothing;
    const { width } = this.fit;
    return html`<svg class="plot" role="img" aria-label=${`Bands in the bed against delivered volume, now ${millilitres(store.moment?.delivered_mL ?? 0)}, and the bed now. Chosen depth ${fixed(this.read(), 1)} cm.`}
      width=${width} height=${HEIGHT} @pointerdown=${this.point} @pointermove=${this.point}>${bedDrawing({ scenario: store.scenario, plan: store.plan, now_min: store.now, depth_cm: this.depth, ...(this.session?.sees === 'forecast' ? {} : { until_min: store.present ?? store.now }), width, height: HEIGHT })}</svg>`;
  }

  private meetingLine(scenario: Scenario, plan: Plan, { delivered_mL, depth_cm, before_M, behind_M }: FrontMeeting) {
    const speed = (c: number): string => percentOf(passageOf(distributionOf(scenario, this.ion)(c), scenario.values['bed.porosity']).speedShare);
    return `The front of weaker acid meets the ${IONS[this.ion].name} band at ${millilitres(delivered_mL)} delivered, ${fixed(onRuler(plan, frameAt(plan, delivered_mL), depth_cm), 1)} cm deep. Before it, in ${acidText(before_M)}, the band moves at ${speed(before_M)} of the liquid's speed, behind it, in ${acidText(behind_M)}, at ${speed(behind_M)}.`;
  }

  /** What the ruler reads now at the chosen depth, cm. */
  private read(): number {
    const { plan, now } = this.session?.store ?? {};
    return plan && now !== undefined ? onRuler(plan, frameAtTime(plan, now), this.depth) : this.depth;
  }

  private band() {
    const store = this.session?.store;
    return store?.plan && bandAt(store.plan, this.ion, frameAtTime(store.plan, store.now));
  }

  /** The past is looked back at, and the run stays where it is; to what is still to come the run goes on. */
  private async playMeeting({ from_min, to_min, depth_cm }: FrontMeeting) {
    const store = this.session?.store;
    if (!store) return;
    emit(this, 'bf-depth', { depth_cm });
    store.setSpeed(SPEEDS.find((speed) => ((to_min - from_min) * 60) / speed <= WATCH_S) ?? SPEEDS[SPEEDS.length - 1]);
    if (from_min < (store.present ?? store.now)) return store.replay(from_min, to_min);
    await store.seek(from_min);
    store.stopAt = to_min;
    store.play();
  }

  private followBand() {
    const band = this.band();
    if (band) emit(this, 'bf-depth', { depth_cm: band.centroid_cm });
  }

  /** As on the bench; with the forecast all of it is there at once, and need not be played. */
  private async useProcedure() {
    const { store, sees } = this.session ?? {};
    await store?.playProcedure();
    if (sees === 'forecast') store?.pause();
  }

  private point(event: PointerEvent & { currentTarget: SVGElement }) {
    const store = this.session?.store;
    if (!store?.plan || (event.buttons === 0 && !this.bound)) return;
    const { length_cm } = store.plan;
    const px = event.clientY - event.currentTarget.getBoundingClientRect().top;
    const read_cm = bedLayout(this.fit.width, HEIGHT, store.plan).depth.invert(px);
    const frame = frameAtTime(store.plan, store.now);
    const depth_cm = depthAtReading(length_cm, bedHeightOf(store.plan, frame), read_cm);
    if (depth_cm <= length_cm && read_cm >= onRuler(store.plan, frame, 0)) emit(this, 'bf-depth', { depth_cm });
  }
}

const meetings = new WeakMap<Plan, Map<IonId, FrontMeeting | undefined>>();

/** Asked for at every redraw, so it is kept for each run. */
function meetingIn(plan: Plan, scenario: Scenario, ion: IonId): FrontMeeting | undefined {
  const known = meetings.get(plan) ?? new Map<IonId, FrontMeeting | undefined>();
  meetings.set(plan, known);
  if (!known.has(ion)) known.set(ion, frontMeeting(plan, ion, distributionOf(scenario, ion)));
  return known.get(ion);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-bed': BedPart;
  }
}
