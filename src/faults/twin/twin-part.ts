import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import type { Plan } from '../../../sim/history/index.ts';
import type { Session } from '../../store/session.ts';
import type { Twin } from '../../store/twin.ts';
import { LiveElement } from '../../store/live-element.ts';
import { fixed, millilitres, quantity, withUnit } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';
import { partStyles } from '../styles.ts';
import '../../ui/segmented.ts';
import './numbers-part.ts';
import './overlay.ts';

type Drawn = 'unrolled' | 'glass';
type Laid = 'over' | 'beside';

const DRAWN: readonly { value: Drawn; label: string }[] = [
  { value: 'unrolled', label: 'unrolled' },
  { value: 'glass', label: 'glass' },
];
const LAID: readonly { value: Laid; label: string }[] = [
  { value: 'over', label: 'overlaid, with the difference' },
  { value: 'beside', label: 'side by side' },
];
/** px from the top of a drawn column to the ends of its bed; the glass needs room for the vessel below. */
const BED = { unrolled: { top: 60, bottom: 330 }, glass: { top: 90, bottom: 330 } } as const;

/** The run beside its healthy twin at the same moment: column, streaks and effluent. */
@customElement('bf-twin')
export class TwinPart extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      .pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 18rem), 1fr)); gap: var(--gap-large); }
      .column { height: 26rem; position: relative; }
      .column.glass { height: 32rem; }
      .figure { height: 27rem; min-width: 0; }
      h2 { font-size: 1rem; display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: baseline; }
      h2 span { font-weight: 400; color: var(--soft); font-size: var(--text-small); }
      .controls { margin-bottom: var(--gap); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) twin: Twin | undefined;
  @state() private drawn: Drawn = 'unrolled';
  @state() private laid: Laid = 'over';

  override render() {
    const { session, twin } = this;
    const { scenario, plan, moment } = session?.store ?? {};
    if (!session || !scenario || !plan || !moment) return nothing;
    return html`
      <div class="row controls">
        <bf-segmented label="columns drawn as" .value=${this.drawn} .choices=${DRAWN} @bf-change=${this.takeDrawn}></bf-segmented>
        <bf-segmented label="streaks and effluent" .value=${this.laid} .choices=${LAID} @bf-change=${this.takeLaid}></bf-segmented>
      </div>
      ${twin?.failure ? html`<p class="problem" role="alert">Twin: ${twin.failure}</p>` : nothing}
      <div class="pair">
        <div>${this.heading('This run', moment)}${this.column(scenario, moment, plan)}</div>
        <div>${this.heading('Healthy twin', twin?.moment)}${twin?.scenario && twin.moment && twin.plan ? this.column(twin.scenario, twin.moment, twin.plan) : html`<p role="status">The twin is being worked out …</p>`}</div>
      </div>
      ${this.laid === 'over' ? this.over(scenario, plan, moment) : this.beside(scenario, plan, moment)}
      <bf-symptoms .run=${{ scenario, plan, moment }} .twin=${twin?.scenario && twin.plan && twin.moment ? { scenario: twin.scenario, plan: twin.plan, moment: twin.moment } : undefined}></bf-symptoms>
      ${twin?.plan ? html`<p class="soft">The twin took ${quantity(twin.cost.plan_ms, 'ms', 2)} for its whole run and ${quantity(twin.cost.moment_ms, 'ms', 2)} for this moment.</p>` : nothing}`;
  }

  private heading(name: string, moment: Moment | undefined) {
    if (!moment) return html`<h2>${name}</h2>`;
    const { flow, delivered_mL, level_cm } = moment;
    return html`<h2>${name}<span>${flow > 0 ? quantity(flow, 'mL/min', 2) : 'no flow'}, ${millilitres(delivered_mL)} delivered, ${withUnit(fixed(level_cm * 10, 0), 'mm')} above the bed</span></h2>`;
  }

  private column(scenario: Scenario, moment: Moment, plan: Plan) {
    const { exaggerate = false, store } = this.session ?? {};
    const { top, bottom } = BED[this.drawn];
    return html`<div class="column ${this.drawn}">${
      this.drawn === 'glass'
        ? html`<bf-glass .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .exaggerate=${exaggerate} .bedTop=${top} .bedBottom=${bottom}
          .playing=${store?.playing ?? false} .speed=${store?.speed ?? 1}></bf-glass>`
        : html`<bf-unrolled .scenario=${scenario} .moment=${moment} .labels=${plan.labels} .exaggerate=${exaggerate} .bedTop=${top} .bedBottom=${bottom}></bf-unrolled>`
    }</div>`;
  }

  private over(scenario: Scenario, plan: Plan, moment: Moment) {
    const { twin } = this;
    const other = twin?.scenario && twin.plan ? { scenario: twin.scenario, plan: twin.plan } : undefined;
    return html`<bf-overlay .run=${{ scenario, plan }} .twin=${other} .now_mL=${moment.delivered_mL}></bf-overlay>`;
  }

  private beside(scenario: Scenario, plan: Plan, moment: Moment) {
    const { twin } = this;
    return html`<div class="pair">
      <div class="figure">${this.figure(scenario, plan, moment)}</div>
      <div class="figure">${twin?.scenario && twin.plan && twin.moment ? this.figure(twin.scenario, twin.plan, twin.moment) : nothing}</div>
    </div>`;
  }

  private figure(scenario: Scenario, plan: Plan, moment: Moment) {
    return html`<bf-figure .scenario=${scenario} .plan=${plan} .now_mL=${moment.delivered_mL} .now_min=${moment.time_min} .showForecast=${true}></bf-figure>`;
  }

  private takeDrawn(event: CustomEvent<{ value: string }>) {
    this.drawn = event.detail.value === 'glass' ? 'glass' : 'unrolled';
  }

  private takeLaid(event: CustomEvent<{ value: string }>) {
    this.laid = event.detail.value === 'beside' ? 'beside' : 'over';
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-twin': TwinPart;
  }
}
