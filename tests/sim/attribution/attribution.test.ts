import { describe, expect, test } from 'vitest';
import { type Attribution, attributionOf } from '../../../sim/attribution/attribution.ts';
import { wholeRun } from '../../../sim/attribution/placed.ts';
import { withFault } from '../../../sim/faults/imposed.ts';
import type { FaultKind } from '../../../sim/terms/fault-kinds.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import type { Results } from '../../../sim/history/index.ts';
import { runWhole } from '../../../sim/run/run.ts';
import type { Action, Fault, Log, Scenario } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach } from '../faults/bench.ts';

/** A task so strict that whatever is lost misses it, and is looked into. */
const scenario = leach({ 'bed.plates': 60, 'task.recovered_percent': 100 });

async function attributed(given: Scenario, log: Log): Promise<Attribution> {
  const attribution = await attributionOf(given, log, wholeRun);
  if (!attribution) throw new Error('attribution: expected a target, received none');
  return attribution;
}

/** The same log with the times at which its actions were taken, as the bench keeps it when it is played. */
function played(given: Scenario, log: Log): Log {
  return runWhole(given, log).events.flatMap(({ entry, action, time_min, refused }): Action[] => {
    if (entry < 0 || !action || refused || action.do === 'wait') return [];
    const { at_mL: _mL, ...rest } = action;
    return [{ ...rest, at_min: time_min } as Action];
  });
}

const lostCobalt = (results: Results): number => Number(results.loaded.Co_mmol) - Number(results.receivers.find(({ label }) => label === 'cobalt')?.Co_mmol);

test('a log that follows the procedure has nothing to be blamed for', async () => {
  for (const log of [scenario.procedure, played(scenario, scenario.procedure)]) {
    const { lines, actual, repaired } = await attributed(scenario, log);
    expect(lines).toEqual([]);
    expect(actual).toEqual(repaired);
  }
});

describe('a mistake of the hand', () => {
  test.each<[FaultKind, number, RegExp]>([
    ['receiver-late', 0.5, /receiver changed \d+\.\d\d mL after the first water instead of \d+\.\d\d mL after the first water/],
    ['receiver-early', 0.5, /receiver changed \d+\.\d\d mL (before|after) the first water instead of \d+\.\d\d mL after the first water/],
    ['load-volume', 0.5, /1\.50 mL of sample instead of 1\.00 mL/],
    ['short-conditioning', 0.6, /3\.60 mL of acid before the sample instead of 9\.00 mL/],
    ['deep-head', 0.7, /21 mm of liquid instead of 1 mm/],
    ['water-rinse', 1, /0\.50 mL of water instead of acid to rinse/],
    ['wrong-bottle', 0.5, /3\.00 mL of water instead of acid in the wash/],
    ['stopped-early', 0.5, /6\.00 mL of water instead of 12\.00 mL/],
    ['spill', 0.6, /30 % of a vessel/],
    ['no-recondition', 1, /0\.00 mL of acid before the sample instead of 9\.00 mL/],
  ])('%s is found, and repaired gives the run of the procedure', async (kind, severity, what) => {
    const careless = withFault(scenario, scenario.procedure, { kind, severity }).log;
    const { lines, repaired, actual, notSeparable } = await attributed(scenario, played(scenario, careless));
    expect(lines.map((line) => [line.kind, line.origin])).toEqual([[kind, 'hand']]);
    expect(lines[0].what).toMatch(what);
    // Half of 6 mL, the most that the board moves a change.
    const [had, wanted] = [...lines[0].what.matchAll(/(\d+\.\d\d) mL (before|after)/g)].map(([, by, side]) => (side === 'before' ? -Number(by) : Number(by)));
    if (kind.startsWith('receiver')) closeTo('moved', Math.abs((had ?? 0) - (wanted ?? 0)), 3, { absolute: 0.011 }, 'mL');
    expect(lines[0].entry).toBeGreaterThanOrEqual(0);
    const careful = resultsOf(runWhole(scenario, withFault(scenario, scenario.procedure, { kind, severity: 0 }).log));
    closeTo('lost when repaired', repaired.lost_mmol, kind === 'no-recondition' ? repaired.lost_mmol : lostCobalt(careful), { absolute: 2e-4 }, 'mmol');
    closeTo('lost', lines[0].lost_mmol, actual.lost_mmol - repaired.lost_mmol, { absolute: 1e-12 }, 'mmol');
    closeTo('not separable', notSeparable.lost_mmol, 0, { absolute: 1e-12 }, 'mmol');
  });

  test('poured onto the bed is found', async () => {
    const log = scenario.procedure.map((action): Action => (action.do === 'pour' && action.liquid === 'sample' ? { ...action, how: 'bed' } : action));
    expect((await attributed(scenario, log)).lines.map(({ kind }) => kind)).toEqual(['poured-on-bed']);
  });

  test('letting the bed run dry is found at the moment air enters', async () => {
    const flawed: Scenario = { ...scenario, faults: [{ kind: 'uneven-packing', severity: 0.8 }] };
    const log = scenario.procedure.flatMap((action, i): Action[] => (i === 14 ? [{ do: 'wait', until: { elapsed_min: 60 } }] : [action]));
    const { lines } = await attributed(flawed, log);
    expect(lines.map(({ kind, origin }) => [kind, origin])).toEqual([
      ['uneven-packing', 'imposed'],
      ['dried-bed', 'hand'],
    ]);
    expect(lines[1].moment_min).toBeGreaterThan(0);
    expect(lines[1].what).toMatch(/^air entered the bed; no liquid came for 5\d\.\d min$/);
  });

  test('a bed that ran dry and was stirred up before the load is one cause, and repaired gives the run of the procedure', async () => {
    const flawed: Scenario = { ...scenario, faults: [{ kind: 'uneven-packing', severity: 0.8 }] };
    const [first, second] = [3, 5];
    expect(scenario.procedure[first]).toMatchObject({ do: 'pour', liquid: 'acid' });
    const log = scenario.procedure.flatMap((action, i): Action[] => {
      if (i === first + 1) return [{ do: 'wait', until: { elapsed_min: 60 } }];
      if (i !== second) return [action];
      return [action, { do: 'clamp', open_percent: 0 }, { do: 'pour', liquid: 'acid', volume_mL: 3 }, { do: 'stir' }, { do: 'clamp', open_percent: 100 }];
    });
    const run = runWhole(flawed, log);
    expect(run.events.filter(({ refused }) => refused)).toEqual([]);
    const { lines, repaired, actual } = await attributed(flawed, played(flawed, log));
    expect(lines.map(({ kind }) => kind)).toEqual(['uneven-packing', 'dried-bed']);
    expect(lines[1].what).toMatch(/^air entered the bed; no liquid came for \d+\.\d min, and it was stirred up afterwards$/);
    const careful = resultsOf(runWhole(scenario, scenario.procedure));
    // Another 3 mL of acid went through before the load, and nothing else.
    closeTo('lost when repaired', repaired.lost_mmol, lostCobalt(careful), { absolute: 2e-4 }, 'mmol');
    expect(repaired.time_min).toBeLessThan(careful.time_min + 5);
    expect(actual.time_min - repaired.time_min).toBeGreaterThan(40);
  });

  test.each<FaultKind>(['receiver-late', 'stopped-early'])('%s is no mistake where the run met its limits all the same', async (kind) => {
    const lenient = leach({ 'bed.plates': 60 });
    const { log } = withFault(lenient, lenient.procedure, { kind, severity: 0.5 });
    expect((await attributed(lenient, log)).lines).toEqual([]);
    expect((await attributed(scenario, log)).lines.map((line) => line.kind)).toEqual([kind]);
  });
});

describe('three causes at once', () => {
  const faults: Fault[] = [
    { kind: 'channel', severity: 0.6, side_deg: 120 },
    { kind: 'receiver-late', severity: 0.15 },
    { kind: 'spill', severity: 0.4 },
  ];
  const given = (kinds: readonly Fault[]) => kinds.reduce((so, fault) => withFault(so.scenario, so.log, fault), { scenario, log: scenario.procedure });
  const direct = (kinds: readonly Fault[]): Results => {
    const { scenario: s, log } = given(kinds);
    return resultsOf(runWhole(s, log));
  };

  test('are each blamed for what the run without them does not lose', async () => {
    const all = given(faults);
    const { lines, actual, repaired } = await attributed(all.scenario, all.log);
    expect(lines.map(({ kind }) => kind)).toEqual(['channel', 'receiver-late', 'spill']);
    closeTo('actual', actual.lost_mmol, lostCobalt(direct(faults)), { absolute: 1e-12 }, 'mmol');
    closeTo('repaired', repaired.lost_mmol, lostCobalt(direct([])), { absolute: 2e-5 }, 'mmol');
    faults.forEach((fault, i) => {
      const without = lostCobalt(direct(faults.filter((other) => other !== fault)));
      closeTo(fault.kind, lines[i].lost_mmol, actual.lost_mmol - without, { absolute: 2e-5 }, 'mmol');
    });
  });

  test('add up with what is not separable, in every column, to the ledger of the run', async () => {
    const all = given(faults);
    const { lines, actual, repaired, notSeparable, places, receivers } = await attributed(all.scenario, played(all.scenario, all.log));
    for (const column of ['lost_mmol', 'carried_mmol', 'acid_mmol', 'time_min'] as const) {
      const sum = repaired[column] + notSeparable[column] + lines.reduce((total, line) => total + line[column], 0);
      closeTo(column, sum, actual[column], { absolute: 1e-9 });
    }
    expect(Math.abs(notSeparable.lost_mmol)).toBeGreaterThan(1e-4);
    closeTo(
      'places',
      places.reduce((sum, { amount_mmol }) => sum + amount_mmol, 0),
      actual.loaded_mmol,
      { relative: 1e-9 },
      'mmol',
    );
    const elsewhere = places.filter(({ place }) => !receivers.includes(place)).reduce((sum, { amount_mmol }) => sum + amount_mmol, 0);
    closeTo('lost', elsewhere, actual.lost_mmol, { absolute: 1e-9 }, 'mmol');
  });
});
