import { expect, test } from 'vitest';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { type Seen, shipped, watch } from './seen.ts';

const scenario: Scenario = { ...shipped('cathode-leach'), faults: [{ kind: 'uneven-packing', severity: 1 }] };
const few: Scenario = { ...scenario, values: { ...scenario.values, 'bed.lanes': 3, 'bed.plates': 20 } };
const wash = few.procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'acid' && action.volume_mL === 6);
/** The clamp is left open for a while in mid-wash. */
const standing: Log = [...few.procedure.slice(0, wash + 2), { do: 'wait', until: { elapsed_min: 20 } }, ...few.procedure.slice(wash + 2)];
const longer: Log = [...standing, { do: 'spill', share: 0.1 }];

function told({ run, plan, looks, loaded, washed, stored }: Seen): unknown {
  const { rows, profiles, count, stride, components, plates, events, results } = plan;
  const frames = [rows.slice(0, count * stride), profiles.slice(0, count * components * plates)];
  const seen = [stored, loaded, washed, ...looks].map((look) => [look.delivered_mL, look.gas, look.lean, look.lanes, look.edge('Co'), look.densest('Co')]);
  return { state: [...new Float64Array(run.bed.buffer)], frames, events, results, seen };
}

test.each([
  ['another wait in the middle', standing, few.procedure, wash + 1],
  ['one action more', longer, standing, standing.length - 2],
  ['nothing in common', standing, standing.slice(3), 0],
])('a run that begins like another one goes on from there as if run whole: %s', (_, log, other, shared) => {
  const whole = told(watch(few, few.faults, log));
  const like = watch(few, few.faults, other);
  const before = told(like);
  const run = watch(few, few.faults, log, like);
  expect(run.trail.shared).toBe(shared);
  expect(told(run)).toEqual(whole);
  expect(told(like)).toEqual(before);
});

test('a run on another bed has nothing to go on from', () => {
  const run = watch(few, few.faults, few.procedure, watch(few, []));
  expect(run.trail.shared).toBe(0);
  expect(told(run)).toEqual(told(watch(few)));
});
