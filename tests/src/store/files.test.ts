import { expect, test } from 'vitest';
import { fileName, openRunFile, readRunFile, runFileText } from '../../../src/store/keep/files.ts';
import type { SavedRun } from '../../../src/store/keep/saved.ts';

const RUN: SavedRun = { base: 'cathode-leach', differences: { seed: 4 }, seed: 3, log: [{ do: 'stir' }], view: 'bench' };

test('readRunFile(...) reads back what runFileText(...) writes, and results beside it change nothing', () => {
  expect(readRunFile(runFileText(RUN))).toEqual({ ok: true, value: RUN });
  expect(readRunFile(runFileText(RUN, { results: { Co_mmol: 0.12 }, seed: 99 }))).toEqual({ ok: true, value: RUN });
});

test('readRunFile(...) names every issue at once', () => {
  const read = readRunFile('{"kind":"bandfall-run","version":1,"base":"","seed":1.5,"differences":[],"log":[{"do":"stir"},7]}');
  expect(read.ok ? [] : read.issues.map(({ path, received }) => `${path} ${received}`)).toEqual(['base ""', 'differences a list of 0', 'seed 1.5', 'log[1] 7']);
});

test.each([
  ['', 'file'],
  ['{"kind":', 'file'],
  ['[]', 'file'],
  ['{"kind":"something-else"}', 'kind'],
  ['{"kind":"bandfall-run","version":2}', 'version'],
])('readRunFile(%j) is refused at %s', (text, path) => {
  const read = readRunFile(text);
  expect(read.ok ? '' : read.issues[0]?.path).toMatch(new RegExp(`^${path}`));
});

test('openRunFile(...) refuses a large file without reading it', async () => {
  const large = { size: 5_000_000, text: () => Promise.reject(new Error('was read')) } as unknown as Blob;
  expect(await openRunFile(large)).toMatchObject({ ok: false });
});

test('fileName(...) keeps only letters, digits and hyphens', () => {
  expect(fileName('Cathode leach: Co/Ni, day 2', 'json')).toBe('cathode-leach-co-ni-day-2.json');
  expect(fileName('..//', 'csv')).toBe('run.csv');
});
