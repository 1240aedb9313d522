import { bandIn } from '../../sim/column/measure.ts';
import { FRAME } from '../../sim/history/record.ts';
import type { IonId, Scenario } from '../../sim/terms/types.ts';
import type { Plan } from '../../sim/history/plan.ts';
import { columnAt, deliveredAtEnd, frameAt } from '../../sim/history/windows.ts';
import { pourings } from './rows/stretches.ts';

/** Everything the run holds at one delivered volume and depth. */
export interface Point {
  readonly delivered_mL: number;
  readonly time_min: number;
  readonly depth_cm: number;
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
  /** Edges of the band, cm; undefined while none is on the bed. */
  readonly edges: { readonly leading_cm: number; readonly trailing_cm: number } | undefined;
  /** mol/L leaving the tip. */
  readonly leaving_M: number;
}

/** Less than this share of what was poured makes no band, only traces. */
const TRACE = 1e-3;

export function pointAt(scenario: Scenario, plan: Plan, delivered_mL: number, depth_cm: number): Point {
  const volume = Math.max(0, Math.min(delivered_mL, deliveredAtEnd(plan)));
  const length = scenario.values['bed.length_cm'];
  const frame = frameAt(plan, volume);
  const plate = Math.max(0, Math.min(plan.plates - 1, Math.floor((depth_cm / length) * plan.plates)));
  const profile = (component: number): Float32Array =>
    plan.profiles.subarray((frame * plan.components + component) * plan.plates, (frame * plan.components + component + 1) * plan.plates);
  return {
    delivered_mL: volume,
    time_min: columnAt(plan, FRAME.time, volume),
    depth_cm,
    poured: pourings(scenario, plan).findLast(({ from_mL }) => from_mL <= volume)?.label ?? '',
    receiver: plan.labels[plan.rows[frame * plan.stride + FRAME.receiver]] ?? '',
    acid_M: profile(0)[plate],
    acidLeaving_M: columnAt(plan, FRAME.parts, volume),
    ions: plan.ions.map((ion, i) => ({
      ion,
      inBed: profile(i + 1)[plate],
      edges: edgesOf(plan, ion, profile(i + 1), length),
      leaving_M: columnAt(plan, FRAME.parts + i + 1, volume),
    })),
  };
}

function edgesOf(plan: Plan, ion: IonId, profile: Float32Array, length: number): PointIon['edges'] {
  const band = bandIn(profile, length / plan.plates);
  const onBed = ((band?.amount_mmol ?? 0) * plan.results.bed.volume_mL) / plan.plates;
  return band && onBed > TRACE * (plan.results.loaded[`${ion}_mmol`] ?? 0) ? band : undefined;
}
