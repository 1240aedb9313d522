import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type Figures, figuresOf, GOLDEN, scenarioOf } from './figures.ts';

// Figures pinned at limited precision: half a percent of themselves, or a hundredth of a unit.
const SHARE = 0.005;
const LEAST = 0.01;

const stored = (name: string): Figures => JSON.parse(readFileSync(new URL(`${name}.json`, import.meta.url), 'utf8')) as Figures;

/** Every number of a nested value with its path. */
function numbersOf(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]];
  return typeof value === 'object' && value !== null ? Object.entries(value).flatMap(([key, part]) => numbersOf(part, `${path}.${key}`)) : [];
}

describe.each(GOLDEN)('%s', (name) => {
  test('gives the stored figures (if not: npm run golden, and say why)', () => {
    const [now, then] = [figuresOf(scenarioOf(name)), stored(name)];
    expect(now.receivers.map(({ label }) => label)).toEqual(then.receivers.map(({ label }) => label));
    const wanted = new Map(numbersOf(then));
    const off = numbersOf(now).filter(
      ([path, value]) => Math.abs(value - (wanted.get(path) ?? Number.NaN)) > Math.max(LEAST, SHARE * Math.abs(value)) || !wanted.has(path),
    );
    expect(off.map(([path, value]) => `${path}: ${value}, stored ${wanted.get(path)}`)).toEqual([]);
  });
});

test('there are ten demonstrations, each with stored figures and a question to the class', () => {
  const demonstrations = GOLDEN.filter((name) => name.startsWith('demo-'));
  expect(demonstrations).toHaveLength(10);
  const files = readdirSync(new URL('.', import.meta.url));
  for (const name of demonstrations) {
    expect(files).toContain(`${name}.json`);
    expect(scenarioOf(name).notice.filter((text) => text.startsWith('Question to the class:'))).toHaveLength(1);
  }
});
