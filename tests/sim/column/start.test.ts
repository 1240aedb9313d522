import { describe, expect, test } from 'vitest';
import { AT, checkpoint, restore } from '../../../sim/column/bed.ts';
import { columnOf, kozenyCarman } from '../../../sim/column/column.ts';
import { empty, widen } from '../../../sim/column/held.ts';
import { liquidError, liquidOf } from '../../../sim/column/ledger.ts';
import { amountsByDepth, bandIn, bedLengthOf, frontDepth } from '../../../sim/column/measure.ts';
import { amountOf, inTip, onBed, packedBed } from '../../../sim/column/start.ts';
import { swollen } from '../../../sim/column/swelling.ts';
import { closeTo } from '../../exact/asserts.ts';
import { laneVelocity, permeabilityOf } from '../../exact/hydraulics.ts';
import { flowInto } from '../../../sim/flow/hydraulics.ts';
import { caseOf } from '../run/case.ts';

// The bed a run begins with, and what is summed over it, against sums done by hand.

const VALUES = { 'bench.start_HCl_M': 2, 'bench.start_head_mm': 15, 'resin.shrinkage': 0.09, 'bed.lanes': 3, 'bed.plates': 5 } as const;
const fresh = (values: Parameters<typeof caseOf>[0] = {}) => {
  const column = columnOf(caseOf({ ...VALUES, ...values }));
  return { column, bed: packedBed(column), values: column.scenario.values };
};

describe('an empty tube', () => {
  test('holds no resin and nothing above, and nothing in it weighs on its support or holds back a flow', () => {
    const { bed } = fresh({ 'bench.packed': 0 });
    expect([bed.scalar[AT.portions], bed.scalar[AT.headVolume]]).toEqual([0, 0]);
    expect([...bed.sorbed, ...bed.resinShare].every((amount) => amount === 0)).toBe(true);
    expect([...bed.weight]).toEqual([0, 0, 0]);
  });
});

describe('a packed bed', () => {
  test('stands under the stated liquid, in the acid it was stored in, shrunk by it', () => {
    const { bed, values } = fresh();
    const s = bed.scalar;
    const section = (Math.PI * values['column.bore_cm'] ** 2) / 4;
    closeTo('head', s[AT.headVolume], 1.5 * section, { relative: 1e-12 }, 'mL');
    closeTo('acid above', bed.head[0], 2 * 1.5 * section, { relative: 1e-12 }, 'mmol');
    expect(s[AT.lowestHead]).toBe(s[AT.headVolume]);
    expect([...new Set(bed.pore.subarray(0, 15))]).toEqual([2]);
    expect(bed.pore.subarray(15).every((c) => c === 0)).toBe(true);
    closeTo('shrunk', bed.swollen[3], 1 - (0.09 * 2) / 9, { relative: 1e-12 });
    expect([s[AT.receivers], s[AT.receiver], s[AT.portions], s[AT.clampOpen]]).toEqual([1, 0, 1, 0]);
  });

  test('holds its pores, the liquid above and a full outlet', () => {
    const { bed, column, values } = fresh();
    const pores = column.section * values['bed.length_cm'] * values['bed.porosity'];
    closeTo('liquid', liquidOf(bed), pores + bed.scalar[AT.headVolume], { relative: 1e-12 }, 'mL');
    closeTo('acid below', inTip(bed, column, 0), 2 * values['column.tip_mL'], { relative: 1e-12 }, 'mmol');
    const beads = bed.sorbed[0] * column.section * values['bed.length_cm'];
    closeTo('acid in the bed', onBed(bed, column, 0), 2 * pores + beads, { relative: 1e-12 }, 'mmol');
    closeTo('acid', amountOf(bed, column, 0), bed.head[0] + onBed(bed, column, 0) + inTip(bed, column, 0), { relative: 1e-12 }, 'mmol');
    expect(bed.pouredAmount[0]).toBe(amountOf(bed, column, 0));
    expect(bed.pouredAmount[1]).toBe(0);
  });

  test('stands under no more than the tube holds', () => {
    const { bed, column } = fresh({ 'bench.start_head_mm': 500 });
    expect(bed.scalar[AT.headVolume]).toBe(column.headMax);
    closeTo('room', column.headMax, column.section * (20 - column.length), { relative: 1e-12 }, 'mL');
  });

  test('is missing where the tube is to be empty: no beads, nothing above', () => {
    const { bed, column } = fresh({ 'bench.packed': 0 });
    expect([bed.scalar[AT.portions], bed.scalar[AT.headVolume], bed.scalar[AT.lowestHead], bed.head[0]]).toEqual([0, 0, 0, 0]);
    expect(bedLengthOf(bed, column)).toBe(0);
    expect([...bed.sorbed, ...bed.resinShare].every((value) => value === 0)).toBe(true);
    expect(bed.drag.every((drag) => drag > 0)).toBe(true);
  });

  test('runs as Darcy has it: weight of liquid over its drag, with the outlet below', () => {
    const { bed, column, values } = fresh({ 'bed.lanes': 1, 'bench.start_HCl_M': 0, 'resin.shrinkage': 0, 'column.open_cm_per_mL_min': 0 });
    bed.scalar[AT.clampOpen] = 1;
    const k = permeabilityOf(values['bed.bead_um'] * 1e-4, values['bed.porosity'], values['bed.kozeny']);
    const water = { density: 0.9982, viscosity: 1.002 };
    const expected = laneVelocity(
      [{ ...water, thickness: column.length, permeability: k }],
      { height: 1.5, ...water },
      { height: values['column.outlet_cm'], ...water },
    );
    closeTo('velocity', flowInto(bed, column, 1.5) / column.section, expected, { relative: 1e-3 }, 'cm/min');
    closeTo('permeability', kozenyCarman(values['bed.bead_um'] * 1e-4, values['bed.porosity'], values['bed.kozeny']), k, { relative: 1e-12 }, 'cm²');
  });

  test('drags less where it has shrunk, as L^(1/3) of its length to first order', () => {
    const drag = (shrunk: number): number => {
      const { bed } = fresh({ 'bed.lanes': 1, 'bench.start_HCl_M': 9, 'resin.shrinkage': shrunk });
      return bed.drag[0];
    };
    closeTo('drag', drag(0.09) / drag(0), 0.91 ** (1 / 3), { absolute: 2e-3 });
  });
});

test.each([
  [0, 1],
  [4.5, 0.95],
  [9, 0.9],
  [12, 0.9],
])('beads that shrink by a tenth in 9 mol/L are this long in %d mol/L: %d', (acid, length) =>
  closeTo('length', swollen(0.1, acid), length, { absolute: 1e-12 }),
);

describe('a checkpoint', () => {
  test('is a copy that later changes leave alone, and gives the state back', () => {
    const { bed } = fresh();
    const saved = checkpoint(bed);
    const before = [...bed.pore];
    bed.pore.fill(7);
    restore(bed, saved);
    expect([...bed.pore]).toEqual(before);
  });
});

describe('the stretch of cells that can hold a metal', () => {
  test('widens both ways, never narrows by that, and can be emptied; other metals and lanes keep theirs', () => {
    const { bed } = fresh();
    const stretch = (metal: number, lane: number): number[] => [bed.first[metal * bed.lanes + lane], bed.last[metal * bed.lanes + lane]];
    expect(stretch(1, 2)).toEqual([bed.plates, -1]);
    widen(bed, 1, 2, 2, 3);
    widen(bed, 1, 2, 3, 3);
    widen(bed, 1, 2, 2, 2);
    expect(stretch(1, 2)).toEqual([2, 3]);
    widen(bed, 1, 2, 1, 4);
    expect(stretch(1, 2)).toEqual([1, 4]);
    expect([stretch(0, 2), stretch(1, 1)]).toEqual([
      [bed.plates, -1],
      [bed.plates, -1],
    ]);
    empty(bed, 1, 2);
    expect(stretch(1, 2)).toEqual([bed.plates, -1]);
  });
});

describe('the books of the liquid', () => {
  test('find what is missing or too much anywhere', () => {
    const { bed } = fresh();
    const started = liquidOf(bed);
    expect(liquidError(bed, started)).toBeLessThan(1e-12);
    const places: readonly (readonly [Float64Array, number])[] = [
      [bed.scalar, AT.headVolume],
      [bed.scalar, AT.spilled],
      [bed.scalar, AT.evaporated],
      [bed.mobile, 4],
      [bed.stillVolume, 4],
      [bed.receivers, 0],
    ];
    for (const [array, at] of places) {
      array[at] += 0.5;
      closeTo('gap', liquidError(bed, started), 0.5 / started, { absolute: 1e-12 });
      bed.scalar[AT.poured] = 0.5;
      expect(liquidError(bed, started)).toBeLessThan(1e-12);
      bed.scalar[AT.poured] = 0;
      array[at] -= 0.5;
    }
  });
});

describe('a profile along the bed', () => {
  test('adds beads, moving and still liquid of all lanes, and what a band weighs and where it lies follow', () => {
    const { bed, column } = fresh();
    const cells = bed.lanes * bed.plates;
    for (let lane = 0; lane < bed.lanes; lane++) {
      const at = lane * bed.plates + 3;
      bed.pore[cells + at] = 2;
      bed.still[cells + at] = 3;
      bed.stillVolume[at] = 0.01;
      bed.sorbed[cells + at] = 5;
    }
    const expected = [0, 1, 2].reduce((sum, lane) => sum + 2 * bed.mobile[lane * 5 + 3] + 0.03 + 5 * column.cellVolume[lane], 0);
    const profile = amountsByDepth(bed, column, 1);
    closeTo('cell', profile[3], expected, { relative: 1e-12 }, 'mmol');
    expect([0, 1, 2, 4].map((j) => profile[j])).toEqual([0, 0, 0, 0]);
    closeTo('in the bed', onBed(bed, column, 1), expected, { relative: 1e-12 }, 'mmol');
  });

  test('has its edges where it crosses 5 % of its peak, between the middles of cells; a band at an end reaches that end', () => {
    // Peak 100, edge at 5: falls from 10 to 0 between the middles of two cells.
    const band = bandIn([0, 10, 100, 10, 0, 0], 2, 3, 0, 1);
    expect(band).toMatchObject({ amount_mmol: 360, centroid_cm: 1 + 2.5 * 2, trailing_cm: 1 + 1 * 2, leading_cm: 1 + 4 * 2 });
    expect(bandIn([10, 100, 10], 1)).toMatchObject({ trailing_cm: 0, leading_cm: 3 });
    expect(bandIn([1, 2, 1], 1, 0.5, 2)?.amount_mmol).toBe(2);
    expect(bandIn([1, 2, 1], 1, 0.5, 2.0001)).toBeUndefined();
    expect(bandIn([0, 1e-12, 0], 1)).toBeUndefined();
  });

  test('puts an edge at the top before the load, and at the end once the band has left', () => {
    const { bed, column } = fresh();
    expect(frontDepth(bed, column, 'Co', 'leading')).toBe(0);
    bed.pouredAmount[1] = 1;
    bed.head[1] = 1;
    expect(frontDepth(bed, column, 'Co', 'leading')).toBe(0);
    bed.head[1] = 0;
    expect(frontDepth(bed, column, 'Co', 'leading')).toBe(column.length);
    expect(frontDepth(bed, column, 'Ni', 'trailing')).toBe(0);
    bed.sorbed[15 + 2] = 1;
    expect(frontDepth(bed, column, 'Co', 'leading')).toBeGreaterThan(frontDepth(bed, column, 'Co', 'trailing'));
  });

  test('has the length that its cells have now', () => {
    const { bed, column } = fresh();
    closeTo('as packed', bedLengthOf(bed, column), column.length, { relative: 1e-12 }, 'cm');
    bed.height.fill(0.9);
    closeTo('shorter', bedLengthOf(bed, column), 0.9 * column.length, { relative: 1e-12 }, 'cm');
  });
});
