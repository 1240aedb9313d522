import { describe, expect, test } from 'vitest';
import { intended } from '../../../sim/column/index.ts';
import { flowTestMinutes, runWhole } from '../../../sim/run/index.ts';
import { AT } from '../../../sim/column/index.ts';
import { closeTo } from '../../exact/asserts.ts';
import { conductivity, fallingHeadMinutes, permeabilityOf } from '../../exact/hydraulics.ts';
import { leach } from '../faults/bench.ts';

// Water at 20 °C: 0.9982 g/mL and 1.002 mPa s, handbook values (recalled).
const WATER = { density: 0.9982, viscosity: 1.002 };
const ONE_LANE = { 'bed.lanes': 1, 'column.open_cm_per_mL_min': 0 } as const;

describe('a flow test before the run', () => {
  test('falls as in a falling-head permeameter: t = (a/A)(L/K) ln(h0/h1), heights above the outlet', () => {
    const { values } = leach(ONE_LANE);
    const K = conductivity(permeabilityOf(values['bed.bead_um'] * 1e-4, values['bed.porosity']), WATER);
    const [bore, L] = [values['column.bore_cm'], values['bed.length_cm']];
    const below = L + values['column.outlet_cm'];
    const minutes = fallingHeadMinutes(1, 1, L, 0, K, 2 + below, 1 + below);
    const found = flowTestMinutes(leach(ONE_LANE), { volume_mL: (Math.PI / 4) * bore ** 2, from_mm: 20, to_mm: 10 });
    closeTo('minutes', found, minutes, { relative: 0.005 }, 'min');
  });

  test('takes as long as the same volume in a run that pours nothing', () => {
    const scenario = intended(leach({ 'bed.lanes': 1, 'bench.start_head_mm': 30 }));
    const volume_mL = 1;
    const run = runWhole(scenario, [
      { do: 'clamp', open_percent: 100 },
      { do: 'wait', until: { more_mL: volume_mL } },
    ]);
    const to_mm = (10 * run.bed.scalar[AT.headVolume]) / run.column.section;
    closeTo('minutes', flowTestMinutes(scenario, { volume_mL, from_mm: 30, to_mm }), run.bed.scalar[AT.time], { relative: 0.002 }, 'min');
  });

  test('at a level that is kept takes the volume over the flow, and less the higher it is', () => {
    const of = (mm: number, volume_mL: number): number => flowTestMinutes(leach(ONE_LANE), { volume_mL, from_mm: mm, to_mm: mm });
    closeTo('twice the volume', of(20, 10), 2 * of(20, 5), { relative: 1e-12 }, 'min');
    expect(of(40, 5)).toBeLessThan(of(20, 5));
  });
});
