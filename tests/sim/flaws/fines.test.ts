import { expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { runWhole } from '../../../sim/run/run.ts';
import type { Fault } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach } from '../faults/bench.ts';

// Water under a level that is held, so the head that drives it does not change.

/** Minutes per mL once this volume has run through. */
function slowness(faults: readonly Fault[], delivered_mL: number): number {
  const { bed } = runWhole(
    leach(
      { 'bench.start_head_mm': 10 },
      {
        faults,
        procedure: [
          { do: 'pour', liquid: 'water', volume_mL: 40, hold_level: true },
          { do: 'clamp', open_percent: 100 },
          { do: 'wait', until: { delivered_mL } },
        ],
      },
    ),
  );
  return 1 / bed.scalar[AT.flow];
}

// Filtration at constant pressure: dt/dV = a + b V, b above zero, for what settles adds to the resistance (Ruth 1935, recalled).
test('fines on the support slow the flow more with every mL, in a straight line', () => {
  const [first, middle, last] = [10, 20, 30].map((volume) => slowness([{ kind: 'fines', severity: 1 }], volume));
  expect(middle).toBeGreaterThan(1.05 * first);
  closeTo('growth over the second 10 mL', last - middle, middle - first, { relative: 0.02 }, 'min/mL');
});

test('without fines the flow stays as it is', () => {
  const [first, last] = [10, 30].map((volume) => slowness([], volume));
  closeTo('time of a mL', last, first, { relative: 1e-3 }, 'min/mL');
});
