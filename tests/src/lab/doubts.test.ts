import { describe, expect, test } from 'vitest';
import { intended } from '../../../sim/column/index.ts';
import { runWhole } from '../../../sim/run/index.ts';
import { loadedFrom } from '../../../src/lab/fit/before-load.ts';
import { calibrated } from '../../../src/lab/fit/calibrate.ts';
import { earlyWords, misfitDoubt, sieveWords } from '../../../src/lab/fit/doubts.ts';
import { type Measurement, readMeasurements } from '../../../src/lab/fit/measurements.ts';
import { beforeLoadWords, strongestTie, tiedWords } from '../../../src/lab/calibrate/words.ts';
import { predicted } from '../../../src/lab/fit/predict.ts';
import { withValues } from '../../../src/lab/fit/calibrate.ts';
import { shipped } from '../store/rig.ts';

const LAB = intended(shipped('cathode-leach', { bed: { lanes: 1, plates: 15 } }));
const plain = (text: string): string => text.replaceAll(/\s/g, ' ');

function readings(text: string): readonly Measurement[] {
  const read = readMeasurements(text, LAB);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.measurements;
}

/** What the model itself would read, so that a fit has nothing to explain away. */
function exact(text: string, scenario = LAB): readonly Measurement[] {
  const measurements = readings(text);
  const values = predicted(scenario, measurements);
  return measurements.map((one, i) => ({ ...one, value: values[i] }));
}

describe('readings of the band before the sample', () => {
  test('are named with the row and the volume at which the sample is poured', () => {
    expect(earlyWords(LAB, readings('delivered_mL,leading_cm,first_colour_mL\n20,1.9,\n38,2.8,\n,,12')).map(plain)).toEqual([
      'Row 2, leading_cm: a reading of the band at 20.0 mL, but this lab’s procedure pours the sample only after about 26 mL. Volumes are counted from the start of the run, conditioning included.',
      'Row 4, first_colour_mL: a reading of the band at 12.0 mL, but this lab’s procedure pours the sample only after about 26 mL. Volumes are counted from the start of the run, conditioning included.',
    ]);
    expect(earlyWords(LAB, readings('delivered_mL,flow_mL_per_min,leading_cm\n12,1.8,\n30,,1'))).toEqual([]);
  });

  test('are told from the volumes of the procedure, within half a millilitre of the run', () => {
    const sample = runWhole(LAB).events.find(({ action }) => action?.do === 'pour' && action.liquid === 'sample');
    expect(Math.abs(loadedFrom(LAB) - (sample?.delivered_mL ?? Number.NaN))).toBeLessThan(0.5);
    expect(loadedFrom({ ...LAB, procedure: [] })).toBe(0);
  });
});

describe('what readings before the sample determine', () => {
  test('a flow test alone: the bead, and nothing that holds cobalt', () => {
    const { parameters, correlations, beforeLoad } = calibrated(
      LAB,
      exact('flow_test_mL,flow_test_min,flow_test_head_mm\n2,1,60', withValues(LAB, ['bed.bead_um'], [-0.5])),
      ['bed.bead_um', 'resin.curve_scale'],
    );
    expect(beforeLoad).toEqual({ readings: 1, determine: ['bed.bead_um'] });
    expect(parameters[0].value / (LAB.values['bed.bead_um'] * Math.exp(-0.2))).toBeCloseTo(1, 2);
    expect(parameters[1].open).toBe(true);
    expect(beforeLoadWords({ beforeLoad, parameters, correlations })).toBe(
      'One reading was taken before the sample was poured, when there is no band yet: flow and bed alone determine bead diameter.',
    );
  });

  test('is said of them apart from the readings of the band', () => {
    const { parameters, correlations, beforeLoad } = calibrated(LAB, exact('delivered_mL,flow_mL_per_min,leading_cm\n3,1,\n12,1,\n32,,1\n44,,1\n50,,1'), [
      'bed.bead_um',
      'resin.curve_scale',
    ]);
    expect(beforeLoad).toEqual({ readings: 2, determine: ['bed.bead_um'] });
    expect(parameters.map(({ open }) => open)).toEqual([false, false]);
    expect(beforeLoadWords({ beforeLoad, parameters, correlations })).toMatch(
      /^2 readings were taken before the sample was poured, .*: flow and bed alone determine bead diameter\.$/,
    );
    expect(beforeLoadWords({ beforeLoad: { readings: 0, determine: [] }, parameters, correlations })).toBe('');
    expect(beforeLoadWords({ beforeLoad: { readings: 1, determine: [] }, parameters, correlations })).toMatch(/determine no number by itself/);
  });
});

describe('a fitted bead', () => {
  const bead = (value: number, open = false) => ({
    parameters: [{ path: 'bed.bead_um', unit: 'µm', status: 'assumed', before: 250, value, interval: [value, value], narrowed: 0.1, open } as const],
  });

  // 50-100 mesh: 180 to 425 µm wet, 100-200 mesh: 106 to 180 µm (wet sieve classes, from memory).
  test.each([
    [undefined, 137, /137 µm, lies outside the wet sieve range of the grade that is set, 50-100 mesh, 8 % cross-linked: 180 to 425 µm/],
    ['100-200 mesh, 4 % cross-linked', 200, /outside the wet sieve range of the grade that is set, 100-200 mesh, 4 % cross-linked: 106 to 180 µm/],
    [undefined, 250, /^$/],
    ['100-200 mesh, 4 % cross-linked', 140, /^$/],
    ['a grade of its own', 140, /^$/],
  ])('in grade %s, %f µm, is doubted or not', (grade, value, words) => {
    expect(sieveWords(grade, bead(value))).toMatch(words);
  });

  test('that was left open is not doubted', () => expect(sieveWords(undefined, bead(137, true))).toBe(''));
});

describe('a fit that leaves readings unexplained', () => {
  const table = 'delivered_mL,flow_mL_per_min,leading_cm\n3,1,\n12,1,\n32,,1\n44,,1\n50,,1';
  const fitTo = (off: number, at: number) =>
    calibrated(
      LAB,
      exact(table).map((one, i) => ({ ...one, value: one.value + (i === at ? off * one.deviation : 0) })),
      ['bed.bead_um', 'resin.curve_scale'],
    );

  test('names row and column of the reading, how far off it lies, and what to check', () => {
    const fit = fitTo(12, 3);
    const words = misfitDoubt(fit);
    expect(words).toMatch(
      /row 5, leading_cm, lies [\d.]+ standard deviations off.*check the readings?, and that the procedure of this lab is the one you ran\.$/,
    );
    const said = Number(/row 5, leading_cm, lies ([\d.]+)/.exec(words)?.[1]);
    expect(said / Math.abs(fit.measurements[3].residual)).toBeCloseTo(1, 1);
  });

  test('says nothing where everything fits, and names the farthest where only the whole lies too far', () => {
    const good = fitTo(0, 0);
    expect(misfitDoubt(good)).toBe('');
    const measurements = good.measurements.map((one, i) => ({ ...one, residual: i === 1 ? -2 : 1.2 }));
    const chiSquareAfter = measurements.reduce((sum, { residual }) => sum + residual * residual, 0);
    expect(misfitDoubt({ measurements, chiSquareAfter })).toMatch(
      /^The readings lie farther from the model than their errors.*row 3, flow_mL_per_min, lies 2\.0 /,
    );
  });

  test('names what a number cannot be told apart from, wherever it is named: one sentence does not call certain what another calls tied', () => {
    const fit = calibrated(LAB, exact('flow_test_mL,flow_test_min,flow_test_head_mm\n2,1,60', withValues(LAB, ['bed.bead_um'], [-0.5])), [
      'bed.bead_um',
      'bed.porosity',
    ]);
    const [[, r]] = fit.correlations;
    expect(Math.abs(r)).toBeGreaterThan(0.8);
    expect(strongestTie(fit, 0)).toContain('porosity');
    expect(beforeLoadWords(fit)).toMatch(/determine bead diameter \(only together with porosity\)/);
    const open = fit.parameters.filter((one) => one.open).length;
    expect(tiedWords(fit)).toMatch(open === 2 ? /^$/ : /^Bead diameter and porosity can only be determined together/);
  });
});
