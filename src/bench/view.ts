import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Action } from '../../sim/terms/types.ts';
import type { CoachLevel, Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import {
  type FractionTargets,
  movedEluent,
  movedReceiver,
  type Plan,
  type StartWindow,
  type SwitchWindow,
  withReceiverMoved,
} from '../../sim/history/index.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { Announcer } from './announcer.ts';
import { isOver } from './over.ts';
import { viewStyles } from './view-styles.ts';
import './debrief/debrief.ts';
import './now.ts';
import './strip.ts';
import './task.ts';
import './debrief/verdict.ts';

interface HandleMove {
  readonly entry: number;
  readonly kind: 'eluent' | 'receiver';
  readonly delivered_mL: number;
  readonly phase: 'move' | 'drop' | 'cancel';
}

/** What the coach found for the run as it would go on; see `bf-coach`. */
interface Guidance {
  readonly window: SwitchWindow | undefined;
  readonly startWindow: StartWindow | undefined;
}

type Beside = 'glass' | 'unrolled';

/**
 * The bench: glass beside figure, read-outs, coach, and the strip of controls; or the debrief of the run.
 *
 * @slot why - shown at the end of the debrief: why something was lost
 */
@customElement('bf-bench')
export class BenchView extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, viewStyles];

  @property({ attribute: false }) session: Session | undefined;
  @state() private bedTop = 0;
  @state() private bedBottom = 0;
  @state() private beside: Beside = 'glass';
  @state() private debriefing = false;
  /** A receiver being moved: the run as it would be, without the model. */
  @state() private moved: Plan | undefined;
  /** An action that waits for the coach. */
  @state() private held: Action | undefined;
  @state() private marks: readonly { mL: number; label: string }[] = [];
  @state() private guidance: Guidance | undefined;
  private readonly announcer = new Announcer(this);

  constructor() {
    super();
    new KeysController(this, { heading: 'Bench', entries: [{ key: 'd', does: 'debrief, or back to the bench', run: () => this.debrief(!this.debriefing) }] });
  }

  override willUpdate() {
    this.announcer.hear(this.session?.store);
  }

  override render() {
    const { session } = this;
    const store = session?.store;
    if (!session || !store) return nothing;
    if (store.failure)
      return html`<p role="alert">The model stopped: ${store.failure}. The run is kept. <button type="button" @click=${() => location.reload()}>Load the page again</button></p>`;
    if (!store.scenario || !store.plan || !store.moment) return html`<p role="status">The column is being packed …</p>`;
    if (this.debriefing) return html`<bf-debrief .session=${session} @bf-leave=${() => this.debrief(false)}><slot name="why" slot="why"></slot></bf-debrief>`;
    return html`<h1 class="unseen">Bench</h1>
      <div class="bench">
        <div class="left">${this.column(session)}</div>
        ${this.figure(session)}
        <div class="side">${this.side(session)}</div>
        <bf-strip .store=${store} @bf-act=${this.act}></bf-strip>
      </div>`;
  }

  private column({ store, exaggerate, pointing }: Session) {
    const { scenario, moment, plan, playing, speed } = store;
    const labels = plan?.labels ?? [];
    return this.beside === 'glass'
      ? html`<bf-glass .scenario=${scenario} .moment=${moment} .labels=${labels} .exaggerate=${exaggerate} .bedTop=${this.bedTop} .bedBottom=${this.bedBottom}
          .playing=${playing} .speed=${speed} .depth_cm=${pointing.depth_cm}></bf-glass>`
      : html`<bf-unrolled whole .scenario=${scenario} .moment=${moment} .labels=${labels} .exaggerate=${exaggerate} .bedTop=${this.bedTop} .bedBottom=${this.bedBottom}
          .depth_cm=${pointing.depth_cm}></bf-unrolled>`;
  }

  private figure(session: Session) {
    const { store, pointing } = session;
    const { plan, preview, moment } = store;
    if (!plan) return nothing;
    return html`<bf-figure .scenario=${store.scenario} .plan=${plan} .preview=${preview} .now_mL=${moment?.delivered_mL ?? 0} .now_min=${store.now}
      .handles=${store.handles} .showForecast=${true} .depth_cm=${pointing.depth_cm} .window=${this.windows(session).window} .targets=${session.targets}
      .predictions=${this.marks} @bf-handle=${this.drag} @bf-layout=${this.align}></bf-figure>`;
  }

  private side(session: Session) {
    const { store, targets } = session;
    const { window, startWindow } = this.windows(session);
    const over = isOver(store);
    return html`
      <bf-coach .session=${session} .held=${this.held} @bf-go=${this.go} @bf-drop=${this.drop} @bf-marks=${this.mark} @bf-guidance=${this.guide}></bf-coach>
      ${over ? html`<p class="over">The run is over. <button type="button" class="primary" @click=${() => this.debrief(true)}>Debrief</button></p>` : nothing}
      <bf-task .scenario=${store.scenario} .fresh=${store.log.length === 0}></bf-task>
      <bf-now .store=${store}></bf-now>
      <bf-verdict .plan=${this.moved ?? store.preview ?? store.plan} .trying=${this.moved !== undefined || store.preview !== undefined} .targets=${targets}
        .window=${window} .startWindow=${startWindow} @bf-targets=${this.want}></bf-verdict>
      <div class="choices">
        <bf-segmented label="coach" .value=${session.coach} .choices=${COACH} @bf-change=${this.takeCoach}></bf-segmented>
        <bf-segmented label="column drawn as" .value=${this.beside} .choices=${BESIDE} @bf-change=${this.takeBeside}></bf-segmented>
        <label class="check"><input type="checkbox" .checked=${session.exaggerate} @change=${this.takeExaggerate} />exaggerate faint colours</label>
        ${over ? nothing : html`<button type="button" @click=${() => this.debrief(true)}>Debrief so far</button>`}
      </div>`;
  }

  /** The windows that may be seen: those of the guide while the run lasts, those of the run itself when it is over. */
  private windows(session: Session): Guidance {
    const { store, targets, coach } = session;
    if (!store.plan || !targets) return NONE;
    if (isOver(store)) return { window: session.window, startWindow: coach === 'guide' ? this.guidance?.startWindow : undefined };
    return coach === 'guide' ? (this.guidance ?? NONE) : NONE;
  }

  private align(event: CustomEvent<{ bedTop: number; bedBottom: number }>) {
    this.bedTop = event.detail.bedTop;
    this.bedBottom = event.detail.bedBottom;
  }

  private act(event: CustomEvent<{ action: Action }>) {
    const { session } = this;
    if (!session) return;
    // The coach lets it go at once when there is nothing to ask.
    if (session.coach === 'off') void session.store.act(event.detail.action);
    else this.held = event.detail.action;
  }

  private async go(event: CustomEvent<{ action: Action; taken: (refused: boolean) => void }>) {
    this.held = undefined;
    const { action, taken } = event.detail;
    const refusal = await this.session?.store.act(action);
    taken(refusal !== undefined);
  }

  private drop() {
    this.held = undefined;
  }

  private mark(event: CustomEvent<readonly { mL: number; label: string }[]>) {
    this.marks = event.detail;
  }

  private guide(event: CustomEvent<Guidance | undefined>) {
    this.guidance = event.detail;
  }

  private drag(event: CustomEvent<HandleMove>) {
    const store = this.session?.store;
    const { plan } = store ?? {};
    if (!store || !plan) return;
    const { entry, kind, delivered_mL, phase } = event.detail;
    this.moved = undefined;
    if (phase === 'cancel') return void store.dropPreview();
    if (phase === 'drop') return void store.replace((kind === 'receiver' ? movedReceiver : movedEluent)(plan.log, plan.events, entry, delivered_mL), store.now);
    if (kind === 'receiver') this.moved = withReceiverMoved(plan, entry, delivered_mL);
    else void store.tryOut(movedEluent(plan.log, plan.events, entry, delivered_mL));
  }

  private debrief(on: boolean) {
    this.debriefing = on;
    if (on) this.session?.store.pause();
  }

  private want(event: CustomEvent<FractionTargets>) {
    this.session?.setTargets(event.detail);
  }

  private takeCoach(event: CustomEvent<{ value: string }>) {
    const { value } = event.detail;
    this.session?.setCoach(value === 'off' || value === 'guide' ? value : 'ask');
  }

  private takeBeside(event: CustomEvent<{ value: string }>) {
    this.beside = event.detail.value === 'unrolled' ? 'unrolled' : 'glass';
  }

  private takeExaggerate(event: Event & { target: HTMLInputElement }) {
    this.session?.setExaggerate(event.target.checked);
  }
}

const NONE: Guidance = { window: undefined, startWindow: undefined };
const COACH: readonly { value: CoachLevel; label: string }[] = [
  { value: 'off', label: 'off' },
  { value: 'ask', label: 'ask' },
  { value: 'guide', label: 'guide' },
];
const BESIDE: readonly { value: Beside; label: string }[] = [
  { value: 'glass', label: 'glass' },
  { value: 'unrolled', label: 'unrolled' },
];

declare global {
  interface HTMLElementTagNameMap {
    'bf-bench': BenchView;
  }
}
