import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { FAULT_KINDS, type FaultKind } from '../../sim/terms/fault-kinds.ts';
import { FAULT_GROUPS, FAULTS, sameLog } from '../../sim/faults/index.ts';
import type { Fault } from '../../sim/terms/types.ts';
import { deliveredAtEnd, progressOf, timeAt } from '../../sim/history/index.ts';
import { workerThread } from '../store/threads/model-thread.ts';
import { canComeNow, type Imposed, imposedOn, imposeFromStart, imposeNow, takeAllAway, takeAway } from './imposed/impose.ts';
import { patched } from '../store/keep/difference.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { announce } from '../ui/announce.ts';
import { emit } from '../ui/emit.ts';
import { fixed, millilitres, withUnit } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { faultWords } from './severity.ts';
import { pictureDrawing, HEIGHT, WIDTH } from './pictures/drawing.ts';
import { FaultPictures, pictured } from './pictures/pictures.ts';
import { partStyles } from './styles.ts';
import './fault-form.ts';
import './hide.ts';

const GROUPS = Object.entries(FAULT_GROUPS);

/**
 * The fault board: what is imposed now, and a picture of every fault there is, by group.
 *
 * @fires bf-open-part - {part: 'twin'} when a fault is to be looked at beside its twin
 */
@customElement('bf-fault-board')
export class FaultBoard extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      :host { display: grid; gap: var(--gap-large); grid-template-columns: repeat(auto-fit, minmax(min(100%, 22rem), 1fr)); align-items: start; }
      @media (min-width: 60rem) { :host { grid-template-columns: minmax(0, 1fr) 20rem; } }
      h2 { font-size: 1rem; }
      dl { margin-top: var(--gap); }
      .terms { display: grid; grid-template-columns: auto 1fr; gap: 0 var(--gap-small); margin: 0 0 var(--gap); font-size: var(--text-small); line-height: 1.35; max-width: 60rem; }
      .terms dd { margin: 0; }
      bf-hide-faults { display: block; margin-top: var(--gap-large); }
      /* Below the clock, which stays at the top; what does not fit is scrolled to. */
      .imposed { position: sticky; top: 4.5rem; max-height: calc(100vh - 8.5rem); overflow-y: auto; }
      .imposed ul { list-style: none; padding: 0; }
      .imposed li { display: flex; gap: var(--gap-small); align-items: center; justify-content: space-between; padding: var(--gap-small) 0; border-bottom: 1px solid var(--rule); }
      .all { display: grid; grid-template-columns: repeat(auto-fill, minmax(10.5rem, 1fr)); gap: var(--gap-small); position: relative; }
      .group { display: contents; }
      .one { border: 1px solid var(--rule); border-radius: var(--round); background: var(--sheet); min-width: 0; padding: 0 var(--gap-small); position: relative; }
      .one:has(details[open]) { grid-column: 1 / -1; }
      .picture { display: block; width: 100%; max-width: 16rem; padding: var(--gap-small) 0; border: 0; background: none; }
      .picture svg { display: block; width: 100%; height: auto; aspect-ratio: 200 / 96; }
      .awaited { position: absolute; top: 2rem; left: 0; right: 0; text-align: center; color: var(--soft); font-size: var(--text-small); pointer-events: none; }
      .bed { fill: var(--paper); stroke: var(--edge); }
      .band { fill-opacity: 0.75; }
      .base { stroke: var(--edge); }
      .leaving { fill: none; stroke-width: 2; }
      .twin { fill: none; stroke: var(--ink); stroke-width: 1.25; stroke-dasharray: 1.5 2.5; }
      .kept { fill: var(--accent); }
      details { border-top: 1px solid var(--rule); }
      details[open] { padding-bottom: var(--gap); }
      summary { justify-content: space-between; gap: var(--gap); }
      .on { color: var(--ink); font-weight: 600; font-size: var(--text-small); }
      @media (max-width: 60rem) { .imposed { position: static; max-height: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private open: FaultKind | undefined;
  @state() private refusal = '';
  private readonly pictures = new FaultPictures(workerThread);

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.pictures.stop();
  }

  override updated() {
    const { written } = this.session ?? {};
    if (written) void this.pictures.draw(written);
  }

  override render() {
    const { session } = this;
    if (!session?.store.scenario) return nothing;
    const imposed = imposedOn(session);
    const { failure } = this.pictures;
    return html`
      <div><p>Each picture shows a whole run of the procedure with one fault, in a bed packed beforehand, whatever the run on the bench has come to. Press it to impose the fault and see the run beside its healthy twin; a run of your own is kept.</p>
        ${failure ? html`<p class="problem" role="alert">No pictures: ${failure}</p>` : nothing}
        <dl class="terms">
          <dt>left</dt><dd>the bed unrolled: the wall of the bed laid flat, once around from left to right, its top above; in colour the band of the wanted ion</dd>
          <dt>when</dt><dd>as the weaker eluent is poured: the liquid, such as water, that sets the band free</dd>
          <dt>right</dt><dd>the effluent: what leaves the tip, against the volume delivered, each ion to a height of its own</dd>
          <dt>bar</dt><dd>the part of the effluent that is kept</dd>
          <dt>dots</dt><dd>the healthy twin: the same column and the same actions without the fault, on a bed that is kept wet</dd>
        </dl><div class="all">${GROUPS.map(([group, label]) => html`<section class="group"><h2 class="unseen">${group}. ${label}</h2>${FAULT_KINDS.filter((kind) => FAULTS[kind].group === Number(group)).map((kind) => this.fault(kind, imposed))}</section>`)}</div></div>
      <div class="imposed">
        <section class="card" aria-labelledby="imposed"><h2 id="imposed">Imposed on this run</h2>${this.list(imposed)}</section>
        <bf-hide-faults .session=${session}></bf-hide-faults>
      </div>`;
  }

  private fault(kind: FaultKind, imposed: readonly Imposed[]) {
    const { label, what, signs, prevention, rescue, cause, source, status } = FAULTS[kind];
    const on = imposed.some(({ fault }) => fault.kind === kind);
    return html`<div class="one">${this.picture(kind)}<details ?open=${this.open === kind} @toggle=${(event: ToggleEvent & { target: HTMLDetailsElement }) => this.fold(kind, event.target.open)}>
      <summary>${label}${on ? html`<span class="on">imposed</span>` : nothing}</summary>
      ${
        this.open === kind
          ? html`
        <p>${what}</p>
        <bf-fault-form .kind=${kind} .length_cm=${this.length()} .canNow=${canComeNow({ kind })} @bf-impose=${this.impose}></bf-fault-form>
        ${this.refusal ? html`<p class="problem" role="alert">${this.refusal}</p>` : nothing}
        <dl>
          <dt>signs</dt><dd>${signs}</dd>
          ${cause ? html`<dt>by hand</dt><dd>${cause}</dd>` : nothing}
          <dt>prevention</dt><dd>${prevention}</dd>
          <dt>rescue</dt><dd>${rescue}</dd>
          <dt>basis</dt><dd>${source} (${status})</dd>
        </dl>`
          : nothing
      }
    </details></div>`;
  }

  private picture(kind: FaultKind) {
    const { healthy, of, done } = this.pictures;
    const drawn = of.get(kind);
    const instead = drawn && healthy ? '' : done ? 'no picture' : 'being computed …';
    return html`<button type="button" class="picture" aria-label="Show ${FAULTS[kind].label} beside its twin" @click=${() => this.show(kind)}>
      <svg viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true">${drawn && healthy ? pictureDrawing(drawn, healthy) : nothing}</svg></button>
      ${instead ? html`<span class="awaited">${instead}</span>` : nothing}`;
  }

  /** The fault on this run, beside its twin, at the moment of the picture; the reader's own run is put aside. */
  private async show(kind: FaultKind) {
    const { session } = this;
    if (!session?.store.scenario) return;
    if (!sameLog(session.store.log, session.store.scenario.procedure)) session.putAside(session.saved());
    await takeAllAway(session);
    await wholeRun(session);
    if (!(await imposeFromStart(session, pictured(kind)))) {
      this.refusal = issuesOf(session);
      return;
    }
    const { plan, scenario } = session.store;
    if (plan && scenario) await session.store.seek(timeAt(plan, progressOf(scenario, plan.events).eluent_mL ?? deliveredAtEnd(plan) / 2));
    announce(this, `${faultWords(pictured(kind), this.length())}: imposed`);
    emit(this, 'bf-open-part', { part: 'twin' });
  }

  private list(imposed: readonly Imposed[]) {
    if (imposed.length === 0) return html`<p>No fault is set, so both runs are the same.</p>`;
    return html`<ul>${imposed.map(
      (
        one,
      ) => html`<li><span>${faultWords(one.fault, this.length())}<br /><span class="soft">${one.from === 'start' ? 'from the start' : `at ${withUnit(fixed(one.time_min, 1), 'min')}, ${millilitres(one.delivered_mL)}`}</span></span>
        <button type="button" aria-label="Remove ${FAULTS[one.fault.kind].label}" @click=${() => this.takeOff(one)}>Remove</button></li>`,
    )}</ul>
      <button type="button" @click=${this.takeAllOff}>Remove all</button>`;
  }

  private fold(kind: FaultKind, open: boolean) {
    if (open) this.open = kind;
    else if (this.open === kind) this.open = undefined;
    this.refusal = '';
  }

  private async impose(event: CustomEvent<{ fault: Fault; when: 'start' | 'now' }>) {
    const { session } = this;
    if (!session) return;
    const { fault, when } = event.detail;
    this.refusal = when === 'now' ? await this.imposeNow(session, fault) : (await imposeFromStart(session, fault)) ? '' : issuesOf(session);
    if (this.refusal === '') announce(this, `${faultWords(fault, this.length())}: imposed`);
  }

  private async imposeNow({ store }: Session, fault: Fault): Promise<string> {
    await imposeNow(store, fault);
    const refused = store.plan?.events.find(({ action, refused: why }) => why && action?.do === 'fault')?.refused;
    if (refused) await store.undo();
    return refused ? `${refused.path}: expected ${refused.expected}, received ${refused.received}` : '';
  }

  private async takeOff(one: Imposed) {
    if (!this.session) return;
    await takeAway(this.session, one);
    announce(this, `${FAULTS[one.fault.kind].label}: removed`);
  }

  private async takeAllOff() {
    if (!this.session) return;
    await takeAllAway(this.session);
    announce(this, 'All faults removed');
  }

  private length(): number {
    return this.session?.store.scenario?.values['bed.length_cm'] ?? 0;
  }
}

/** A run that has not come to the eluent would show nothing of what is pictured: the procedure takes its place, in a packed bed. */
async function wholeRun(session: Session): Promise<void> {
  const { plan, scenario } = session.store;
  if (!plan || !scenario || session.store.log.length === 0 || progressOf(scenario, plan.events).eluent_mL !== undefined) return;
  await session.change(patched(session.json, { bench: { packed: 1 } }), scenario.procedure, 0);
}

function issuesOf({ issues }: Session): string {
  return issues.map(({ path, expected, received }) => `${path}: expected ${expected}, received ${received}`).join('; ');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fault-board': FaultBoard;
  }
}
