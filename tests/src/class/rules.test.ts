import { expect, test } from 'vitest';
import { intended } from '../../../sim/column/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { rulesOf, sourcesOf } from '../../../src/class/rules.ts';
import { columnBriefly, ruleLines } from '../../../src/ui/text/task/task-words.ts';
import { shipped } from '../store/rig.ts';

// The rules that a hand-out starts with, for a lab whose columns differ and for one whose columns do not.

const DIFFER = shipped('lab-day');
const ALIKE = intended(DIFFER);

test('rulesOf(...) takes the column from the lab: fresh where columns differ, one for all where they do not', () => {
  expect(rulesOf(DIFFER, {}).column).toBe('fresh');
  expect(rulesOf(ALIKE, {}).column).toBe('same');
  expect(rulesOf(ALIKE, { column: 'fresh' }).column).toBe('fresh');
});

test('rulesOf(...) takes what is seen from the lab, by eye where it sets no limit, and never more than the bench will show', () => {
  const seen = (seeing: Scenario['seeing'], chosen?: Scenario['seeing']) => rulesOf({ ...DIFFER, seeing }, { seeing: chosen }).seeing;
  expect([seen('eye'), seen('figure'), seen('forecast'), seen(undefined)]).toEqual(['eye', 'figure', 'forecast', 'eye']);
  expect([seen('figure', 'forecast'), seen('figure', 'eye'), seen(undefined, 'forecast')]).toEqual(['figure', 'eye', 'forecast']);
});

test('sourcesOf(...) says of each rule whether it is of the lab, the usual one or chosen', () => {
  expect(sourcesOf(DIFFER, {})).toEqual({
    column: 'Follows the lab: in this lab columns differ.',
    seeing: 'The usual choice: this lab sets no limit.',
    tries: 'The usual number: a lab does not say how many.',
    coach: 'The lab leaves the coach to each student.',
  });
  expect(sourcesOf({ ...ALIKE, seeing: 'figure', coach: 'ask' }, {})).toMatchObject({
    column: 'Follows the lab: in this lab columns do not differ.',
    seeing: 'Follows the lab: this lab shows at most what is seen with the figure.',
    coach: 'The coach asks at first, as the lab says.',
  });
  const chosen = sourcesOf({ ...ALIKE, seeing: 'figure' }, { column: 'fresh', seeing: 'eye', tries: 1 });
  expect([chosen.column, chosen.seeing, chosen.tries].every((words) => words.startsWith('Chosen here'))).toBe(true);
});

test('columnBriefly(...) speaks of fresh columns only where columns differ', () => {
  expect(columnBriefly('fresh', DIFFER)).toMatch(/fresh/);
  expect(columnBriefly('fresh', ALIKE)).toBe('the same column, packed anew each try');
  expect([columnBriefly('same', DIFFER), columnBriefly('same', ALIKE)]).toEqual(['one column for all', 'one column for all']);
});

test('ruleLines(...) says that a fault is named when the run has ended, unless everything may be seen before', () => {
  const lines = (seeing: 'eye' | 'figure' | 'forecast') =>
    ruleLines({ base: 'lab-day', differences: {}, seed: 1, column: 'same', seeing, tries: 1, asked: [], own: [], faults: 'hidden' }, DIFFER).at(-1);
  expect([lines('eye'), lines('figure')].every((line) => line?.includes('which opens when the run has ended'))).toBe(true);
  expect(lines('forecast')).toMatch(/under “Faults”\. You can answer once/);
});
