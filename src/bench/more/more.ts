import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { stillness } from '../../../sim/teach/index.ts';
import type { Seeing } from '../../../sim/terms/seeing.ts';
import { isHidden } from '../../store/keep/mystery.ts';
import type { CoachLevel, Session } from '../../store/session.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { FractionTargets, Plan, StartWindow, SwitchWindow } from '../../../sim/history/index.ts';
import type { Dialog } from '../../ui/dialog.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import type { Hand, How } from '../hand.ts';
import { isOver } from '../../store/over.ts';
import { askedWords } from '../../ui/text/task/asked-words.ts';
import '../../ui/dialog.ts';
import '../../ui/segmented.ts';
import '../debrief/repair.ts';
import type { RepairControl } from '../debrief/repair.ts';
import '../debrief/verdict.ts';
import '../packing/empty-tube.ts';
import { awaitsResin } from '../packing/empty.ts';
import '../task/fitted-note.ts';
import './now.ts';
import './another.ts';
import './course.ts';

export type Beside = 'glass' | 'unrolled';

/**
 * Everything of the bench that is not always in sight: read-outs, verdict, other ways to pour, time, mending, how it is drawn.
 *
 * @fires bf-act - {action} to be taken
 * @fires bf-carry-out - {actions} to be taken as one
 * @fires bf-beside - {beside} how the column is drawn
 * @fires bf-debrief - the debrief so far is wanted
 * @fires bf-targets - what is asked of the fraction
 */
@customElement('bf-more')
export class BenchMore extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      .parts { display: grid; gap: var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 16rem), 1fr)); font-size: var(--text-small); }
      .first { grid-column: 1 / -1; }
      section { display: grid; gap: var(--gap-small); align-content: start; justify-items: start; min-width: 0; }
      section > * { max-width: 100%; }
      h3 { margin: 0; font-size: 1rem; }
      .check { display: flex; gap: var(--gap-small); align-items: center; min-height: var(--target); }
      .check input { width: 1.25em; height: 1.25em; margin: 0; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) hand: Hand | undefined;
  /** How much of the run may be seen. */
  @property() sees: Seeing = 'forecast';
  @property() beside: Beside = 'glass';
  /** The run that the verdict is about, and whether it is only tried. */
  @property({ attribute: false }) judged: Plan | undefined;
  @property({ type: Boolean }) trying = false;
  @property({ attribute: false }) window: SwitchWindow | undefined;
  @property({ attribute: false }) startWindow: StartWindow | undefined;
  /** The bed is to be mended: that part stands first, unfolded. */
  @state() private mends = false;
  /** The clock ran when the drawer was opened to mend, and goes on when the reader closes it, if anything flows then. */
  private goesOn = false;
  @query('bf-dialog') private dialog!: Dialog;
  @query('bf-repair') private repair!: RepairControl;

  override render() {
    const { session, hand } = this;
    if (!session || !hand) return nothing;
    const { store } = session;
    const mending = html`<section class=${this.mends ? 'first' : ''}><bf-repair .store=${store} ?hides=${isHidden(session.mystery)}></bf-repair></section>`;
    return html`<bf-dialog heading="More of the bench" @bf-close=${this.goOn}><div class="parts">
      ${this.mends ? mending : nothing}
      ${this.sees === 'eye' ? html`<section><p>Numbers and verdict are shown with the figure, or at the end of the run.</p></section>` : this.numbers(session)}
      <section><h3>The task</h3><p>${session.written?.purpose}</p>${session.targets ? html`<p>${askedWords(session.targets)}</p>` : nothing}</section>
      <section><h3>Pour</h3><bf-segmented label="how" .value=${hand.how} .choices=${HOW} @bf-change=${this.takeHow}></bf-segmented>
        ${hand.how === 'reservoir' ? html`<p>A reservoir keeps the liquid 1 cm above the bed until the volume is used.</p>` : nothing}</section>
      ${this.mayBegin(session) ? html`<section><h3>Resin</h3><bf-empty-tube .session=${session} @bf-done=${this.close}></bf-empty-tube></section>` : nothing}
      <section><h3>Clamp and receivers</h3><bf-another .store=${store}></bf-another></section>
      <section><h3>Model time</h3><bf-course .store=${store} @bf-done=${this.close}></bf-course></section>
      ${this.mends ? nothing : mending}
      ${session.written?.fitted ? html`<section><h3>Fitted</h3><bf-fitted-note .scenario=${session.written}></bf-fitted-note></section>` : nothing}
      <section><h3>Shown</h3>
        <bf-segmented label="coach" .value=${session.coach} .choices=${COACH} @bf-change=${this.takeCoach}></bf-segmented>
        <bf-segmented label="column drawn as" .value=${this.beside} .choices=${BESIDE} @bf-change=${this.takeBeside}></bf-segmented>
        <label class="check"><input type="checkbox" .checked=${session.exaggerate} @change=${this.takeExaggerate} />exaggerate faint colours</label>
      </section>
    </div></bf-dialog>`;
  }

  private numbers(session: Session) {
    return html`<section><bf-now .session=${session}></bf-now></section>
      <section>${
        this.sees === 'forecast'
          ? html`<bf-verdict .plan=${this.judged} .trying=${this.trying} .due=${isOver(session.store)} .targets=${session.targets} .window=${this.window} .startWindow=${this.startWindow}
        @bf-targets=${this.want}></bf-verdict>`
          : nothing
      }<button type="button" @click=${this.debrief}>Debrief so far</button></section>`;
  }

  /** At the start of a run the column can still be another. */
  private mayBegin({ store, mystery, given }: Session): boolean {
    const { scenario, moment } = store;
    return !mystery && !given && scenario !== undefined && moment !== undefined && (store.log.length === 0 || awaitsResin(scenario, moment));
  }

  /** To mend the bed, or whatever else. Nobody watches a bed behind the drawer: while it is dry the clock waits. */
  async show(mend: boolean): Promise<void> {
    const { store } = this.session ?? {};
    this.mends = mend || store?.moment?.ails.dry === true;
    this.goesOn = this.mends && store?.playing === true;
    if (this.goesOn) store?.pause();
    await this.updateComplete;
    if (this.mends) this.repair.unfolded = true;
    await this.repair.updateComplete;
    await this.dialog.show();
  }

  /** What is pressed here to close the drawer decides itself about the clock. */
  private readonly close = () => {
    this.goesOn = false;
    this.dialog.close();
  };

  /** Where nothing would flow, as with the clamp that a cure has shut, a clock that went on would do nothing that is seen. */
  private readonly goOn = () => {
    const { store } = this.session ?? {};
    if (this.goesOn && store?.moment && stillness(store.moment) === undefined) store.play();
    this.goesOn = false;
  };

  private debrief() {
    this.close();
    emit(this, 'bf-debrief', undefined);
  }

  private want(event: CustomEvent<FractionTargets>) {
    this.session?.setTargets(event.detail);
  }

  private takeHow(event: CustomEvent<{ value: string }>) {
    if (this.hand) this.hand.how = HOW.find(({ value }) => value === event.detail.value)?.value ?? 'wall';
  }

  private takeCoach(event: CustomEvent<{ value: string }>) {
    const { value } = event.detail;
    this.session?.setCoach(value === 'off' || value === 'guide' ? value : 'ask');
  }

  private takeBeside(event: CustomEvent<{ value: string }>) {
    emit<{ beside: Beside }>(this, 'bf-beside', { beside: event.detail.value === 'unrolled' ? 'unrolled' : 'glass' });
  }

  private takeExaggerate(event: Event & { target: HTMLInputElement }) {
    this.session?.setExaggerate(event.target.checked);
  }
}

const HOW: readonly { value: How; label: string }[] = [
  { value: 'wall', label: 'down the wall' },
  { value: 'bed', label: 'straight onto the bed' },
  { value: 'reservoir', label: 'from a reservoir that holds the level' },
];
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
    'bf-more': BenchMore;
  }
}
