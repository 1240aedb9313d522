import { expect, test } from 'vitest';
import { placesOf } from '../../../src/bench/debrief/debrief-numbers.ts';
import { spokenRun } from '../../../src/figure/summary.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

const SCENARIO = shipped('cathode-leach', { bed: { lanes: 1 } });

test('a receiver that the log never names is called receiver on the page, whatever the record calls it', () => {
  const plan = new Planner(SCENARIO).plan([
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { liquid_mm: 1 } },
  ]);
  expect(spokenRun(plan)).toContain('Receivers: receiver from 0');
  expect(placesOf(plan.results)[0].label).toBe('receiver');
});

test('receivers that were named keep their names', () => {
  const plan = new Planner(SCENARIO).plan([
    { do: 'receiver', label: 'first' },
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { more_mL: 1 } },
    { do: 'receiver', label: 'second' },
  ]);
  expect(placesOf(plan.results).flatMap(({ kind, label }) => (kind === 'receiver' ? [label] : []))).toEqual(['first', 'second']);
});
