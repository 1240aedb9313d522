import fc from 'fast-check';
import { expect, test } from 'vitest';
import { laneLabels } from '../../../src/plan/lane-labels.ts';

const block = fc.record({
  width: fc.integer({ min: 2, max: 90 }),
  gap: fc.integer({ min: 0, max: 40 }),
  name: fc.constantFrom('load 1', 'make up 3', 'wash 2', 'titrate 12'),
});

test('laneLabels() gives every block a name, none on another and none beyond the drawing', () => {
  fc.assert(
    fc.property(fc.array(block, { minLength: 1, maxLength: 18 }), (blocks) => {
      let from = 60;
      const placed = blocks.map(({ width, gap, name }) => {
        const one = { from: from + gap, width, names: [`${name} at some length`, name] };
        from = one.from + width;
        return one;
      });
      const right = Math.max(from, 400);
      const labels = laneLabels(placed, 60, right);
      expect(labels).toHaveLength(blocks.length);
      const ends = new Map<number, number>();
      labels.forEach(({ text, at, row }, i) => {
        expect(placed[i]?.names).toContain(text);
        // Narrow letters: the width of a character is an estimate, the same as the drawing's.
        const half = (text.length * (row === 0 ? 7.2 : 6.3)) / 2;
        if (row === 0) return expect(2 * half).toBeLessThan(placed[i]?.width ?? 0);
        expect(at - half).toBeGreaterThanOrEqual(Math.max(60 - 1e-9, ends.get(row) ?? 0));
        expect(at + half).toBeLessThanOrEqual(right + 1e-9);
        ends.set(row, at + half);
        return undefined;
      });
    }),
    { seed: 7, numRuns: 200 },
  );
});
