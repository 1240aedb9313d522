import { AT } from '../column/index.ts';
import { type Plan, receiverLabels } from '../history/index.ts';
import { resultsOf, type Run, runWhole } from '../run/index.ts';
import type { Log, Scenario } from '../terms/types.ts';

/** A whole run of a log as views and readings take it, up to the last action of the log. */
export function wholePlan(scenario: Scenario, log: Log): Plan {
  return planOf(runWhole(scenario, log));
}

export function planOf(run: Run): Plan {
  const { record, events, log, column, bed } = run;
  const s = bed.scalar;
  const logEnd = { time_min: s[AT.time], delivered_mL: s[AT.delivered] };
  return {
    ...record,
    log,
    events,
    labels: receiverLabels(events),
    length_cm: column.length,
    logEnd,
    results: resultsOf(run),
    recomputed_min: s[AT.time],
  };
}
