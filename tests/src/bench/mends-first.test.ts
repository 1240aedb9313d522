import { expect, test } from 'vitest';
import { checklistOf, offerFor } from '../../../sim/teach/index.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { mendsFirst } from '../../../src/bench/task/mends-first.ts';
import { pushed_mL } from '../../../src/bench/debrief/repair-words.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

// A coarse bed lets air in once the liquid has sunk into it.
const coarse = shipped('cathode-leach', { bed: { lanes: 3, bead_um: 300 } });
const HOST = new Planner(coarse);
const OPEN: Log = [{ do: 'clamp', open_percent: 100 }];
const DRY: Log = [...OPEN, { do: 'wait', until: { elapsed_min: 30 } }];
/** Poured onto the dry bed: liquid stands above it again, and air between its beads. */
const WETTED: Log = [...DRY, { do: 'pour', liquid: 'acid', volume_mL: 5 }];

function at(log: Log) {
  return HOST.moment(HOST.plan(log).logEnd.time_min);
}

function steps(log: Log) {
  return checklistOf(coarse, at(log).events);
}

test('a dry bed is mended before anything is poured onto it, and one with air before the sample is', () => {
  const [condition, load] = ['condition', 'load'].map((role) => steps([]).find((step) => step.role === role));
  const change = steps([]).find(({ role }) => role === 'change');
  if (!condition || !load || !change) throw new Error('procedure: expected these steps');
  expect([condition, load, change].map((step) => mendsFirst(at([]), step))).toEqual([undefined, undefined, undefined]);
  expect([condition, load, change].map((step) => mendsFirst(at(DRY), step))).toEqual(['must', 'must', undefined]);
  expect([condition, load, change].map((step) => mendsFirst(at(WETTED), step))).toEqual([undefined, 'or', undefined]);
});

test('nothing has to be poured first: pushed in from below, all the air of a dry bed leaves and the list offers its portion again', () => {
  const { ails, headVolume } = at(DRY);
  expect(headVolume).toBe(0);
  const pushed: Log = [...DRY, { do: 'clamp', open_percent: 0 }, { do: 'refill-from-below', liquid: 'acid', volume_mL: pushed_mL(ails, 5) }];
  const mended = at(pushed);
  expect(mended.events.filter(({ refused }) => refused)).toEqual([]);
  expect(mended.ails.dry).toBe(false);
  expect(mended.ails.air_mL).toBeCloseTo(0, 9);
  const due = steps(pushed).find(({ state }) => state === 'now');
  expect(due && mendsFirst(mended, due)).toBeUndefined();
  expect(due && offerFor(coarse, mended, due)?.volume_mL).toBeGreaterThan(0);
  // Poured first, it has to be mended all the same.
  expect(at(WETTED).ails.air_mL).toBeGreaterThan(0.05);
});
