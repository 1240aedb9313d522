// Each seed gives another column: a scenario states the intended values, and the column that a student gets differs a little.
import { AZEOTROPE_M } from '../chemistry/index.ts';
import { exp } from '../math/elementary.ts';
import { normalStream } from '../math/random.ts';
import type { FieldPath, Scenario } from '../terms/types.ts';

/** Keeps the draws apart from those of the packing. */
const STREAM = 60_013;
const LOOSEST = 0.5;
const TIGHTEST = 0.33;

/** The scenario of the column that this seed gives; drawing again changes nothing. */
export function drawn(scenario: Scenario): Scenario {
  const { values, seed, liquids } = scenario;
  const normal = normalStream(seed + STREAM);
  const [bead, porosity, length, uneven, bottle] = [normal(), normal(), normal(), normal(), normal()];
  const tallest = values['column.tube_cm'] - values['bench.start_head_mm'] / 10;
  if (isExact(scenario)) return scenario;
  const fumed = Math.abs(bottle) * values['differ.acid_M'];
  return {
    ...scenario,
    values: {
      ...values,
      'bed.bead_um': values['bed.bead_um'] * exp(values['differ.bead'] * bead),
      'bed.porosity': Math.min(LOOSEST, Math.max(TIGHTEST, values['bed.porosity'] + values['differ.porosity'] * porosity)),
      'bed.length_cm': Math.min(tallest, Math.max(values['bed.length_cm'] / 2, values['bed.length_cm'] + values['differ.length_cm'] * length)),
      'bed.spread': Math.min(1, values['bed.spread'] * exp(values['differ.spread'] * uneven)),
      ...NO_SPREAD,
    },
    liquids: Object.fromEntries(
      Object.entries(liquids).map(([id, liquid]) => [
        id,
        liquid.HCl_M > AZEOTROPE_M ? { ...liquid, HCl_M: Math.max(AZEOTROPE_M, liquid.HCl_M - fumed) } : liquid,
      ]),
    ),
  };
}

/** Whether another seed gives another column: other beads, bed or bottles, not only other loose places in the bed. */
export function columnsDiffer(scenario: Scenario): boolean {
  return !isExact(scenario);
}

/** The column that is meant, whatever the seed: bed as written, bottles as labelled. */
export function intended(scenario: Scenario): Scenario {
  return isExact(scenario) ? scenario : { ...scenario, values: { ...scenario.values, ...NO_SPREAD } };
}

const NO_SPREAD = { 'differ.bead': 0, 'differ.porosity': 0, 'differ.length_cm': 0, 'differ.spread': 0, 'differ.acid_M': 0 } as const satisfies Partial<
  Record<FieldPath, 0>
>;

function isExact({ values }: Scenario): boolean {
  return (Object.keys(NO_SPREAD) as (keyof typeof NO_SPREAD)[]).every((path) => values[path] === 0);
}
