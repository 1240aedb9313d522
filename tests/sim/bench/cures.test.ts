import { expect, it } from 'vitest';
import { type Ails, ailsOf, type CureKind, CURES, fitsNow, holdsAir, mendingRefused, raised, withNeeds } from '../../../sim/bench/index.ts';
import { AT } from '../../../sim/column/index.ts';
import { levelOf } from '../../../sim/flow/index.ts';
import { act, advance, type Run, runOf } from '../../../sim/run/run.ts';
import type { Action, Fault, Log } from '../../../sim/terms/types.ts';
import { caseOf, clamp, pour, until } from '../run/case.ts';

// What is said of each cure is what it does in a run.

const KINDS: readonly CureKind[] = ['refill-from-below', 'stir', 'top-up'];
/** Loaded, then drained for an hour: coarse beads let the air in. */
const DRIED: Log = [clamp(100), until({ liquid_mm: 1 }), pour('sample', 1), until({ liquid_mm: 1 }), pour('acid', 2), until({ elapsed_min: 60 }), clamp(0)];

function after(log: Log, values = {}): Run {
  const run = runOf(caseOf({ 'bed.bead_um': 300, ...values }), log);
  advance(run, { endOfLog: true });
  return run;
}

const ails = (run: Run): Ails => ailsOf(run.bed, run.column);
const found = (run: Run) => ({ clampOpen: run.bed.scalar[AT.clampOpen], level_cm: levelOf(run.bed, run.column), ails: ails(run) });
const push = (volume_mL: number): Action => ({ do: 'refill-from-below', liquid: 'acid', volume_mL });

/** Takes actions that are all accepted. */
function take(run: Run, actions: readonly Action[]): Run {
  for (const action of actions) expect(act(run, action)?.refused, JSON.stringify(action)).toBeUndefined();
  return run;
}

function faulty(fault: Fault): Run {
  return take(after([]), [{ do: 'fault', fault }]);
}

/** How far the most of a metal on the beads of a cell is above the mean of all. */
function peak({ bed }: Run): number {
  const cells = bed.lanes * bed.plates;
  const cobalt = bed.sorbed.slice(cells, 2 * cells);
  return (Math.max(...cobalt) * cells) / cobalt.reduce((sum, held) => sum + held, 0);
}

it('a sound bed suffers from nothing and no cure fits it', () => {
  const run = after([]);
  expect(ails(run)).toEqual({ dry: false, air_mL: 0, hollow_mL: 0, gap: false });
  for (const kind of KINDS) expect(fitsNow(kind, ails(run)), kind).toBe('');
});

it('each cure fits what it is for, and nothing else', () => {
  expect(KINDS.map((kind) => fitsNow(kind, ails(after(DRIED))))).toEqual(['the bed is dry', 'a gap is open at the wall', '']);
  expect(KINDS.map((kind) => fitsNow(kind, ails(faulty({ kind: 'crater' }))))).toEqual(['', '', 'the bed top is hollow']);
  const wet = ails(after([...DRIED, pour('acid', 4), until({ elapsed_min: 1 })]));
  expect(wet.dry).toBe(false);
  expect(fitsNow('refill-from-below', wet)).toBe('air is in the bed');
});

it('what is pushed in from below drives the air out, as much as there is room for, and leaves what the beads hold', () => {
  const dried = after(DRIED);
  const { air_mL } = ails(dried);
  expect(air_mL).toBeGreaterThan(0.3);
  const held = dried.bed.sorbed.slice();
  const half = take(dried, [push(air_mL / 2)]);
  expect(ails(half).air_mL).toBeCloseTo(air_mL / 2, 2);
  expect(holdsAir(ails(half))).toBe(true);
  take(half, [push(air_mL / 2 + 0.5)]);
  expect(holdsAir(ails(half))).toBe(false);
  expect(ails(half).air_mL).toBeLessThan(1e-9);
  expect(half.bed.sorbed).toEqual(held);
});

it('pouring alone wets a dry bed and leaves air in it', () => {
  const wet = ails(after([...DRIED, pour('acid', 4), until({ elapsed_min: 1 })]));
  expect(wet.dry).toBe(false);
  expect(holdsAir(wet)).toBe(true);
});

it('a bed that is stirred up, with what that needs, has no air, gap or hollow, and its band is gone', () => {
  const run = after(DRIED.slice(0, -1));
  expect(peak(run)).toBeGreaterThan(3);
  const { scenario } = run.column;
  const actions = withNeeds({ do: 'stir' }, scenario, found(run), 'acid');
  expect(actions.map(({ do: done }) => done)).toEqual(['clamp', 'pour', 'stir']);
  take(run, actions);
  expect(ails(run)).toEqual({ dry: false, air_mL: 0, hollow_mL: 0, gap: false });
  expect(peak(run)).toBeLessThan(1.01);

  const hollow = faulty({ kind: 'crater' });
  take(hollow, withNeeds({ do: 'stir' }, hollow.column.scenario, found(hollow), 'acid'));
  expect(ails(hollow).hollow_mL).toBe(0);
});

it('fresh resin fills a hollow and drives no air out', () => {
  const run = take(faulty({ kind: 'dried-bed' }), [{ do: 'fault', fault: { kind: 'crater' } }]);
  const before = ails(run);
  expect(before.hollow_mL).toBeGreaterThan(0.01);
  expect(before.air_mL).toBeGreaterThan(0.01);
  take(run, [{ do: 'top-up', resin_mL: before.hollow_mL }]);
  expect(ails(run).hollow_mL).toBe(0);
  expect(ails(run).air_mL).toBeGreaterThan(0.5 * before.air_mL);
});

it('a cure without what it needs is refused, and the refusal says what to do', () => {
  const said = (run: Run, action: Action): string | undefined => {
    const refused = act(run, action)?.refused;
    return refused && mendingRefused(action.do, refused);
  };
  const open = after(DRIED.slice(0, -1));
  expect(CURES['refill-from-below'].needs).toBe('Needs the clamp shut.');
  expect(said(open, push(3))).toBe('Shut the clamp first.');
  expect(said(open, { do: 'stir' })).toBe('Shut the clamp first.');
  const shut = after(DRIED);
  expect(CURES.stir.needs).toContain('half a bed height of liquid above');
  expect(said(shut, { do: 'stir' })).toMatch(/^Pour first: stirring needs at least \d+ mm of liquid above the bed, not 0\.0 mm\.$/);
  const { length } = shut.column;
  expect(Number(/(\d+) mm of/.exec(said(shut, { do: 'stir' }) ?? '')?.[1])).toBeCloseTo(5 * length, -0.5);
  expect(said(shut, push(30))).toMatch(/^That is too much: at most \d+\.\d\d mL before the tube overflows\.$/);
  expect(CURES['top-up'].needs).toBe('Needs a hollow.');
  expect(said(shut, { do: 'top-up', resin_mL: 0.5 })).toBe('There is no hollow to fill: the bed is full.');
  expect(mendingRefused('pour', { path: 'volume_mL', expected: 'less', received: 'more' })).toBeUndefined();
});

it('nothing is poured before stirring under enough liquid, and a shut clamp is left alone', () => {
  const scenario = caseOf();
  expect(raised(scenario, { clampOpen: 0, level_cm: 10, ails: { air_mL: 0 } }, 'acid')).toEqual([]);
  expect(withNeeds(push(3), scenario, { clampOpen: 0, level_cm: 0, ails: { air_mL: 0 } }, 'acid')).toEqual([push(3)]);
  expect(withNeeds(push(3), scenario, { clampOpen: 0.3, level_cm: 0, ails: { air_mL: 0 } }, 'acid')).toEqual([clamp(0), push(3)]);
  expect(withNeeds({ do: 'top-up', resin_mL: 1 }, scenario, { clampOpen: 1, level_cm: 0, ails: { air_mL: 0 } }, 'acid')).toHaveLength(1);
});
