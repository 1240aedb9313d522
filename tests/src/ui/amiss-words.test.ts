import { expect, test } from 'vitest';
import { lessonOf, lessonWords, progressOf, targetsOf } from '../../../sim/history/index.ts';
import type { Fault, Log } from '../../../sim/terms/types.ts';
import { amissWords } from '../../../src/ui/text/task/amiss-words.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

// What the debrief says of a run that met its task though something was amiss, against the run itself.

const CHANNEL: Fault = { kind: 'channel', severity: 0.1 };
const coarse = shipped('cathode-leach', { bed: { lanes: 3, air_entry_wall: 0.05 } });
const sound = shipped('cathode-leach', { bed: { lanes: 3, air_entry_wall: 0.3 } });
/** The bed is let run dry before anything else and filled again from below, then the procedure. */
const DRIED: Log = [
  { do: 'clamp', open_percent: 100 },
  { do: 'wait', until: { elapsed_min: 20 } },
  { do: 'clamp', open_percent: 0 },
  { do: 'refill-from-below', liquid: 'acid', volume_mL: 4 },
  { do: 'wait', until: { elapsed_min: 5 } },
  ...coarse.procedure,
];

function told(scenario: typeof coarse, log: Log, faults: readonly Fault[] | undefined) {
  const plan = new Planner(scenario).plan(log);
  const targets = { ...targetsOf(scenario), recovered: 0.5, carried: 0.5, acid_mmol: 1000 };
  const lesson = lessonOf(plan, targets, progressOf(scenario, plan.events).eluent_mL);
  const amiss = amissWords({ events: plan.events, time_min: plan.logEnd.time_min }, faults);
  return { plan, lesson, targets, amiss, words: lessonWords(lesson, targets, amiss).replaceAll('\u202f', ' ') };
}

test('a run whose bed ran dry is not to be done the same again: when it did and for how long is told, though every limit was met', () => {
  const { plan, lesson, words } = told(coarse, DRIED, []);
  expect(lesson.advice.kind).toBe('nothing');
  const dry = plan.events.find(({ note }) => note?.startsWith('air enters the bed'));
  const filled = plan.events.find(({ action }) => action?.do === 'refill-from-below');
  if (!dry || !filled) throw new Error('run: expected a dry bed that is filled again');
  expect(words).toContain(
    `Every limit was met, though the bed ran dry at ${dry.time_min.toFixed(1)} min, for ${(filled.time_min - dry.time_min).toFixed(1)} min: keep liquid above it`,
  );
  expect(words).not.toContain('same again');
  // Where a limit was missed it is said after the advice.
  const { targets } = told(coarse, DRIED, []);
  const strict = { ...targets, recovered: 0.99999 };
  const missed = lessonWords(lessonOf(plan, strict, progressOf(coarse, plan.events).eluent_mL), strict, amissWords({ events: plan.events, time_min: 0 }, []));
  expect(missed).toMatch(/Next time: .*\. The bed ran dry at .*: keep liquid above it\.$/);
});

test('faults that were imposed are named, from the start and in the middle, unless they are to be found or the bed refused them', () => {
  expect(told(sound, sound.procedure, []).words).toContain('do the same again, since every limit was met');
  expect(told({ ...sound, faults: [CHANNEL] }, sound.procedure, [CHANNEL]).words).toContain(
    'Every limit was met, though a fault was imposed on this run (channel).',
  );
  const during: Log = [{ do: 'fault', fault: CHANNEL }, ...sound.procedure];
  expect(told(sound, during, []).amiss).toEqual(['a fault was imposed on this run (channel)']);
  expect(told(sound, during, [{ kind: 'short-bed', severity: 0.1 }]).amiss).toEqual(['faults were imposed on this run (short bed, channel)']);
  expect(told(sound, during, undefined).amiss).toEqual([]);
  const refused = [{ entry: -1, time_min: 0, delivered_mL: 0, note: 'fault channel not imposed: x expected 1, received 2' }];
  expect(amissWords({ events: refused, time_min: 1 }, [CHANNEL])).toEqual([]);
});
