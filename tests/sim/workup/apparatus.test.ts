import { describe, expect, it } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { flaskSize, tolerance } from '../../../sim/hands/glass.ts';
import { apparatusOf } from '../../../sim/workup/apparatus.ts';

describe('class A tolerance', () => {
  // ASTM E969; 5 to 100 mL read in a table of precision as taught, 1 and 2 mL recalled.
  it.each([
    [1, 0.006],
    [2, 0.006],
    [5, 0.01],
    [10, 0.02],
    [25, 0.03],
    [50, 0.05],
    [100, 0.08],
  ])('of a %i mL pipette', (capacity, mL) => {
    expect(tolerance('pipette', capacity)).toBe(mL);
  });

  // The same table, read; 500 mL from ASTM E288, recalled.
  it.each([
    [25, 0.03],
    [50, 0.05],
    [100, 0.08],
    [250, 0.12],
    [500, 0.2],
    [1000, 0.3],
    [2000, 0.5],
  ])('of a %i mL flask', (capacity, mL) => {
    expect(tolerance('flask', capacity)).toBe(mL);
  });

  // ASTM E287, recalled; class B is twice class A, read.
  it.each([
    [10, 0.02],
    [25, 0.03],
    [50, 0.05],
    [100, 0.1],
  ])('of a %i mL burette, and twice that in class B', (capacity, mL) => {
    expect(tolerance('burette', capacity)).toBe(mL);
    expect(tolerance('burette', capacity, 'B')).toBe(2 * mL);
  });
});

describe('apparatus of a seed', () => {
  const values = parameterDefaults();

  it('stays within tolerance over many benches and is centred', () => {
    let sum = 0;
    for (let seed = 0; seed < 500; seed++) {
      const { pipette, flask, delivered, EDTA_M, reading, meter } = apparatusOf(values, seed);
      sum += pipette(25) - 25;
      expect(Math.abs(pipette(25) - 25)).toBeLessThanOrEqual(0.03);
      expect(Math.abs(flask(100) - 100)).toBeLessThanOrEqual(0.08);
      expect(Math.abs(delivered(20) - 20)).toBeLessThanOrEqual(0.03 + 1e-12);
      expect(Math.abs(EDTA_M - 0.01)).toBeLessThanOrEqual(0.00002);
      expect(Math.abs(reading(12.43, 'a') - 12.43)).toBeLessThanOrEqual(0.025 + 1e-9);
      expect(Math.abs(meter(6, 'a') - 6)).toBeLessThanOrEqual(0.025 + 1e-9);
    }
    // Triangular: standard error 0.03 / sqrt(6 * 500) = 0.00055.
    expect(Math.abs(sum / 500)).toBeLessThan(0.0025);
  });

  it('does not depend on the order of use', () => {
    const one = apparatusOf(values, 9);
    const other = apparatusOf(values, 9);
    const first = one.pipette(25);
    other.flask(100);
    other.reading(1, 'x');
    expect(other.pipette(25)).toBe(first);
  });
});

describe('flask for an eluate', () => {
  it('is the wanted one if it fits, else the next larger, else none', () => {
    expect(flaskSize(52, 100)).toBe(100);
    expect(flaskSize(101, 100)).toBe(250);
    expect(flaskSize(5000, 100)).toBeUndefined();
  });
});
