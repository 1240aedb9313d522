import { expect, test } from 'vitest';
import { glassWords } from '../../../src/glass/glass-words.ts';
import { layoutOf } from '../../../src/glass/layout.ts';
import { type Hint, hintBox, pressHints } from '../../../src/glass/touch/hints.ts';
import { receiverBoxes } from '../../../src/glass/touch/places.ts';
import { markup } from '../markup.ts';
import { momentAtStart, scenarioWith } from './moment.ts';

const scenario = scenarioWith();
const DRIPPED = { ...momentAtStart(scenario), delivered_mL: 5, flow: 1, clampOpen: 1 };
const DAY = ['nickel', 'cobalt 1', 'waste', 'cobalt 2', 'cobalt 3', 'spare'];

function layout(width: number, height: number) {
  return layoutOf({ width, height, bedTop: 0.3 * height, bedBottom: 0.6 * height }, scenario.values);
}

function hints(width: number, height: number, labels: readonly string[]): readonly Hint[] {
  return pressHints({ scenario, moment: DRIPPED, layout: layout(width, height), receivers: labels.map((_, slot) => ({ slot })) });
}

test.each([
  [320, 450],
  [400, 560],
  [480, 700],
])('on a panel of %d by %d px what is pressed lies on the words, on the panel, and apart from the rest', (width, height) => {
  const found = hints(width, height, ['nickel', 'cobalt']);
  expect(found.map(({ does }) => does)).toEqual(['pour', 'clamp', 'receiver']);
  for (const [i, hint] of found.entries()) {
    const box = hintBox(hint);
    const middle = hint.anchor === 'end' ? hint.x - 30 : hint.x;
    expect(box.left).toBeGreaterThanOrEqual(0);
    expect(box.left + box.width).toBeLessThanOrEqual(width + 1);
    expect(box.left < middle && middle < box.left + box.width && box.top < hint.y && hint.y < box.top + box.height).toBe(true);
    for (const other of found.slice(i + 1).map(hintBox)) expect(other.top >= box.top + box.height || box.top >= other.top + other.height).toBe(true);
  }
});

test('what the words point at is the receiver below them', () => {
  const receivers = ['nickel', 'cobalt'].map((label, slot) => ({ label, slot }));
  const [hint] = hints(400, 560, ['nickel', 'cobalt']).filter(({ does }) => does === 'receiver');
  const [, [below, box]] = receiverBoxes(layout(400, 560), receivers, DRIPPED.receiver);
  expect(below.label).toBe('cobalt');
  expect(hint.x).toBeGreaterThan(box.left);
  expect(hint.x).toBeLessThan(box.left + box.width);
});

test('words above the nearest beaker stand clear of how many have no room, and of the drops', () => {
  let seen = 0;
  for (const width of [320, 340, 370, 400, 440, 520])
    for (const height of [400, 450, 520, 600, 720]) {
      const place = layout(width, height);
      const drawn = markup(
        glassWords({
          scenario,
          moment: DRIPPED,
          drawn: DRIPPED,
          labels: DAY,
          layout: place,
          paused: false,
          hints: true,
          turnedTo: undefined,
          names: false,
          depth: undefined,
        }),
      );
      const ys = [...drawn.matchAll(/<text class="([^"]*)" x="([\d.-]+)" y="([\d.-]+)">([^<]*)</g)].map(([, , , y, text]) => ({ y: Number(y), text }));
      const hint = ys.find(({ text }) => text === 'press or drag');
      const more = ys.filter(({ text }) => /^and \d more|^beakers$|\/min$/.test(text));
      expect(more.length).toBeGreaterThan(0);
      if (!hint) continue;
      seen += 1;
      for (const { y } of more) expect(Math.abs(y - hint.y)).toBeGreaterThanOrEqual(12);
    }
  expect(seen).toBeGreaterThan(10);
});

test('once everything has been pressed nothing is said, nor on a narrow panel', () => {
  expect(hints(319, 560, ['nickel', 'cobalt'])).toEqual([]);
  const events = (['pour', 'clamp', 'receiver', 'receiver'] as const).map((kind, entry) => {
    const action =
      kind === 'pour'
        ? ({ do: kind, liquid: 'acid', volume_mL: 1 } as const)
        : kind === 'clamp'
          ? ({ do: kind, open_percent: 100 } as const)
          : ({ do: kind, label: `${entry}` } as const);
    return { entry, time_min: 0, delivered_mL: 0, action };
  });
  const moment = { ...DRIPPED, events };
  expect(pressHints({ scenario, moment, layout: layout(400, 560), receivers: [{ slot: 0 }, { slot: 1 }] })).toEqual([]);
});
