import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseScenario } from '../../../../sim/input/scenario.ts';
import { collected, deliveredAtEnd, type FractionTargets, movedReceiver, switchWindow, verdict, waterWindow } from '../../../../sim/history/index.ts';
import { straight } from '../straight.ts';
import { Planner } from '../../../../src/store/threads/planner.ts';

const TARGETS: FractionTargets = { target: 'Co', unwanted: ['Ni'], recovered: 0.995, carried: 0.005, NaOH_M: 6 };

const read = parseScenario(readFileSync(new URL('../../../../scenarios/cathode-leach.json', import.meta.url), 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
// One lane: the windows are read off a run in the same way, and trials are quick.
const scenario = { ...read.scenario, values: { ...read.scenario.values, 'bed.lanes': 1 } };
const planner = new Planner(scenario);
const plan = planner.plan(scenario.procedure);

describe('on straight lines', () => {
  test('switchWindow(...) runs from the last of the nickel to the first of the cobalt', () => {
    // 0.5 % of the nickel lies in the last 0.01 mL of its 2 mL, 0.5 % of the cobalt in the first 0.02 mL of its 4 mL.
    const window = switchWindow(straight, TARGETS);
    expect(window?.from_mL).toBeCloseTo(2.99, 9);
    expect(window?.to_mL).toBeCloseTo(5.02, 9);
    expect(window?.at(4)).toEqual({
      volume_mL: 6,
      recovered: expect.closeTo(1, 12),
      carried: 0,
      acid_mmol: expect.closeTo(12, 12),
      NaOH_mL: expect.closeTo(2, 12),
    });
  });

  test('switchWindow(acid) starts where the acid left to come is little enough', () => {
    expect(switchWindow(straight, { ...TARGETS, acid_mmol: 11 })?.from_mL).toBeCloseTo(4.5, 9);
    expect(switchWindow(straight, { ...TARGETS, acid_mmol: 9 })).toBeUndefined();
  });

  test('switchWindow(stop) is undefined when collecting ends too early', () => {
    expect(switchWindow(straight, { ...TARGETS, stop_mL: 8.9 })).toBeUndefined();
    expect(switchWindow(straight, { ...TARGETS, stop_mL: 8.99 })?.to_mL).toBeCloseTo(5.01, 9);
  });

  test('verdict(...) tells where the rest of the target is and how far off the window the change was', () => {
    expect(verdict(straight, TARGETS, 7, 8)).toMatchObject({
      recovered: expect.closeTo(0.25, 12),
      lostBefore: expect.closeTo(0.5, 12),
      lostAfter: expect.closeTo(0.25, 12),
      lostBehind: 0,
      meets: false,
      late_mL: undefined,
    });
    expect(verdict(straight, TARGETS, 2.5)).toMatchObject({ meets: false, carried: expect.closeTo(0.25, 12), early_mL: expect.closeTo(0.49, 9), late_mL: 0 });
    expect(verdict(straight, TARGETS, 5.5)).toMatchObject({ meets: false, early_mL: 0, late_mL: expect.closeTo(0.48, 9) });
    expect(verdict(straight, TARGETS, 4)).toMatchObject({ meets: true, early_mL: 0, late_mL: 0 });
  });

  test('a target that was never poured has no window', () => {
    expect(switchWindow(straight, { ...TARGETS, target: 'Zn', unwanted: [] })).toBeUndefined();
  });
});

describe('on the run of the cathode leach', () => {
  test('collected(...) agrees with the receivers of the model', () => {
    const [nickel, cobalt] = plan.results.receivers;
    const change = nickel?.volume_mL ?? Number.NaN;
    const found = collected(plan, change, deliveredAtEnd(plan));
    // Frames are 0.1 mL apart; over one of them at most 0.1 mL x 9 M of acid is out of place.
    expect(Math.abs(found.HCl_mmol - (cobalt?.HCl_mmol ?? 0))).toBeLessThan(0.1);
    expect(found.Co_mmol).toBeCloseTo(Number(cobalt?.['Co_mmol']), 4);
  });

  test('a fresh run meets the targets at both ends of the switch window and misses them beyond', () => {
    const window = switchWindow(plan, TARGETS);
    if (!window) throw new Error('cathode-leach: expected a window');
    const entry = plan.events.findLast(({ action }) => action?.do === 'receiver')?.entry ?? -1;
    const meets = (change_mL: number): boolean => {
      const { receivers, loaded } = planner.plan(movedReceiver(plan.log, plan.events, entry, change_mL)).results;
      const { Co_mmol, Ni_mmol } = receivers[1] ?? {};
      return Number(Co_mmol) >= 0.995 * (loaded.Co_mmol ?? 0) && Number(Ni_mmol) <= 0.005 * (loaded.Ni_mmol ?? 0);
    };
    expect([window.from_mL - 0.2, window.from_mL + 0.2, window.to_mL - 0.1, window.to_mL + 0.1].map(meets)).toEqual([false, true, true, false]);
  });

  test('recovered falls and acid falls as the receiver is changed later', () => {
    const window = switchWindow(plan, TARGETS);
    const places = [0, 0.25, 0.5, 0.75, 1].map((share) => (window ? window.from_mL + share * (window.to_mL - window.from_mL) : 0));
    const fractions = places.map((mL) => window?.at(mL));
    fractions.slice(1).forEach((fraction, i) => {
      expect(fraction?.recovered).toBeLessThanOrEqual(fractions[i]?.recovered ?? 0);
      expect(fraction?.acid_mmol).toBeLessThan(fractions[i]?.acid_mmol ?? 0);
    });
  });

  test('water may be started from shortly after the nickel has left, without a bound on the late side', async () => {
    const trial = new Planner(scenario);
    const water = plan.events.find(({ action }) => action?.do === 'pour' && action.liquid === 'water')?.entry ?? -1;
    const found = await waterWindow(plan, water, TARGETS, async (log) => trial.plan(log), { reach_mL: 5, within_mL: 0.5 });
    if (!found) throw new Error('cathode-leach: expected a window for water');
    expect(found).toMatchObject({ fromOpen: false, toOpen: true });
    expect(found.from_mL).toBeGreaterThan(16.5);
    expect(found.from_mL).toBeLessThan(switchWindow(plan, TARGETS)?.from_mL ?? 0);
  });

  test('waterWindow(...) is undefined when nothing that was tried works', async () => {
    const trial = new Planner(scenario);
    const water = plan.events.find(({ action }) => action?.do === 'pour' && action.liquid === 'water')?.entry ?? -1;
    expect(await waterWindow(plan, water, { ...TARGETS, acid_mmol: 0.01 }, async (log) => trial.plan(log), { reach_mL: 1 })).toBeUndefined();
  });
});
