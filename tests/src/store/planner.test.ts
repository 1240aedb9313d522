import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { advance, runOf, runWhole } from '../../../sim/run/run.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import { handlesOf, movedEluent, movedReceiver, type Plan } from '../../../sim/history/index.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped, small } from './rig.ts';
import { evenly } from '../../exact/even.ts';

const SEED = 20;
const SCENARIO = small();

/** Everything of a plan but what the recomputation cost. */
function content({ recomputed_min: _, ...plan }: Plan): Omit<Plan, 'recomputed_min'> {
  return plan;
}

const action: fc.Arbitrary<Action> = fc.oneof(
  fc.record({
    do: fc.constant('pour' as const),
    liquid: fc.constantFrom('acid', 'sample', 'water'),
    volume_mL: evenly(0.2, 6),
    how: fc.constantFrom('wall' as const, 'bed' as const),
  }),
  fc.record({ do: fc.constant('clamp' as const), open_percent: fc.constantFrom(0, 40, 100) }),
  fc.record({ do: fc.constant('receiver' as const), label: fc.constantFrom('nickel', 'cobalt', 'third') }),
  fc.record({
    do: fc.constant('wait' as const),
    until: fc.oneof(fc.record({ more_mL: evenly(0.1, 4) }), fc.record({ liquid_mm: fc.constantFrom(0, 1, 5) }), fc.record({ elapsed_min: evenly(0.1, 5) })),
  }),
);

/** The next log: an action put in, taken out, changed in place, or the end cut off. */
const edit = fc.record({ kind: fc.constantFrom('insert', 'remove', 'replace', 'cut', 'append'), at: evenly(0, 1), action });

function edited(log: Log, { kind, at, action: other }: { kind: string; at: number; action: Action }): Log {
  const place = Math.min(log.length, Math.floor(at * (log.length + 1)));
  if (kind === 'insert') return [...log.slice(0, place), other, ...log.slice(place)];
  if (kind === 'remove') return log.filter((_, i) => i !== place);
  if (kind === 'replace') return log.map((action, i) => (i === place ? other : action));
  if (kind === 'cut') return log.slice(0, place);
  return [...log, other];
}

describe('a plan', () => {
  test('after any edits equals a fresh plan of the same log, bit for bit', () => {
    fc.assert(
      fc.property(fc.array(action, { minLength: 2, maxLength: 8 }), fc.array(edit, { minLength: 1, maxLength: 5 }), (first, edits) => {
        const planner = new Planner(SCENARIO);
        let log: Log = [{ do: 'clamp', open_percent: 100 }, ...first];
        planner.plan(log);
        for (const one of edits) {
          log = edited(log, one);
          expect(content(planner.plan(log))).toEqual(content(new Planner(SCENARIO).plan(log)));
        }
      }),
      { seed: SEED, numRuns: 12 },
    );
  });

  test('of a procedure with its handles moved equals a fresh plan, bit for bit', () => {
    const planner = new Planner(SCENARIO);
    const plan = planner.plan(SCENARIO.procedure);
    for (const { entry, kind, delivered_mL } of handlesOf(plan.log, plan.events)) {
      const move = kind === 'eluent' ? movedEluent : movedReceiver;
      for (const by of [-0.7, 1.3]) {
        const log = move(plan.log, plan.events, entry, delivered_mL + by);
        expect(content(planner.plan(log))).toEqual(content(new Planner(SCENARIO).plan(log)));
      }
    }
  });

  test('has the results of the whole run of its log', () => {
    const scenario = shipped();
    const plan = new Planner(scenario).plan(scenario.procedure);
    expect(plan.results).toEqual(resultsOf(runWhole(scenario, scenario.procedure)));
  });

  test('recomputes less when the change is late', () => {
    const planner = new Planner(SCENARIO);
    const whole = planner.plan(SCENARIO.procedure);
    const late = planner.plan(SCENARIO.procedure.slice(0, -1));
    expect(late.recomputed_min).toBeLessThan(whole.recomputed_min);
  });
});

describe('a moment', () => {
  test('just after a pour has the flow of the higher level, not that of the step before', () => {
    const planner = new Planner(SCENARIO);
    const plan = planner.plan(SCENARIO.procedure);
    const pours = plan.events.filter(({ action, delivered_mL }) => action?.do === 'pour' && delivered_mL > 1);
    expect(pours.length).toBeGreaterThan(5);
    for (const { time_min } of pours) {
      const [at, later] = [planner.moment(time_min), planner.moment(time_min + 1e-3)];
      // Within one step of the model the level sinks by flow x time / section, and the flow hardly falls with it.
      const fell_mL = (at.level_cm - later.level_cm) * sectionOf(SCENARIO.values);
      expect(Math.abs(at.flow / (fell_mL / (later.time_min - at.time_min)) - 1)).toBeLessThan(0.03);
      expect(Math.abs(at.flow / later.flow - 1)).toBeLessThan(0.03);
    }
  });

  test('equals the column of a fresh run advanced to that time, in whatever order it is asked for', () => {
    const planner = new Planner(SCENARIO);
    const { logEnd } = planner.plan(SCENARIO.procedure);
    for (const share of [0.9, 0.2, 0.21, 0.5, 0.05, 1]) {
      const time_min = share * logEnd.time_min;
      const run = runOf(SCENARIO, SCENARIO.procedure);
      advance(run, { time_min });
      const moment = planner.moment(time_min);
      expect(moment.pore).toEqual(run.bed.pore);
      expect(moment.sorbed).toEqual(run.bed.sorbed);
      expect(moment.results.receivers).toEqual(resultsOf(run).receivers);
    }
  });

  test('is that of the newest plan after an edit', () => {
    const planner = new Planner(SCENARIO);
    planner.plan(SCENARIO.procedure);
    planner.moment(60);
    const log = SCENARIO.procedure.slice(0, 12);
    planner.plan(log);
    const run = runOf(SCENARIO, log);
    advance(run, { time_min: 60 });
    expect(planner.moment(60).sorbed).toEqual(run.bed.sorbed);
  });
});
