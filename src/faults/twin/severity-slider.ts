import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { amountOf, amountRange, FAULTS, severityOf } from '../../../sim/faults/index.ts';
import { imposedOn, imposeFromStart } from '../imposed/impose.ts';
import { timeAt } from '../../../sim/history/index.ts';
import type { Fault } from '../../../sim/terms/types.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import '../../ui/number.ts';

/** How severe the fault is that was imposed from the start, on a slider; the run follows when it is let go. */
@customElement('bf-fault-severity')
export class FaultSeverity extends LiveElement {
  @property({ attribute: false }) session: Session | undefined;
  /** On one line, and without the name of the fault: a class is asked what it is. */
  @property({ type: Boolean }) unnamed = false;

  override render() {
    const { session } = this;
    const fault = session && imposedOn(session).find(({ from }) => from === 'start')?.fault;
    if (!session || !fault) return nothing;
    const { label } = FAULTS[fault.kind];
    return html`<bf-number label=${this.unnamed ? 'severity' : label} class=${this.unnamed ? 'beside' : ''} slider .of=${amountRange(fault.kind)}
      .value=${Number(amountOf(fault.kind, fault.severity ?? 1).toPrecision(2))} @bf-change=${(event: CustomEvent<{ value: number }>) => {
        const severity = Math.min(1, Math.max(0, severityOf(fault.kind, event.detail.value)));
        void this.impose(session, { ...fault, severity });
      }}></bf-number>`;
  }

  /** Shown again at the delivered volume that was looked at, as the twin is: with another severity the same minute is another volume. */
  private async impose(session: Session, fault: Fault): Promise<void> {
    const { store } = session;
    const delivered_mL = store.moment?.delivered_mL;
    if (!(await imposeFromStart(session, fault)) || delivered_mL === undefined || !store.plan) return;
    if (!store.playing) await store.seek(timeAt(store.plan, delivered_mL));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fault-severity': FaultSeverity;
  }
}
