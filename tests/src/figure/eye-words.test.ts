import { expect, test } from 'vitest';
import { eyeLines } from '../../../src/figure/eye-words.ts';

const DEPTH = { mL: 40, depth_cm: 3, label: 'you: 3.0 cm' };
const LEAVING = { mL: 55, label: 'you: 55.0 mL' };

test('eyeLines() asks for both kinds of prediction, then for the one that is missing, then for none', () => {
  const asked = (marks: Parameters<typeof eyeLines>[1]) => eyeLines('cobalt', marks, false).join(' ');
  expect(asked([])).toMatch(/In the bed: .*In the strip/);
  expect(asked([DEPTH])).toMatch(/^Marked.*In the strip/);
  expect(asked([DEPTH])).not.toContain('In the bed');
  expect(asked([LEAVING])).toMatch(/^Marked.*In the bed/);
  expect(asked([LEAVING])).not.toContain('In the strip');
  expect(asked([DEPTH, LEAVING])).not.toMatch(/In the|Predict/);
});

test('eyeLines() asks for nothing once the ion is seen to leave', () => {
  expect(eyeLines('cobalt', [], false, 'gone')).toEqual([]);
  expect(eyeLines('cobalt', [DEPTH], true, 'gone')).toEqual([]);
});

test('eyeLines() asks for nothing before the sample is on the bed, says that predictions come then, and takes one that was made', () => {
  expect(eyeLines('cobalt', [], false, 'before').join(' ')).toMatch(/^Once the sample is on the bed, predict/);
  expect(eyeLines('cobalt', [DEPTH], false, 'before').join(' ')).toMatch(/^Marked/);
});

test('eyeLines() fits the narrow figure: at most three short lines', () => {
  for (const marks of [[], [DEPTH], [LEAVING], [DEPTH, LEAVING]]) {
    for (const ion of ['before', 'on'] as const) {
      const lines = eyeLines('cobalt', marks, true, ion);
      expect(lines.length).toBeLessThanOrEqual(3);
      expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(23);
    }
  }
});

// At 1280 px by eye the figure has room for about 75 letters of this type (measured on the page).
test('eyeLines() fits the figure of a small laptop', () => {
  for (const marks of [[], [DEPTH], [LEAVING], [DEPTH, LEAVING]])
    for (const ion of ['before', 'on'] as const) for (const line of eyeLines('cobalt', marks, false, ion)) expect(line.length, line).toBeLessThanOrEqual(72);
});
