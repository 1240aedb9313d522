import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { checkCalculation } from '../../../sim/report/calculation.ts';
import { parseQuantity } from '../../../sim/report/quantity.ts';

describe('a typed quantity', () => {
  it.each([
    ['0.0123 mol/L', 0.0123],
    ['0,0123 mol/L', 0.0123],
    ['12.3 mmol/L', 0.0123],
    ['12,3mM', 0.0123],
    ['0.0123M', 0.0123],
    ['0.0123', 0.0123],
    ['1.23e-2 M', 0.0123],
    ['1.23×10^-2 mol/L', 0.0123],
    ['1,23·10⁻² mol·L⁻¹', 0.0123],
    ['12300 µmol/L', 0.0123],
    [' 0.0123 mol / L ', 0.0123],
    ['.0123 M', 0.0123],
  ])('%s is understood as a molarity', (text, value) => {
    const read = parseQuantity(text, 'molarity');
    expect(read.ok && read.value).toBeCloseTo(value, 12);
  });

  it.each([
    ['12.43 mL', 12.43],
    ['12,43 ml', 12.43],
    ['0.01243 L', 12.43],
    ['12.43 cm³', 12.43],
    ['12430 µL', 12.43],
  ])('%s is understood as a volume', (text, value) => {
    const read = parseQuantity(text, 'volume');
    expect(read.ok && read.value).toBeCloseTo(value, 10);
  });

  it.each([
    ['', 'nothing'],
    ['twelve', 'twelve'],
    ['12.43 mL', 'a volume'],
    ['12.43±0.05', '±'],
    ['1.234,5', '1.234,5'],
    ['1,2,3', '1,2,3'],
    ['0x10', '0x10'],
    ['1e400', '1e400'],
    ['NaN', 'NaN'],
    ['Infinity', 'Infinity'],
    ['5 furlong', 'furlong'],
    ['5 ML', 'ML'],
    ['9'.repeat(80), '9999'],
    ['constructor', 'constructor'],
    ['5constructor', 'constructor'],
  ])('%s is refused as a molarity with what was received', (text, received) => {
    const read = parseQuantity(text, 'molarity');
    expect(read.ok).toBe(false);
    expect(!read.ok && read.received).toContain(received);
    expect(!read.ok && read.expected).toContain('mol/L');
  });

  it('never throws and never gives what is not finite', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), (text) => {
        const read = parseQuantity(text, 'volume');
        if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
      }),
      { seed: 51, numRuns: 500 },
    );
  });

  it('says how an uncertain comma or a missing unit was read', () => {
    const read = parseQuantity('1,000', 'volume');
    expect(read).toMatchObject({ ok: true, value: 1, figures: 4 });
    expect(read.ok && read.note).toBe('the comma was read as a decimal mark; without a unit it was taken as mL');
  });
});

describe('a calculation', () => {
  const readings = { initial_mL: 0.1, final_mL: 12.53, EDTA_M: 0.01, flask_mL: 100, portion_mL: 25, sample_mL: 1 };
  // 12.43 mL x 0.0100 M x 100/25 / 1 mL = 0.4972 mol/L, 29.30 mg (stoichiometry).
  const right = { titre: '12.43 mL', EDTA: '0.1243 mmol', portion: '1.243e-4 mol', flask: '0,4972 mmol', molarity: '0.4972 mol/L', mass: '29.30 mg' };

  it('that is right has no wrong step', () => {
    const check = checkCalculation(readings, right);
    expect(check.firstWrong).toBeUndefined();
    expect(check.complete).toBe(true);
    expect(check.steps.every(({ verdict }) => verdict === 'right')).toBe(true);
  });

  it('says how a number without a unit was read only where that may be why it is off', () => {
    const said = (answers: Parameters<typeof checkCalculation>[1], id: string) =>
      checkCalculation(readings, answers).steps.find((step) => step.id === id)?.text ?? '';
    const bare = { titre: '12.43', EDTA: '0.1243', portion: '0.1243', flask: '0.4972', molarity: '0.4972', mass: '29.30' };
    for (const { verdict, text } of checkCalculation(readings, bare).steps) expect([verdict, text]).toEqual(['right', '']);
    expect(said({ ...bare, EDTA: '124.3' }, 'EDTA')).toMatch(/A factor of 1000.* Without a unit it was taken as mmol\.$/);
    expect(said({ ...bare, mass: '2.930' }, 'mass')).toMatch(/Without a unit it was taken as mg\.$/);
    expect(said({ ...bare, mass: '5' }, 'mass')).toBe('Expected 29.30 mg from the step before.');
    expect(said({ ...bare, flask: '0.50' }, 'flask')).toBe('Too few figures for a titration: give three or four.');
  });

  it.each([
    ['titre', '12.53 mL', 'not subtracted'],
    ['EDTA', '1.243 mol/L', 'a molarity'],
    ['EDTA', '124.3 mmol', 'A factor of 1000'],
    ['portion', '0.0622 mmol', 'no factor 2'],
    ['flask', '0.1243 mmol', 'only part of the flask'],
    ['flask', '0.03108 mmol', 'upside down'],
    ['molarity', '0.004972 mol/L', 'molarity in the flask'],
    ['mass', '118.3 mg', 'hexahydrate'],
    ['mass', '5 mg', 'Expected 29.30 mg'],
  ] as const)('wrong at %s (%s) is told why', (step, answer, text) => {
    const check = checkCalculation(readings, { ...right, [step]: answer });
    expect(check.firstWrong?.id).toBe(step);
    expect(check.firstWrong?.text).toContain(text);
  });

  it('blames only the first wrong step when the later ones follow from it', () => {
    const check = checkCalculation(readings, {
      ...right,
      titre: '12.53',
      EDTA: '0.1253',
      portion: '0.1253',
      flask: '0.5012',
      molarity: '0.5012',
      mass: '29.54',
    });
    expect(check.steps.map(({ verdict }) => verdict)).toEqual(['wrong', 'follows', 'follows', 'follows', 'follows', 'follows']);
  });

  it('passes over steps left out', () => {
    const check = checkCalculation(readings, { molarity: '0.497 mol/L' });
    expect(check.firstWrong).toBeUndefined();
    expect(check.complete).toBe(false);
  });
});

test('a titre of another flask and portion goes through the same steps', () => {
  const readings = { initial_mL: 1.2, final_mL: 31.4, EDTA_M: 0.02, flask_mL: 250, portion_mL: 50, sample_mL: 10 };
  const check = checkCalculation(readings, { molarity: '0,302 mol/L' });
  expect(check.steps.find(({ id }) => id === 'molarity')).toMatchObject({ verdict: 'right', expected: (30.2 * 0.02 * 5) / 10 });
});
