import { expect, test } from 'vitest';
import { runWhole } from '../../../sim/run/run.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { workUpOf } from '../../../src/headless/workup.ts';
import { emptyWords } from '../../../src/ui/text/work-up-words.ts';
import { shipped } from '../../sim/faults/seen.ts';

// What is said when there is nothing in a receiver.

const leach = shipped('cathode-leach');
const even = { ...leach, values: { ...leach.values, 'bed.lanes': 1, 'bed.plates': 60 } };

function issuesOf(log: Log, label: string | undefined) {
  const worked = workUpOf(runWhole(even, log), label, undefined);
  return worked.ok ? [] : worked.issues;
}

test('the runner says so of a receiver that was put under and got no drop', () => {
  const log: Log = [{ do: 'receiver', label: 'cobalt' }];
  expect(issuesOf(log, 'cobalt')).toEqual([{ path: 'receiver', expected: 'a receiver with liquid in it', received: 'cobalt, empty' }]);
});

test('the runner asks for a receiver with cobalt when nothing has run', () => {
  expect(issuesOf([], undefined).map(({ path }) => path)).toEqual(['receiver']);
});

test('the page says what to do next, and offers another beaker only where there is one', () => {
  const drop = { label: 'cobalt', volume_mL: 0.02, HCl_mmol: 0 };
  expect(emptyWords(drop, 1)).toBe('This receiver is empty: there is nothing to work up. Collect the cobalt on the bench first.');
  expect(emptyWords(drop, 2)).toBe('This receiver is empty: there is nothing to work up. Choose another one above.');
  expect(emptyWords({ ...drop, volume_mL: 3 }, 2)).toBeUndefined();
});
