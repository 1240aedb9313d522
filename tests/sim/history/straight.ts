import type { Plan } from '../../../sim/history/index.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { small } from '../../src/store/rig.ts';

const plan = new Planner(small()).plan([]);

const ramp = (from: number, to: number, v: number): number => Math.min(1, Math.max(0, (v - from) / (to - from)));

/**
 * A run of straight lines, 0.5 mL/min: 10 mL of 2 M acid throughout; 1 mmol of nickel evenly from 1 to 3 mL, 1 mmol of cobalt evenly from
 * 5 to 9 mL. Frames every 0.5 mL, so that what is asked for lies between frames.
 */
export const straight: Plan = (() => {
  const rows = Array.from({ length: 21 }, (_, frame) => {
    const v = frame / 2;
    return [v * 2, v, 1, 0.5, 0, 0, 7, 2, v > 5 && v <= 9 ? 0.25 : 0, v > 1 && v <= 3 ? 0.5 : 0, 2 * v, ramp(5, 9, v), ramp(1, 3, v)];
  });
  return {
    ...plan,
    ions: ['Co', 'Ni'],
    components: 3,
    stride: 13,
    count: 21,
    rows: Float64Array.from(rows.flat()),
    results: { ...plan.results, loaded: { HCl_mmol: 20, Co_mmol: 1, Ni_mmol: 1 } },
  };
})();

/** A bed 10 cm long of 20 mL in one frame, with this much cobalt (mmol per mL of bed) and acid (mol/L) in each of its plates. */
export function bedOf(cobalt: readonly number[], poured_mmol: number, acid: readonly number[] = cobalt.map(() => 0)): Plan {
  const { results } = plan;
  return {
    ...plan,
    ions: ['Co'],
    components: 2,
    plates: cobalt.length,
    length_cm: 10,
    count: 1,
    stride: 11,
    rows: new Float64Array(11),
    profiles: Float32Array.of(...acid, ...cobalt),
    results: { ...results, bed: { ...results.bed, volume_mL: 20 }, loaded: { HCl_mmol: 0, Co_mmol: poured_mmol } },
  };
}
