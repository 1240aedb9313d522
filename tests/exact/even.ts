import fc from 'fast-check';

const STEPS = 2 ** 30;

/**
 * A number from `min` to `max`: mostly anywhere with the same chance, at times as fast-check draws it. That alone would not do: it
 * gives every bit pattern the same chance, so from 0 to 12 nearly all numbers lie next to 0, and a pour of 1e-200 mL moves nothing.
 */
export function evenly(min: number, max: number): fc.Arbitrary<number> {
  const anywhere = fc.noBias(fc.integer({ min: 0, max: STEPS })).map((step) => min + (max - min) * (step / STEPS));
  return fc.oneof({ weight: 3, arbitrary: anywhere }, { weight: 1, arbitrary: fc.double({ min, max, noNaN: true }) });
}
