import { AT, bedLengthOf } from '../../../sim/column/index.ts';
import {
  belowTopAt,
  betweenFrames,
  collected,
  deliveredOf,
  effluentCurve,
  flowOf,
  type Plan,
  receiverLabels,
  targetsOf,
  trimmed,
} from '../../../sim/history/index.ts';
import { advance, flowTestMinutes, resultsOf, runOf } from '../../../sim/run/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Measurement } from './measurements.ts';

// Values of the model for every measurement of a run.

/** Cobalt from which drops look coloured, mol/L: pink of the hexaaqua ion, absorptivity about 5 L/(mol cm), over 1 cm. Assumed. */
const SEEN_M = 0.004;
/** Steps of the model between looks at the bed's length. */
const STRIDE_STEPS = 8;

interface Watched {
  readonly plan: Plan;
  /** Bed length against delivered volume. */
  readonly lengths: readonly (readonly [delivered_mL: number, length_cm: number])[];
}

/** `alive` is called while the run is worked out. */
export function predicted(scenario: Scenario, measurements: readonly Measurement[], alive: () => void = () => undefined): number[] {
  const watched = watch(scenario, alive);
  return measurements.map((measurement) => valueOf(scenario, watched, measurement));
}

function watch(scenario: Scenario, alive: () => void): Watched {
  const run = runOf(scenario);
  const { bed, column } = run;
  const s = bed.scalar;
  const lengths: [number, number][] = [];
  do {
    alive();
    lengths.push([s[AT.delivered], bedLengthOf(bed, column)]);
  } while (!advance(run, { endOfLog: true, steps: STRIDE_STEPS }));
  const { record, events, log } = run;
  const logEnd = { time_min: s[AT.time], delivered_mL: s[AT.delivered] };
  const plan = {
    ...trimmed(record),
    log,
    events,
    labels: receiverLabels(events),
    length_cm: column.length,
    logEnd,
    results: resultsOf(run),
    recomputed_min: 0,
  };
  return { plan, lengths };
}

function valueOf(scenario: Scenario, { plan, lengths }: Watched, { quantity, at_mL, from_mL, solute, test }: Measurement): number {
  const { target } = targetsOf(scenario);
  switch (quantity) {
    case 'flow test':
      return test ? flowTestMinutes(scenario, test) : Number.NaN;
    case 'flow':
      return betweenFrames(plan, at_mL, (frame) => flowOf(plan, frame));
    case 'bed':
      return lengthAt(lengths, at_mL);
    case 'leading':
    case 'trailing':
      return belowTopAt(plan, target, at_mL, `${quantity}_cm`);
    case 'first colour':
      return seenAt(scenario, plan, 1);
    case 'last colour':
      return seenAt(scenario, plan, -1);
    case 'fraction':
      return collected(plan, from_mL, at_mL)[`${solute ?? 'HCl'}_mmol`] ?? 0;
    case 'alkali':
      return collected(plan, from_mL, at_mL).HCl_mmol / scenario.values['bench.NaOH_M'];
  }
}

function lengthAt(lengths: Watched['lengths'], at_mL: number): number {
  return lengths.find(([delivered]) => delivered >= at_mL)?.[1] ?? lengths[lengths.length - 1][1];
}

/** Delivered volume at which the target is first (1) or last (-1) seen in the drops; NaN if it never is. */
function seenAt(scenario: Scenario, plan: Plan, way: 1 | -1): number {
  const frames = Array.from({ length: plan.count }, (_, frame) => frame);
  const { ys } = effluentCurve(plan, targetsOf(scenario).target, frames);
  const seen = way === 1 ? ys.findIndex((M) => M >= SEEN_M) : ys.findLastIndex((M) => M >= SEEN_M);
  const unseen = seen - way;
  if (seen < 0) return Number.NaN;
  if (unseen < 0 || unseen >= ys.length || ys[seen] === ys[unseen]) return deliveredOf(plan, seen);
  const share = (ys[seen] - SEEN_M) / (ys[seen] - ys[unseen]);
  return deliveredOf(plan, seen) + share * (deliveredOf(plan, unseen) - deliveredOf(plan, seen));
}
