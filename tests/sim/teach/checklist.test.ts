import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { AT } from '../../../sim/column/bed.ts';
import { advance, type Run, runOf } from '../../../sim/run/run.ts';
import { wholePlan } from '../../../sim/class/whole.ts';
import { keptOf, targetsOf, verdict } from '../../../sim/history/index.ts';
import { checklistOf, isWashed } from '../../../sim/teach/checklist.ts';
import type { Role } from '../../../sim/teach/steps.ts';
import { fits, offerFor, type Standing } from '../../../sim/teach/portion.ts';
import { minutesToLow, stillness } from '../../../sim/teach/stillness.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';
import { Planner } from '../../../src/store/threads/planner.ts';

function shipped(): Scenario {
  const read = readScenario(JSON.parse(readFileSync('scenarios/cathode-leach.json', 'utf8')), 'cathode-leach');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

function scenarioOf(id: string): Scenario {
  const json = JSON.parse(readFileSync(`scenarios/${id}.json`, 'utf8')) as Record<string, object>;
  // One lane of few plates: what fits and what is due do not depend on the lanes.
  const read = readScenario({ ...json, bed: { ...json.bed, plates: 20, lanes: 1 } }, id);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

const scenario = scenarioOf('cathode-leach');
const low: Action = { do: 'wait', until: { liquid_mm: 1 } };

/** A run of this log, played to its end. */
function played(log: Log): Run {
  const run = runOf(scenario, log);
  advance(run, { endOfLog: true });
  return run;
}

function standing(run: Run): Standing {
  const s = run.bed.scalar;
  return {
    events: run.events,
    headVolume: s[AT.headVolume],
    level_cm: s[AT.headVolume] / run.column.section,
    clampOpen: s[AT.clampOpen],
    delivered_mL: s[AT.delivered],
    flow: s[AT.flow],
  };
}

function states(log: Log): string[] {
  return checklistOf(scenario, played(log).events).map(({ role, state }) => `${role} ${state}`);
}

/** What the press for the first step of a role in hand does, from the end of a log. */
function press(log: Log, role: Role): Log {
  const run = played(log);
  const step = checklistOf(scenario, run.events).find((one) => one.role === role && (one.state === 'now' || one.state === 'open'));
  const offer = step && offerFor(scenario, standing(run), step);
  if (!offer) throw new Error(`${role}: expected something to do, received nothing`);
  return [...log, ...offer.actions];
}

describe('a sample that was poured by hand', () => {
  const loaded = (...more: Action[]): Log => [...press([], 'condition'), { do: 'pour', liquid: 'sample', volume_mL: 1, how: 'wall' }, ...more];
  const rinse = (volume_mL: number): Action => ({ do: 'pour', liquid: 'acid', volume_mL, how: 'wall' });

  test('is washed in by the rinses of the procedure that are still to come, each onto a millimetre', () => {
    expect(press(loaded(), 'wash').slice(-7)).toEqual([low, rinse(0.5), low, rinse(0.5), low, rinse(1), low]);
    expect(press(loaded(low, rinse(0.5)), 'wash').slice(-5)).toEqual([low, rinse(0.5), low, rinse(1), low]);
  });

  test('and washed after them as after those of the list', () => {
    const byHand = loaded(low, rinse(0.5), low, rinse(0.5), low, rinse(1), low);
    const byList = press(press([], 'condition'), 'load');
    expect(press(byHand, 'wash').slice(byHand.length)).toEqual(press(byList, 'wash').slice(byList.length));
  });
});

describe('the checklist', () => {
  test('reads its steps off the procedure by their role, with the volumes of the file', () => {
    expect(checklistOf(scenario, []).map(({ role, liquid, label, planned_mL }) => [role, liquid || label, planned_mL])).toEqual([
      ['condition', 'acid', 25],
      ['load', 'sample', 1],
      ['wash', 'acid', 26],
      ['release', 'water', 30],
      ['change', 'cobalt', 0],
      ['stop', '', 0],
    ]);
  });

  test('begins with the first step in hand and nothing else allowed', () => {
    expect(states([])).toEqual(['condition now', 'load later', 'wash later', 'release later', 'change later', 'stop later']);
  });

  test('ticks a step when its volume is in, and counts what is poured', () => {
    const steps = checklistOf(scenario, played(press([], 'condition')).events);
    expect(steps[0]).toMatchObject({ state: 'done', poured_mL: 25 });
    expect(steps[1].state).toBe('now');
  });

  test('leads to the wash after loading, offers water once a quarter of it is in, and ticks the wash when water is poured before all of it', () => {
    const loaded = press(press([], 'condition'), 'load');
    expect(states(loaded).slice(2, 4)).toEqual(['wash now', 'release later']);
    expect(states([...loaded, { do: 'pour', liquid: 'acid', volume_mL: 5, how: 'wall' }]).slice(2, 4)).toEqual(['wash now', 'release later']);
    const washed = press(loaded, 'wash');
    expect(states(washed).slice(2, 4)).toEqual(['wash now', 'release open']);
    const watered = press(washed, 'release');
    expect(states(watered)).toEqual(['condition done', 'load done', 'wash done', 'release later', 'change now', 'stop open']);
  });

  test('does not stop anybody who pours water straight after loading: the wash counts as ended', () => {
    const loaded = press(press([], 'condition'), 'load');
    const watered = states([...loaded, { do: 'pour', liquid: 'water', volume_mL: 2, how: 'wall' }]);
    expect(watered.slice(2, 5)).toEqual(['wash done', 'release later', 'change now']);
  });

  test('marks nothing as due once the run is over: what was begun counts as ended, what was left out as not done', () => {
    const loaded = press(press([], 'condition'), 'load');
    const log: Log = [...press(press(loaded, 'wash'), 'release'), { do: 'clamp', open_percent: 0 }];
    const over = checklistOf(scenario, played(log).events, true);
    expect(over.map(({ role, state }) => `${role} ${state}`)).toEqual([
      'condition done',
      'load done',
      'wash done',
      'release done',
      'change missed',
      'stop done',
    ]);
    expect(over.map((step) => offerFor(scenario, standing(played(log)), step))).toEqual(over.map(() => undefined));
  });

  test('does not count a beaker that was named before anything dripped, nor a clamp shut before the last liquid', () => {
    const shut: Action = { do: 'clamp', open_percent: 0 };
    expect(states([{ do: 'receiver', label: 'cobalt' }, shut]).slice(4)).toEqual(['change later', 'stop later']);
  });

  test('is all ticked after the procedure itself, for every scenario that has one', () => {
    for (const id of ['cathode-leach', 'cathode-leach-weak-acid', 'six-metals']) {
      const one = scenarioOf(id);
      const run = runOf(one, one.procedure);
      advance(run, { endOfLog: true });
      const open = checklistOf(one, run.events).filter(({ state, role }) => state !== 'done' && role !== 'stop');
      expect(open, id).toEqual([]);
    }
  });
});

describe('the water that sets the band free', () => {
  /** The same procedure in a tube that takes all of the water at once. */
  const wide = { ...scenario, values: { ...scenario.values, 'column.tube_cm': 60 } };
  const washed = press(press(press([], 'condition'), 'load'), 'wash');

  function released(one: Scenario): Log {
    const run = runOf(one, washed);
    advance(run, { endOfLog: true });
    const step = checklistOf(one, run.events).find(({ role }) => role === 'release');
    return (step && offerFor(one, standing(run), step)?.actions) ?? [];
  }

  test('runs in one press only as far as the procedure lets it before the receiver is changed, and at most half of it is poured', () => {
    for (const [one, least_mL] of [
      [scenario, 7],
      [wide, 15],
    ] as const) {
      const actions = released(one);
      const poured = actions.flatMap((action) => (action.do === 'pour' ? [action.volume_mL] : []));
      expect(poured).toHaveLength(1);
      expect(poured[0]).toBeGreaterThan(least_mL - 0.1);
      expect(poured[0]).toBeLessThanOrEqual(15);
      expect(actions.at(-1)).toEqual({ do: 'wait', until: { more_mL: 1.5 } });
    }
  });

  test('offers the rest only when the receiver is changed, and then onto a low level', () => {
    const begun = press(washed, 'release');
    expect(() => press(begun, 'release')).toThrow(/received nothing/);
    const rest = press(press(begun, 'change'), 'release').slice(begun.length + 1);
    expect(rest[0]).toEqual({ do: 'wait', until: { liquid_mm: 1 } });
    expect(rest.at(-1)).toEqual({ do: 'wait', until: { liquid_mm: 1 } });
  });

  test('pressing what is first each time meets the task in at most twelve presses', () => {
    const [full, targets] = [shipped(), targetsOf(shipped())];
    let log: Log = [];
    let presses = 0;
    for (; presses < 20; presses++) {
      const run = runOf(full, log);
      advance(run, { endOfLog: true });
      const steps = checklistOf(full, run.events);
      const offer = steps.map((step) => offerFor(full, standing(run), step)).find((one) => one !== undefined);
      if (!offer) break;
      log = [...log, ...offer.actions];
    }
    const plan = wholePlan(full, log);
    const kept = keptOf(plan, targets);
    expect(presses).toBeLessThanOrEqual(12);
    expect(kept && verdict(plan, targets, kept.from_mL, kept.to_mL).meets).toBe(true);
  });
});

describe('what fits', () => {
  test('is the section of the tube times its free height, in whole tenths', () => {
    // pi/4 x 0.9^2 cm2 x 13 cm = 8.27 mL, less 1 cm of liquid, 0.64 mL.
    expect(fits(scenario.values, 0)).toBe(8.2);
    expect(fits(scenario.values, 0.636)).toBe(7.6);
    expect(fits(scenario.values, 20)).toBe(0);
  });

  test('is never refused by the bench, from the first press to the last', () => {
    let log = press(press([], 'condition'), 'load');
    let presses = 2;
    for (const role of ['wash', 'wash', 'wash', 'release', 'change', 'release', 'release', 'release', 'stop'] as const) {
      log = press(log, role);
      presses++;
    }
    const run = played(log);
    expect(run.events.filter(({ refused }) => refused)).toEqual([]);
    expect(presses).toBeLessThanOrEqual(12);
    expect(checklistOf(scenario, run.events).every(({ state }) => state === 'done')).toBe(true);
  });

  test('of a liquid other than the last is reckoned from a millimetre above the bed', () => {
    const log: Log = [...press([], 'condition'), { do: 'pour', liquid: 'acid', volume_mL: 6, how: 'wall' }];
    const actions = press(log, 'load').slice(log.length);
    expect(actions[0]).toEqual({ do: 'wait', until: { liquid_mm: 1 } });
    expect(actions[1]).toMatchObject({ do: 'pour', liquid: 'sample', volume_mL: 1 });
  });
});

describe('a press', () => {
  test('runs the liquid down first where what was poured by hand leaves no room for even portions, and none is refused', () => {
    const hand: Log = [
      { do: 'receiver', label: 'nickel' },
      { do: 'pour', liquid: 'acid', volume_mL: 5, how: 'wall' },
      { do: 'clamp', open_percent: 100 },
    ];
    const log = press(hand, 'condition');
    expect(log[hand.length]).toEqual({ do: 'wait', until: { liquid_mm: 1 } });
    expect(log.slice(hand.length).flatMap((action) => (action.do === 'pour' ? [action.volume_mL] : []))).toEqual([6.7, 6.7, 6.6]);
    const run = played(log);
    expect(run.events.filter(({ refused }) => refused)).toEqual([]);
    expect(checklistOf(scenario, run.events)[0]).toMatchObject({ state: 'done', poured_mL: 25 });
  });

  test('leaves no rest that a measuring cylinder does not show, nor pours a little onto much', () => {
    const loaded = press(press([], 'condition'), 'load');
    const pour = (volume_mL: number): Log => [{ do: 'pour', liquid: 'acid', volume_mL, how: 'wall' }, low];
    const near: Log = [...loaded, ...pour(8), ...pour(8), ...pour(7.6)];
    expect(checklistOf(scenario, played(near).events)[2]).toMatchObject({ state: 'done', poured_mL: 25.6 });
    const full: Log = [...loaded, { do: 'pour', liquid: 'acid', volume_mL: 8, how: 'wall' }];
    expect(press(full, 'wash').slice(full.length)).toEqual([low, { do: 'pour', liquid: 'acid', volume_mL: 8, how: 'wall' }, low]);
  });

  test('washes no further than to where water is best, what stands above the bed included, and then no more at all', () => {
    const loaded = press(press([], 'condition'), 'load');
    const log: Log = [...loaded, { do: 'pour', liquid: 'acid', volume_mL: 6, how: 'wall' }, low, { do: 'pour', liquid: 'acid', volume_mL: 4, how: 'wall' }];
    const planner = new Planner(scenario);
    const moment = planner.moment(planner.plan(log).logEnd.time_min);
    const washTo = (more_mL: number) => {
      const to_mL = moment.delivered_mL + moment.headVolume + more_mL;
      const step = checklistOf(scenario, moment.events, false, isWashed(scenario, moment, to_mL))[2];
      return [step.state, offerFor(scenario, moment, step, to_mL)?.volume_mL];
    };
    expect(washTo(0.2)).toEqual(['done', undefined]);
    expect(washTo(0.9)).toEqual(['done', undefined]);
    expect(washTo(3)[1]).toBeCloseTo(3.1, 6);
  });
});

describe('stillness', () => {
  test('names the shut clamp first, then a level at the bed top without flow', () => {
    expect(stillness({ clampOpen: 0, level_cm: 3, flow: 0 })).toBe('shut');
    expect(stillness({ clampOpen: 1, level_cm: 0, flow: 0 })).toBe('drained');
    expect(stillness({ clampOpen: 1, level_cm: 0, flow: 0.2 })).toBeUndefined();
    expect(stillness({ clampOpen: 1, level_cm: 3, flow: 0 })).toBeUndefined();
  });

  test('tells the time to the last millimetre at a steady flow', () => {
    // 2 mL in 4 cm: to 0.1 cm 1.95 mL run, at 0.5 mL/min in 3.9 min.
    expect(minutesToLow({ level_cm: 4, headVolume: 2, flow: 0.5 })).toBeCloseTo(3.9, 9);
    expect(minutesToLow({ level_cm: 0.1, headVolume: 0.05, flow: 0.5 })).toBeUndefined();
  });
});
