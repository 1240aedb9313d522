import { expect, test } from 'vitest';
import { deliveredAtEnd, handlesOf, keptOf, lessonOf, movedReceiver, pouredOf, progressOf, targetsOf } from '../../../sim/history/index.ts';
import { lossesOf } from '../../../src/figure/rows/losses.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { small } from '../store/rig.ts';

const SCENARIO = small();
const TARGETS = targetsOf(SCENARIO);
const PLAN = new Planner(SCENARIO).plan(SCENARIO.procedure);

test('lossesOf() finds less than the targets allow in a run by the procedure', () => {
  // Slow exchange lets a few thousandths run ahead of the band.
  const lost = lossesOf({ plan: PLAN }, TARGETS).reduce((sum, { amount_mmol }) => sum + amount_mmol, 0);
  expect(lost / pouredOf(PLAN, 'Co')).toBeLessThan(1 - TARGETS.recovered);
});

test('lossesOf() and what the kept receiver holds make up what was poured', () => {
  const change = handlesOf(PLAN.log, PLAN.events).findLast(({ kind }) => kind === 'receiver');
  const late = movedReceiver(PLAN.log, PLAN.events, change?.entry ?? 0, (change?.delivered_mL ?? 0) + 2);
  const plan = new Planner(SCENARIO).plan(late);
  const losses = lossesOf({ plan }, TARGETS);
  expect(losses.map(({ where }) => where)).toContain('before');
  const kept = keptOf(plan, TARGETS);
  const held = Number(plan.results.receivers.find(({ label }) => label === kept?.label)?.['Co_mmol']);
  // What is below the threshold of a word is left out: 0.05 % each of two.
  expect(losses.reduce((sum, { amount_mmol }) => sum + amount_mmol, held) / pouredOf(plan, 'Co')).toBeCloseTo(1, 2);
  // The share told in the figure is that of the debrief.
  const before = losses.find(({ where }) => where === 'before')?.amount_mmol ?? Number.NaN;
  expect(before / pouredOf(plan, 'Co')).toBeCloseTo(lessonOf(plan, TARGETS, progressOf(SCENARIO, plan.events).eluent_mL).found?.lostBefore ?? Number.NaN, 9);
  for (const { from_mL, to_mL } of losses) expect(from_mL <= to_mL && to_mL <= deliveredAtEnd(plan)).toBe(true);
});
