import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FIELDS } from '../../../sim/terms/fields.ts';
import { nearestName, slipsBetween } from '../../../sim/input/nearest.ts';

describe('slips between two names', () => {
  // Textbook pairs of edit distance (Wagner and Fischer, J. ACM 21 (1974) 168; recalled).
  test.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'bed', 3],
    ['bed', 'bed', 0],
    // Optimal string alignment counts a swap once, and edits no letter twice (recalled).
    ['lenght', 'length', 1],
    ['ca', 'abc', 3],
  ])('%s to %s takes %i', (a, b, slips) => expect(slipsBetween(a, b)).toBe(slips));

  test('are a distance: zero only for equal names, the same both ways, at most the longer length', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const slips = slipsBetween(a, b);
        expect(slips === 0).toBe(a === b);
        expect(slipsBetween(b, a)).toBe(slips);
        expect(slips).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
        expect(slips).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
      { seed: 7 },
    );
  });
});

describe('nearest name', () => {
  test.each([
    ['lenght_cm', ['length_cm', 'lanes'], 'length_cm'],
    ['ACID', ['acid', 'water'], 'acid'],
    ['length_cm', Object.keys(FIELDS), 'bed.length_cm'],
    ['bed.lanse', Object.keys(FIELDS), 'bed.lanes'],
    ['chanel', ['channel', 'crater'], 'channel'],
  ])('of %s is found', (name, known, near) => expect(nearestName(name, known)).toBe(near));

  test.each(['', 'entirely different', 'x', 'a'.repeat(1_000_000)])('is not made up for a stranger', (name) => {
    expect(nearestName(name, ['acid', 'water', 'sample'])).toBeUndefined();
  });

  test('of any name with one letter missing is that name', () => {
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(FIELDS)), fc.nat(), (path, n) => {
        const i = n % path.length;
        expect(slipsBetween(nearestName(path.slice(0, i) + path.slice(i + 1), Object.keys(FIELDS)) ?? '', path)).toBeLessThanOrEqual(2);
      }),
      { seed: 8 },
    );
  });
});
