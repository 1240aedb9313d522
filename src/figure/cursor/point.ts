import { receiverName } from '../../ui/text/receiver-words.ts';
import { bandAt, deliveredAtEnd, frameAt, inBedAt, instantAt, leavingAt, onRuler, type Plan, receiverOf, timeAt } from '../../../sim/history/index.ts';
import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import { pourings } from '../rows/stretches.ts';

/** Everything the run holds at one delivered volume and depth. */
export interface Point {
  readonly delivered_mL: number;
  readonly time_min: number;
  /** Along the bed as packed, and what the ruler reads at such a depth then. */
  readonly depth_cm: number;
  readonly read: (depth_cm: number) => number;
  /** The liquid poured last. */
  readonly poured: string;
  readonly receiver: string;
  /** mol/L between the beads at the depth, and leaving the tip. */
  readonly acid_M: number;
  readonly acidLeaving_M: number;
  readonly ions: readonly PointIon[];
}

export interface PointIon {
  readonly ion: IonId;
  /** mmol per mL of bed at the depth, beads and liquid. */
  readonly inBed: number;
  /** Edges of the band along the bed as packed, cm; undefined while none is on the bed. */
  readonly edges: { readonly leading_cm: number; readonly trailing_cm: number } | undefined;
  /** mol/L leaving the tip. */
  readonly leaving_M: number;
}

export function pointAt(scenario: Scenario, plan: Plan, delivered_mL: number, depth_cm: number): Point {
  const volume = Math.max(0, Math.min(delivered_mL, deliveredAtEnd(plan)));
  const frame = frameAt(plan, volume);
  const instant = instantAt(plan, volume);
  return {
    delivered_mL: volume,
    time_min: timeAt(plan, volume),
    depth_cm,
    read: (depth) => onRuler(plan, frame, depth),
    poured: pourings(scenario, plan).findLast(({ from_mL }) => from_mL <= volume)?.label ?? '',
    receiver: receiverName(plan.labels[receiverOf(plan, frame)] ?? ''),
    acid_M: inBedAt(plan, 'HCl', instant, depth_cm),
    acidLeaving_M: leavingAt(plan, 'HCl', volume),
    ions: plan.ions.map((ion) => ({
      ion,
      inBed: inBedAt(plan, ion, instant, depth_cm),
      edges: bandAt(plan, ion, frame),
      leaving_M: leavingAt(plan, ion, volume),
    })),
  };
}
