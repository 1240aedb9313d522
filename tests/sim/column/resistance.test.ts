import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { crackFactor, resistLane } from '../../../sim/column/resistance.ts';
import { runOf } from '../../../sim/run/run.ts';
import { closeTo } from '../../exact/asserts.ts';
import { wallGap } from '../../exact/hydraulics.ts';
import { caseOf } from '../run/case.ts';

// Resistance of a cell beside a slot or with gas in it, against closed forms.

/** Share of the gap that stays open where a bed has shrunk (assumed by the model). */
const OPEN = 0.2;
const fresh = (lanes = 4) => runOf(caseOf({ 'bed.lanes': lanes, 'resin.shrinkage': 0 }), []);

describe('a slot beside a lane', () => {
  test('adds plane Poiseuille flow, h²/12, in the place of as much bed', () => {
    const [radius, k] = [0.45, 5e-7];
    for (const gap of [0.003, 0.01, 0.05]) {
      const { ratio } = wallGap(gap, radius, k);
      const share = (gap * 2 * Math.PI * radius) / (Math.PI * radius ** 2);
      closeTo('factor', crackFactor(gap, 2 * Math.PI * radius, Math.PI * radius ** 2, k), 1 - share + share * ratio, { relative: 1e-12 });
    }
  });

  test('narrower than the pores carries no more than they do', () => expect(crackFactor(1e-4, 1, 1, 5e-7)).toBe(1));

  test('eases the cells beside it only, on sectors and not in the core', () => {
    const { bed, column } = fresh();
    bed.crack.fill(0.02);
    bed.cracked.fill(3);
    const width = (Math.PI * column.scenario.values['column.bore_cm']) / 3;
    for (let lane = 0; lane < bed.lanes; lane++) {
      resistLane(bed, column, lane);
      const eased = crackFactor(0.02, width, column.lanes.area[lane], column.permeability * column.lanes.permeability[lane]);
      for (let j = 0; j < 6; j++)
        closeTo(`lane ${lane} cell ${j}`, bed.resistance[lane * bed.plates + j], lane > 0 && j < 3 ? 1 / eased : 1, { relative: 1e-12 });
    }
  });
});

describe('a bed that shrinks by s in volume and stays round', () => {
  test.each([0.05, 0.1, 0.2])('stands back from the wall by R (1 - (1 - s)^(1/3)): s = %d', (s) => {
    const { bed, column } = fresh();
    bed.scalar[AT.shrinkage] = 0.1;
    bed.swollen.fill(1 - s);
    const [bore, lane] = [column.scenario.values['column.bore_cm'], 2];
    const eased = (gap: number): number =>
      crackFactor(gap, (Math.PI * bore) / 3, column.lanes.area[lane], column.permeability * column.lanes.permeability[lane]);
    resistLane(bed, column, lane);
    const gap = OPEN * (bore / 2) * (1 - (1 - s) ** (1 / 3));
    // The model takes the root to second order; what is left out is below s²/10 of the gap, and the flow goes with its cube.
    closeTo('resistance', bed.resistance[lane * bed.plates], 1 / eased(gap), { relative: 0.3 * s * s + 1e-9 });
    const one = bed.resistance[lane * bed.plates];
    bed.crack[lane] = 0.01;
    bed.cracked[lane] = 1;
    resistLane(bed, column, lane);
    expect(bed.resistance[lane * bed.plates]).toBeLessThan(one);
    expect(bed.resistance[lane * bed.plates + 1]).toBe(one);
    resistLane(bed, column, 0);
    expect(bed.resistance[0]).toBe(1);
  });
});

// Fry, Selker and Gorelick 1997 (abstract read): relative permeability 0.62 at 14 % gas and 0.05 at 55 %.
test.each([
  [0.14, 0.62],
  [0.55, 0.05],
])('gas of %d of the space leaves %d of the permeability', (gas, left) => {
  const { bed, column } = fresh();
  bed.gas[7] = gas;
  resistLane(bed, column, 0);
  closeTo('permeability', 1 / bed.resistance[7], left, { absolute: 0.04 });
  expect(bed.resistance[6]).toBe(1);
});
