import { describe, expect, test } from 'vitest';
import { targetOf } from '../../../sim/input/roles.ts';
import { withFault } from '../../../sim/faults/imposed.ts';
import { progressOf } from '../../../sim/history/index.ts';
import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import { FaultPictures, pictured } from '../../../src/faults/pictures/pictures.ts';
import { type Picture, pictureOf } from '../../../src/faults/pictures/picture.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { directThread, shipped } from '../store/rig.ts';

const SCENARIO = shipped('cathode-leach', { bed: { plates: 24, lanes: 9, spread: 0.05 } });
const TARGET = targetOf(SCENARIO) ?? 'Co';

function drawn(kind?: FaultKind, change: { bed_cm?: number } = {}): Picture {
  const given = kind ? withFault(SCENARIO, SCENARIO.procedure, pictured(kind)) : { scenario: SCENARIO, log: SCENARIO.procedure };
  const planner = new Planner(given.scenario);
  const plan = planner.plan(given.log);
  const { time_min = 0 } = plan.events.find(({ entry }) => entry === progressOf(given.scenario, plan.events).eluentEntry) ?? {};
  return pictureOf(given.scenario, plan, { ...planner.moment(time_min), ...change }, TARGET);
}

const HEALTHY = drawn();
const depths = ({ strips }: Picture): number[] => strips.map((strip) => strip?.to ?? 0);
const spread = (picture: Picture): number => Math.max(...depths(picture)) - Math.min(...depths(picture));

test('the picture of a healthy run has a band across every lane, and keeps the cobalt', () => {
  expect(HEALTHY.strips.every((strip) => strip && strip.from < strip.to && strip.to < 1)).toBe(true);
  const cobalt = HEALTHY.curves.find(({ ion }) => ion === 'Co');
  const peak_mL = cobalt?.xs[cobalt.ys.indexOf(Math.max(...cobalt.ys))] ?? 0;
  expect(HEALTHY.kept?.from_mL).toBeLessThan(peak_mL);
  expect(HEALTHY.kept?.to_mL).toBeGreaterThan(peak_mL);
});

test('the picture of a channel or a dried bed has a band that leads on one side', () => {
  for (const kind of ['channel', 'dried-bed'] as const) expect(spread(drawn(kind))).toBeGreaterThan(3 * spread(HEALTHY));
});

test('the picture of weak acid has a band that has come further down, that of a late change keeps less', () => {
  const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  expect(mean(depths(drawn('weak-acid')))).toBeGreaterThan(mean(depths(HEALTHY)));
  expect(drawn('receiver-late').kept?.from_mL).not.toBe(HEALTHY.kept?.from_mL);
});

test('a band is drawn where it stands in the bed as long as it is', () => {
  const length = SCENARIO.values['bed.length_cm'];
  const packed = depths(drawn(undefined, { bed_cm: length }));
  // The support does not move, so what is left below the band shrinks with the bed.
  depths(drawn(undefined, { bed_cm: 0.9 * length })).forEach((to, lane) => {
    expect(1 - to).toBeCloseTo(0.9 * (1 - packed[lane]), 9);
  });
});

describe('draw(...)', () => {
  test('pictures whole runs also while the tube on the bench began empty', async () => {
    const pictures = new FaultPictures(directThread);
    await pictures.draw(shipped('cathode-leach', { bench: { packed: 0 } }));
    expect(pictures.failure).toBe('');
    expect(pictures.of.size).toBe(FAULT_KINDS.length);
    for (const { strips, curves, kept } of [pictures.healthy, pictures.of.get('channel')].filter((one) => one !== undefined)) {
      expect(strips.some((strip) => strip !== undefined)).toBe(true);
      expect(Math.max(...(curves.find(({ ion }) => ion === 'Co')?.ys ?? []))).toBeGreaterThan(0);
      expect(kept).toBeDefined();
    }
  }, 120_000);

  test('says why there is none where the procedure brings nothing off the column', async () => {
    const pictures = new FaultPictures(directThread);
    await pictures.draw({ ...shipped(), procedure: [] });
    expect(pictures.done).toBe(true);
    expect(pictures.failure).toContain('The procedure of this scenario brings nothing wanted off the column');
  });
});
