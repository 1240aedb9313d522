import { describe, expect, test } from 'vitest';
import { groupLine, leftOutLines, pouredRows } from '../../../src/class/sheet-words.ts';
import { shipped } from '../store/rig.ts';

// The limits of a task as they stand on paper, against the JSON of the scenarios and of a small one written here.

const SMALL = {
  bed: { lanes: 1, plates: 20 },
  class: { people: 1, period_min: 90, aliquots: 2, columns: 2 },
  procedure: [
    { do: 'clamp', open_percent: 100 },
    { do: 'pour', liquid: 'acid', volume_mL: 2 },
    { do: 'pour', liquid: 'acid', volume_mL: 2.25 },
    { do: 'pour', liquid: 'sample', volume_mL: 0.8 },
    { do: 'pour', liquid: 'acid', volume_mL: 0.4 },
    { do: 'pour', liquid: 'acid', volume_mL: 3, unless: { ion: 'Co', above_bottom_mm: 8 } },
    { do: 'receiver', label: 'cobalt' },
    { do: 'pour', liquid: 'water', volume_mL: 4 },
  ],
};

const plain = (text: string): string => text.replaceAll(/\s/g, ' ');

describe('pouredRows()', () => {
  test('adds up the pours of a step and names small portions after the sample', () => {
    expect(pouredRows(shipped('cathode-leach', SMALL)).map(({ step, bottle, volume }) => `${step}, ${bottle}: ${plain(volume)}`)).toEqual([
      'Condition, 9 M HCl: 4.25 mL',
      'Load, cathode leach in 9 M HCl: 0.8 mL',
      'Wash, 9 M HCl: 3.4 mL, the first 0.4 mL by itself',
      'Release, water: 4 mL',
    ]);
  });

  test('is empty where there is no procedure', () => {
    expect(pouredRows(shipped('cathode-leach', { procedure: [] }))).toEqual([]);
  });
});

test('leftOutLines() says once when the wash ends early, and nothing where it does not', () => {
  expect(leftOutLines(shipped('cathode-leach', SMALL)).map(plain)).toEqual([
    'Pour no more of the wash once the leading edge of the cobalt(II) band is 8 mm above the bottom: its volume is the most.',
  ]);
  expect(leftOutLines(shipped('lab-day'))).toHaveLength(1);
  expect(leftOutLines(shipped('cathode-leach'))).toEqual([]);
});

test('groupLine() counts people, minutes, aliquots and columns', () => {
  expect(plain(groupLine(shipped('cathode-leach', SMALL)))).toBe('Everybody works alone, 90 min in the laboratory, 2 aliquots of the sample on 2 columns.');
  expect(plain(groupLine(shipped('lab-day')))).toMatch(/^Groups of 3, \d+ min in the laboratory, 3 aliquots of the sample on 1 column\.$/);
});
