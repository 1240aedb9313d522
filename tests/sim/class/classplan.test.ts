import { describe, expect, it, test } from 'vitest';
import { classPlan, stockFor } from '../../../sim/class/classplan.ts';

test('1 L of 9.00 mol/L takes 744 mL of 12.1 mol/L', () => {
  expect(Math.abs(stockFor(1000, 9, 12.1) - 744)).toBeLessThan(0.5);
});

describe('class plan of the example group', () => {
  // Arithmetic done beforehand, a quarter spare for the acid and a fifth for the rest; rounded.
  it.each([
    [1, [64, 47, 75, 0.28, 3.6, 90, 15, 5]],
    [8, [510, 379, 600, 2.2, 29, 720, 120, 40]],
    [12, [765, 569, 900, 3.4, 43, 1080, 180, 60]],
    [24, [1530, 1138, 1800, 6.7, 86, 2160, 360, 120]],
  ])('for %i groups has its amounts', (groups, amounts) => {
    const { supplies } = classPlan(groups);
    const found = supplies.filter(({ name }) => !name.includes('resin')).map(({ amount }) => amount);
    amounts.forEach((amount, i) => expect(Math.abs(found[i] / amount - 1)).toBeLessThan(0.02));
  });

  it('for one group has 7 to 8 g of moist resin', () => {
    const resin = classPlan(1).supplies.find(({ name }) => name.includes('resin'));
    expect(resin).toMatchObject({ amount: 7 });
    expect(resin?.how).toContain('8 g');
  });

  it('for one group sends 51 mL of acid and 25 mL of surplus to A, about 190 mL to B', () => {
    const [a, b] = classPlan(1).waste;
    expect(a.volume_mL).toBe(76);
    // 0.46 mol of acid, 77 mL of 6 mol/L NaOH, 26 kJ.
    expect(a.rule).toContain('77 mL');
    expect(a.rule).toContain('26 kJ');
    expect(Math.abs((b.volume_mL ?? 0) / 190 - 1)).toBeLessThan(0.02);
  });
});
