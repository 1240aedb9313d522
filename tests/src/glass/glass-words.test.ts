import { expect, test } from 'vitest';
import { glassWords } from '../../../src/glass/glass-words.ts';
import { layoutOf } from '../../../src/glass/layout.ts';
import type { Moment } from '../../../src/store/threads/planner.ts';
import { markup } from '../markup.ts';
import { momentAtStart, scenarioWith } from './moment.ts';

const scenario = scenarioWith();
const start = momentAtStart(scenario);

/** Words on a drawing of this width, px, with where they stand. */
function wordsOf(width: number, others: Partial<Moment>, labels: readonly string[] = ['nickel', 'cobalt'], behind: Partial<Moment> = {}) {
  const moment = { ...start, ...others };
  const layout = layoutOf({ width, height: 450, bedTop: 150, bedBottom: 290 }, scenario.values);
  const drawn = markup(
    glassWords({
      scenario,
      moment,
      drawn: { ...moment, ...behind },
      labels,
      layout,
      paused: false,
      hints: true,
      turnedTo: undefined,
      names: false,
      depth: undefined,
    }),
  );
  return [...drawn.matchAll(/<text class="([^"]*)" x="([\d.-]+)" y="([\d.-]+)">([^<]*)</g)].map(([, look, x, y, text]) => ({
    look,
    x: Number(x),
    y: Number(y),
    text: text.replaceAll('\u202f', ' '),
  }));
}

test('the height of the liquid is told in whole millimetres, as in the list beside the figure', () => {
  for (const [level_cm, said] of [
    [10.24, '102 mm'],
    [0.1, '1 mm'],
  ] as const)
    expect(wordsOf(260, { level_cm }).map(({ text }) => text)).toContain(said);
});

test('a picture that is far behind the run is not labelled with a height that is not so', () => {
  const millimetres = (drawn_cm: number) => wordsOf(260, { level_cm: 1 }, [], { level_cm: drawn_cm }).filter(({ text }) => / mm$/.test(text));
  expect(millimetres(6)).toEqual([]);
  expect(millimetres(1.2).map(({ text }) => text)).toEqual(['12 mm']);
});

// A letter of this type is 6.6 px wide (measured on the page).
test('the rate of dripping does not leave the drawing', () => {
  for (const width of [116, 184, 260, 340]) {
    const [rate] = wordsOf(width, { flow: 5.5, clampOpen: 1 }).filter(({ text }) => text.endsWith('/min'));
    expect(rate.x + 6.6 * rate.text.length).toBeLessThan(width);
  }
});

test('on a narrow drawing the height of the liquid stays below the button that turns the column', () => {
  const [level] = wordsOf(116, { level_cm: 30 }).filter(({ look }) => look.includes('flag'));
  // 44 px for a finger, 2 px from the top; half a line of 12 px above the middle of the words.
  expect(level.y).toBeGreaterThan(46 + 6);
});

test('beakers that have no room are counted as beakers', () => {
  const many = ['nickel', 'cobalt 1', 'waste', 'cobalt 2', 'cobalt 3', 'spare'];
  const unshown = wordsOf(184, {}, many).filter(({ text }) => text.startsWith('and ') || text === 'beakers');
  expect(unshown.map(({ text }) => text).join(' ')).toMatch(/^and [2-9] more beakers$/);
});

// A letter of this type in bold is 7.2 px wide (measured on the page).
test('the receiver under the tip has its whole name where no other stands beside it, and no name leaves the drawing', () => {
  const day = ['waste', 'cobalt 1', 'cobalt 2', 'cobalt 3'];
  expect(wordsOf(116, { receiver: 3 }, day).map(({ text }) => text)).toContain('cobalt 3');
  for (const width of [90, 116, 150]) {
    const [name] = wordsOf(width, { receiver: 0 }, ['a name that is longer than any glass']).filter(({ look }) => look === 'centre strong');
    expect(name.x - (7.2 * name.text.length) / 2).toBeGreaterThanOrEqual(0);
    expect(name.x + (7.2 * name.text.length) / 2).toBeLessThanOrEqual(width);
  }
});

test('where to press to pour does not leave the drawing', () => {
  for (const width of [220, 260, 300, 340, 400])
    for (const { text, x } of wordsOf(width, {}).filter(({ look, text }) => look.includes('press') && text.includes('pour')))
      expect(x - 7.2 * text.length, `${width} px: ${text}`).toBeGreaterThanOrEqual(0);
});

test('on the drawing of a phone the receivers of a day are told apart, and those without room are not named where drops fall', () => {
  const day = ['waste', 'cobalt 1', 'cobalt 2', 'cobalt 3'];
  const words = wordsOf(184, { flow: 2, clampOpen: 1, receiver: 0 }, day);
  const names = words.filter(({ text }) => /^c.*\d$/.test(text)).map(({ text }) => text.at(-1));
  expect(new Set(names).size).toBe(names.length);
  expect(names.length).toBeGreaterThan(1);
  const [rate] = words.filter(({ text }) => text.endsWith('/min'));
  const [unshown] = words.filter(({ text }) => text.startsWith('and '));
  expect(unshown).toBeDefined();
  // The rate stands at the left of the drops, the count at their right.
  expect(rate.look).toContain('end');
  expect(rate.x).toBeLessThan(unshown.x - 6.6 * unshown.text.length);
  expect(rate.x - 6.6 * rate.text.length).toBeGreaterThanOrEqual(0);
});
