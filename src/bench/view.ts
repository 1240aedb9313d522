import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { bestStart, progressOf, type StartWindow, type SwitchWindow } from '../../sim/history/index.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { Doing } from './doing.ts';
import type { HandleMove } from './dragging.ts';
import type { eyePredictions } from '../plot/eye-predictions.ts';
import { Hand } from './hand.ts';
import { Hazards } from './hazard/hazards.ts';
import type { BenchMore, Beside } from './more/more.ts';
import { isOver } from '../store/over.ts';
import { awaitsResin } from './packing/empty.ts';
import { past, presentVolume } from './past.ts';
import { atAGlance } from './readings.ts';
import { Opened } from './opened.ts';
import { receiversOf } from './receivers.ts';
import type { BenchStrip } from './strip/strip.ts';
import { seedDrawn } from './task/ways-in.ts';
import { UndoKeys } from './undo-keys.ts';
import { viewStyles } from './view-styles.ts';
import { Said } from './said/said.ts';
import './said/say-line.ts';
import './strip/strip.ts';
import './task/task.ts';
import type { Message } from '../ui/message.ts';

/** What the coach found for the run as it would go on; see `bf-coach`. */
interface Guidance {
  readonly window: SwitchWindow | undefined;
  readonly startWindow: StartWindow | undefined;
}

/**
 * The bench: glass beside figure, read-outs, coach, and the strip of controls; or the debrief of the run.
 *
 * @slot here - why, at the place that was pressed
 * @slot why - shown at the end of the debrief: why something was lost
 */
@customElement('bf-bench')
export class BenchView extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, viewStyles];

  @property({ attribute: false }) session: Session | undefined;
  @state() private bedTop = 0;
  @state() private bedBottom = 0;
  @state() private beside: Beside = 'glass';
  @state() private marks: readonly { mL: number; label: string }[] = [];
  @state() private guidance: Guidance | undefined;
  /** Puts predictions by eye into words, once there are some. */
  @state() private eyePredictions: typeof eyePredictions | undefined;
  @query('bf-more') private more!: BenchMore;
  @query('bf-strip') private strip!: BenchStrip;
  private readonly debriefing = new Opened(this, 'debrief');
  private readonly said = new Said(this, () => void this.showMore('mend'));
  private readonly hand = new Hand();
  private readonly hazards = new Hazards();
  private readonly doing = new Doing({
    session: () => this.session,
    say: this.said.say,
    pour: () => {
      this.strip.choose('pour');
      return this.hand.pour;
    },
    poured: (actions) => this.hand.follow(actions),
  });

  constructor() {
    super();
    this.addEventListener('bf-offer-message', (event) => {
      if (this.debriefing.open || !this.session?.store.moment) return;
      event.preventDefault();
      this.said.tellNews({ ...(event as CustomEvent<Message>).detail });
    });
    new UndoKeys(this, () => this.session);
    new KeysController(this, {
      heading: 'Bench',
      entries: [
        { key: 'Escape', does: 'close the explanation; return to the present after looking back' },
        { key: 'w', does: 'why, at the marked depth of the bed', run: () => this.session?.pointing.ask({ depth_cm: this.session.pointing.depth_cm ?? 0 }) },
        { key: 'd', does: 'debrief, or back to the bench', run: () => this.debrief(!this.debriefing.open) },
      ],
    });
  }

  /** Who reads elsewhere does not watch: a run that would not stop by itself waits, or its bed runs dry meanwhile. */
  override disconnectedCallback() {
    super.disconnectedCallback();
    const { store } = this.session ?? {};
    if (store?.playing && !Number.isFinite(store.stopAt)) store.pause();
  }

  override willUpdate() {
    const { store } = this.session ?? {};
    if (store?.scenario) this.hand.suit(store.scenario);
    if (!store) return;
    this.said.hushWhenActed(store.log.length);
    if (!this.session?.watching) this.hazards.meet(store, this.said.say);
    this.said.tell(store);
  }

  override render() {
    const { session } = this;
    const store = session?.store;
    if (!session || !store) return nothing;
    if (store.failure)
      return html`<p role="alert">The model stopped: ${store.failure}. The run is kept. <button type="button" @click=${() => location.reload()}>Load the page again</button></p>`;
    if (!store.scenario || !store.plan || !store.moment) return html`<p role="status">The column is being packed …</p>`;
    if (this.debriefing.open)
      return html`<bf-debrief .session=${session} .moved=${this.doing.moved} @bf-handle=${this.doing.drag} @bf-leave=${() => this.debrief(false)}><slot name="why" slot="why"></slot></bf-debrief>`;
    return html`<h1 class="unseen">Bench</h1>
      <div class="bench ${session.sees} ${session.pointing.asked ? 'asking' : ''} ${awaitsResin(store.scenario, store.moment) ? 'filling' : ''}" @bf-say=${this.said.hear} @bf-more=${this.showMore} @bf-mend=${() => this.showMore('mend')} @bf-act=${this.doing.act} @bf-carry-out=${this.doing.carryOut}>
        <div class="left" @glass-clamp=${this.doing.flipClamp} @glass-receiver=${this.doing.putReceiver} @glass-pour=${this.doing.pour} @glass-depth=${this.doing.askAtDepth}>${this.column(session)}</div>
        ${session.pointing.asked ? html`<div class="here" aria-live="polite"><slot name="here"></slot></div>` : nothing}
        <div class="run" @bf-ask=${this.doing.ask}>${this.figure(session)}<bf-hazard .store=${store} .hazards=${this.hazards}></bf-hazard>${this.hazards.overFigure ? this.caution() : nothing}</div>
        <bf-say-line .said=${this.said.message} @bf-hushed=${this.said.hush}>${atAGlance(store, session.targets)}</bf-say-line>
        <div class="side">${this.side(session)}</div>
        <bf-strip .store=${store} .hand=${this.hand}></bf-strip>
        ${this.others(session)}
      </div>`;
  }

  private column({ store, exaggerate, pointing }: Session) {
    const { scenario, moment, playing, speed } = store;
    const labels = receiversOf(store);
    return this.beside === 'glass'
      ? html`<bf-glass acts .scenario=${scenario} .moment=${moment} .labels=${labels} .exaggerate=${exaggerate} .bedTop=${this.bedTop} .bedBottom=${this.bedBottom}
          .playing=${playing} .speed=${speed} .depth_cm=${pointing.depth_cm}></bf-glass>`
      : html`<bf-unrolled whole .scenario=${scenario} .moment=${moment} .labels=${labels} .exaggerate=${exaggerate} .bedTop=${this.bedTop} .bedBottom=${this.bedBottom}
          .depth_cm=${pointing.depth_cm}></bf-unrolled>`;
  }

  private figure(session: Session) {
    const { store, pointing } = session;
    const { plan, preview, moment } = store;
    if (!plan) return nothing;
    return html`<bf-figure .scenario=${store.scenario} .plan=${plan} .preview=${preview} .rough=${store.isRough} .now_mL=${moment?.delivered_mL ?? 0} .now_min=${store.now} .present_mL=${presentVolume(store)}
      .handles=${session.sees === 'forecast' ? store.handles : []} .showForecast=${session.sees === 'forecast'} .byEye=${session.sees === 'eye' ? (session.targets?.target ?? 'Co') : undefined} .exaggerate=${session.exaggerate} ?covered=${this.doing.held?.do === 'receiver'} .depth_cm=${pointing.depth_cm} .window=${this.windows(session).window} .targets=${session.targets}
      asks .predictions=${this.predictions(session)} @bf-handle=${this.moveHandle} @bf-layout=${this.align} @bf-mark=${this.doing.predict} @bf-look-back=${this.doing.lookBack}></bf-figure>`;
  }

  private predictions(session: Session) {
    if (session.eyeMarks.length === 0) return this.marks;
    if (!this.eyePredictions) void import('../plot/eye-predictions.ts').then((words) => (this.eyePredictions = words.eyePredictions));
    return [...this.marks, ...(this.eyePredictions?.(session) ?? [])];
  }

  private side(session: Session) {
    const { store } = session;
    const over = isOver(store);
    return html`
      <bf-announcer hidden .store=${store}></bf-announcer>
      <bf-given-note .session=${session}></bf-given-note>
      <bf-imposed-note .session=${session}></bf-imposed-note>
      <bf-fitted-note class="fitted" .scenario=${session.written}></bf-fitted-note>
      ${store.present === undefined ? nothing : past(store)}
      ${session.sees === 'eye' || session.watching ? nothing : html`<bf-coach .session=${session} .held=${this.doing.held} @bf-go=${this.doing.go} @bf-drop=${() => this.doing.drop()} @bf-marks=${this.mark} @bf-guidance=${this.guide}></bf-coach>`}
      ${over && !session.watching ? html`<bf-ended .session=${session}>The run is over. ${this.toDebrief('primary')}</bf-ended>` : nothing}
      ${session.watching ? html`<bf-watch .session=${session} @bf-own=${() => session.freshColumn(seedDrawn())}>${this.toDebrief('')}</bf-watch>` : html`<bf-ways-in .session=${session}></bf-ways-in><bf-task .washTo_mL=${this.washTo(session)} ?brief=${this.hazards.open !== undefined} .store=${session.store} .targets=${session.targets} @bf-fresh=${() => session.freshColumn(seedDrawn())}></bf-task>`}
      ${this.hazards.overFigure ? nothing : this.caution()}`;
  }

  private toDebrief(kind: string) {
    return html`<button type="button" class=${kind} slot="debrief" @click=${() => this.debrief(true)}>Debrief</button>`;
  }

  private caution() {
    return html`<bf-hazard-card .hazards=${this.hazards}></bf-hazard-card>`;
  }

  private others(session: Session) {
    const { store } = session;
    const { window, startWindow } = this.windows(session);
    return html`<bf-more .session=${session} .sees=${session.sees} .hand=${this.hand} .beside=${this.beside} .judged=${this.doing.moved ?? store.shown} .trying=${this.doing.moved !== undefined || store.preview !== undefined}
      .window=${window} .startWindow=${startWindow} @bf-beside=${this.takeBeside} @bf-debrief=${() => this.debrief(true)}></bf-more>`;
  }

  /** The windows that may be seen: those of the guide while the run lasts, those of the run itself when it is over. */
  private windows(session: Session): Guidance {
    const { store, targets, coach } = session;
    if (!store.plan || !targets) return NONE;
    if (isOver(store)) return { window: session.window, startWindow: coach === 'guide' ? this.guidance?.startWindow : undefined };
    return coach === 'guide' ? (this.guidance ?? NONE) : NONE;
  }

  private washTo(session: Session): number | undefined {
    const { startWindow } = this.windows(session);
    const { scenario, moment } = session.store;
    const released = scenario && moment && progressOf(scenario, moment.events).eluent_mL !== undefined;
    return startWindow && !released ? bestStart(startWindow) : undefined;
  }

  private align(event: CustomEvent<{ bedTop: number; bedBottom: number }>) {
    this.bedTop = event.detail.bedTop;
    this.bedBottom = event.detail.bedBottom;
  }

  private mark(event: CustomEvent<readonly { mL: number; label: string }[]>) {
    this.marks = event.detail;
  }

  private guide(event: CustomEvent<Guidance | undefined>) {
    this.guidance = event.detail;
  }

  /** A run that is over is the reader's own: a handle that was let go is a what-if, and those are shown in the debrief, beside that run. */
  private readonly moveHandle = async (event: CustomEvent<HandleMove>) => {
    const { detail } = event;
    const { store } = this.session ?? {};
    if (!store || !isOver(store) || detail.phase !== 'drop') return void this.doing.drag(event);
    await this.doing.drag(new CustomEvent(event.type, { detail: { ...detail, phase: 'cancel' } }));
    await this.debrief(true);
    await this.updateComplete;
    this.renderRoot.querySelector('bf-debrief')?.tryMove(detail);
  };

  private async debrief(on: boolean) {
    if (on && !(await this.fetched('The debrief', import('./debrief/debrief.ts')))) return;
    this.debriefing.set(on);
    if (on) this.session?.store.pause();
  }

  private async showMore(part?: unknown) {
    if (await this.fetched('The drawer', import('./more/more.ts'))) await this.more.show(part === 'mend');
  }

  /** What is not needed at first comes when it is wanted, if it has not come by then. */
  private async fetched(name: string, part: Promise<unknown>): Promise<boolean> {
    try {
      await part;
      return true;
    } catch {
      this.said.say({ text: `${name} could not be loaded. The run is as it was; press again to try again.`, kind: 'problem' });
      return false;
    }
  }

  private takeBeside(event: CustomEvent<{ beside: Beside }>) {
    this.beside = event.detail.beside;
  }
}

const NONE: Guidance = { window: undefined, startWindow: undefined };
declare global {
  interface HTMLElementTagNameMap {
    'bf-bench': BenchView;
  }
}
