import { expect, test } from 'vitest';
import { band, bracket } from '../../../src/plot/band.ts';
import { markup } from '../markup.ts';

test('band(...) draws a stretch with its label inside', () => {
  expect(markup(band({ from: 150, to: 40, top: 10, height: 20, colour: 'var(--wash)', label: '9 mol/L HCl' }))).toMatchSnapshot();
});

test('band(...) too narrow for its label keeps it as a title', () => {
  const drawn = markup(band({ from: 0, to: 10, top: 0, height: 20, colour: 'var(--wash)', label: 'sample' }));
  expect(drawn).not.toContain('<text');
  expect(drawn).toContain('<title>sample');
});

test('band(hatched) keeps every stroke inside its rectangle', () => {
  const drawn = markup(band({ from: 100, to: 137, top: 50, height: 23, colour: 'var(--ink)', hatched: true }));
  const numbers = [...(/ d="([^"]+)"/.exec(drawn)?.[1] ?? '').matchAll(/[ML]([\d.]+) ([\d.]+)/g)];
  expect(numbers.length).toBeGreaterThan(10);
  for (const [, x, y] of numbers) {
    expect(Number(x)).toBeGreaterThanOrEqual(100);
    expect(Number(x)).toBeLessThanOrEqual(137);
    expect(Number(y)).toBeGreaterThanOrEqual(50);
    expect(Number(y)).toBeLessThanOrEqual(73);
  }
});

test('bracket(...) draws its ends up and its label below', () => {
  expect(markup(bracket({ from: 20, to: 220, at: 80, label: 'waste' }))).toMatchSnapshot();
});
