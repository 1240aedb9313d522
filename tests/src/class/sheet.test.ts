import { expect, test } from 'vitest';
import type { HandOut } from '../../../sim/handed/index.ts';
import { intended } from '../../../sim/column/index.ts';
import { sheet } from '../../../src/class/sheet.ts';
import { markup } from '../markup.ts';
import { shipped } from '../store/rig.ts';

const HAND_OUT: HandOut = { base: 'lab-day', differences: {}, seed: 3, column: 'fresh', seeing: 'eye', tries: 3, asked: [], own: [] };

/** The lesson whose columns do not differ at all. */
const ALIKE = intended(shipped('lab-day'));

test.each([
  ['same', false],
  ['fresh', true],
] as const)('with the column policy "%s", that columns differ is said: %s', (column, said) => {
  const text = markup(sheet({ scenario: shipped('lab-day'), handOut: { ...HAND_OUT, column }, link: 'a link', modules: undefined }));
  expect(/Volumes of the procedure/.test(text)).toBe(true);
  expect(/Columns differ/.test(text)).toBe(said);
  expect(/Everybody has the same column/.test(text)).toBe(!said);
});

test('with columns that do not differ, a sheet of fresh ones says that the measures stay the same', () => {
  const text = markup(sheet({ scenario: ALIKE, handOut: HAND_OUT, link: 'a link', modules: undefined }));
  expect(text).toMatch(/the same resin, bed and bottles, packed anew/);
  expect(text).not.toMatch(/its own column|Columns differ/);
});
