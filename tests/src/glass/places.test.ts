import { describe, expect, test } from 'vitest';
import { layoutOf } from '../../../src/glass/layout.ts';
import { type Box, clampBox, mouthBox, receiverBoxes } from '../../../src/glass/touch/places.ts';
import { scenarioWith } from './moment.ts';

const { values } = scenarioWith();
const RECEIVERS = [{ slot: 0 }, { slot: 1 }, { slot: 2 }];

describe.each([
  [210, 510],
  [120, 380],
  [260, 640],
])('what can be pressed on a panel of %d by %d px', (width, height) => {
  const layout = layoutOf({ width, height, bedTop: 0.25 * height, bedBottom: 0.62 * height }, values);
  const boxes = [mouthBox(layout), clampBox(layout), ...receiverBoxes(layout, RECEIVERS, 1).map(([, box]) => box)];

  test('is large enough for a finger (44 px, WCAG 2.2, 2.5.5, recalled)', () => {
    for (const box of boxes) expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
  });

  test('lies on the panel and apart', () => {
    for (const [i, { left, top, width: wide, height: tall }] of boxes.entries()) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(left + wide).toBeLessThanOrEqual(width);
      expect(top + tall).toBeLessThanOrEqual(height);
      for (const other of boxes.slice(i + 1)) expect(overlap(boxes[i], other)).toBeLessThanOrEqual(0);
    }
  });

  test('holds the receiver under the tip and one beside it', () => {
    const found = receiverBoxes(layout, RECEIVERS, 1);
    expect(found[0][0].slot).toBe(1);
    expect(found.length).toBeGreaterThan(1);
  });
});

/** The smaller of the widths of the common stretch across and down; 0 or less where there is none. */
function overlap(a: Box, b: Box): number {
  const across = Math.min(a.left + a.width, b.left + b.width) - Math.max(a.left, b.left);
  const down = Math.min(a.top + a.height, b.top + b.height) - Math.max(a.top, b.top);
  return Math.min(across, down);
}
