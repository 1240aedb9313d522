import { expect, test } from 'vitest';
import { collected, collectedAt, effluentCurve, highestLeaving, leavesAt, leavesBelow, leavingAt, solutesOf } from '../../../sim/history/index.ts';
import { straight } from './straight.ts';

test('collected(...) interpolates between frames', () => {
  expect(collected(straight, 1.25, 6.1)).toEqual({
    HCl_mmol: expect.closeTo(9.7, 12),
    Co_mmol: expect.closeTo(0.275, 12),
    Ni_mmol: expect.closeTo(0.875, 12),
  });
  expect(collectedAt(straight, 'HCl', 99)).toBe(20);
});

test('leavesAt(...) is where a share of what was poured has left', () => {
  // A hundredth of the cobalt in the first 0.04 mL of its 4 mL, half of the nickel in 1 of its 2 mL.
  expect(leavesAt(straight, 'Co', 0.01)).toBeCloseTo(5.04, 12);
  expect(leavesAt(straight, 'Ni', 0.5)).toBeCloseTo(2, 12);
  expect(leavesAt(straight, 'Ni', 1.01)).toBeUndefined();
  expect(leavesAt(straight, 'Zn', 0.01)).toBeUndefined();
});

test('concentrations at the tip: at a volume, the highest, and where one has fallen', () => {
  expect(leavingAt(straight, 'Co', 5.25)).toBeCloseTo(0.125, 12);
  expect(highestLeaving(straight, 'Ni')).toEqual({ delivered_mL: 1.5, molarity_M: 0.5 });
  expect(leavesBelow(straight, 'Ni', 1, 0.1)).toBe(3.5);
  expect(leavesBelow(straight, 'HCl', 0, 1)).toBeUndefined();
});

test('effluentCurve(...) has a point a frame, and the acid comes first', () => {
  expect(effluentCurve(straight, 'Co', [9, 12])).toEqual({ xs: [4.5, 6], ys: [0, 0.25] });
  expect(solutesOf(straight)).toEqual(['HCl', 'Co', 'Ni']);
});
