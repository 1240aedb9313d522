import { describe, expect, test } from 'vitest';
import { intended } from '../../../sim/column/index.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { normalStream } from '../../../sim/math/random.ts';
import { calibrated, withFitted, withValues } from '../../../src/lab/fit/calibrate.ts';
import { fittedJson, withoutNote } from '../../../src/lab/fit/fitted-scenario.ts';
import { readMeasurements } from '../../../src/lab/fit/measurements.ts';
import type { FittedPath } from '../../../src/lab/fit/parameters.ts';
import { predicted } from '../../../src/lab/fit/predict.ts';
import { measuredOn } from '../../bench/recovered.ts';
import json from '../../../scenarios/cathode-leach.json';

/** The shipped lesson on a bed of few cells, which is quick and coarse. */
const small = { ...json, bed: { lanes: 1, plates: 15 } };
const read = readScenario(small, 'lab');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;
const SEEDS = 6;

describe('calibration', () => {
  const paths: FittedPath[] = ['bed.bead_um', 'resin.curve_scale', 'resin.shrinkage'];

  // Columns drawn from the prior, measured with the stated noise: a 95 % interval holds the truth 95 times in 100. Of 18 intervals at
  // least 14 do with probability 0.998 (binomial).
  test('finds known columns again within its intervals', () => {
    let within = 0;
    for (let seed = 1; seed <= SEEDS; seed++) {
      const normal = normalStream(1000 + seed);
      const truth = withValues(
        intended(scenario),
        paths,
        paths.map(() => 0.7 * normal()),
      );
      const { parameters, chiSquareAfter, chiSquareBefore } = calibrated(scenario, measuredOn(truth, seed), paths);
      expect(chiSquareAfter).toBeLessThan(chiSquareBefore);
      for (const { path, interval } of parameters) within += Number(interval[0] <= truth.values[path] && truth.values[path] <= interval[1]);
    }
    expect(within).toBeGreaterThanOrEqual(14);
    expect(within).toBeLessThanOrEqual(SEEDS * paths.length);
  }, 120_000);

  test('is of the column that was measured, as it is written, and not of one that a seed draws around it', () => {
    const flows = measuredOn(withValues(intended(scenario), ['bed.bead_um'], [-0.5]), 3).filter(({ quantity }) => quantity === 'flow');
    const [written, other, meant] = [scenario, { ...scenario, seed: 9 }, intended(scenario)].map(
      (lab) => calibrated(lab, flows, ['bed.bead_um']).parameters[0],
    );
    expect(scenario.values['differ.bead']).toBeGreaterThan(0);
    expect(written).toEqual(meant);
    // A seed still places the loose spots of the packing, which hardly changes the flow of one lane.
    expect(other.value / meant.value).toBeCloseTo(1, 3);
  });

  test('says what the measurements leave open: flow alone tells of the beads, not of the uptake', () => {
    const flows = measuredOn(intended(scenario), 3).filter(({ quantity }) => quantity === 'flow');
    const { parameters } = calibrated(scenario, flows, ['bed.bead_um', 'resin.curve_scale']);
    expect(parameters.map(({ path, open }) => [path, open])).toEqual([
      ['bed.bead_um', false],
      ['resin.curve_scale', true],
    ]);
  });
});

describe('a table of measurements', () => {
  const issuesOf = (text: string) => {
    const table = readMeasurements(text, scenario);
    return table.ok ? [] : table.issues.map(({ path, expected, received }) => `${path}: ${expected}; ${received}`);
  };

  test('may be parted by tabs or semicolons, as spreadsheets paste it, and cells that were not measured are empty', () => {
    expect(issuesOf('delivered_mL\tleading_cm\ttrailing_cm\r\n20\t3.1\t\r\n40\t4.9\t3.2\r\n')).toEqual([]);
    expect(issuesOf('delivered_mL;bed_cm\n20;6.8\n')).toEqual([]);
  });

  test('may hold a flow test, falling by what ran out or kept level, which needs no volume of the run', () => {
    expect(issuesOf('flow_test_mL,flow_test_min,flow_test_head_mm,flow_test_end_mm\n1,1,20,\n10,5,20,20\n')).toEqual([]);
    const table = readMeasurements('flow_test_mL,flow_test_min,flow_test_head_mm,flow_test_end_mm\n1,1,20,\n10,5,20,20\n', scenario);
    // 1 mL in a bore of 0.9 cm: 10/(0.81 pi/4) = 15.7 mm.
    expect(table.ok && table.measurements.map(({ test }) => test)).toEqual([
      { volume_mL: 1, from_mm: 20, to_mm: expect.closeTo(20 - 15.719, 2) },
      { volume_mL: 10, from_mm: 20, to_mm: 20 },
    ]);
  });

  test('counts its rows as they were given, empty lines among them', () => {
    expect(issuesOf('\ndelivered_mL,bed_cm\n\n20,seven')).toEqual(['row 4, bed_cm: number 0 to 20 cm; "seven"']);
  });

  test.each([
    ['a unit that is another', 'delivered_mL,leading_mm\n20,31', /^heading, column 2: a column with its unit, nearest known: leading_cm; "leading_mm"/],
    ['a column twice', 'delivered_mL,bed_cm,bed_cm\n20,6,6', /^heading, column 3: every column once; "bed_cm" again/],
    ['nothing that was measured', 'delivered_mL\n20', /^heading: at least one of flow_mL_per_min, bed_cm/],
    ['no rows', 'delivered_mL,bed_cm\n', /^table: 1 to 500 rows under the heading; 0/],
    ['an empty text', '', /^table: 1 to 500 rows/],
    [
      'an empty cell where a volume is needed',
      'delivered_mL,leading_cm\n,3',
      /^row 2, delivered_mL: the volume delivered when leading_cm was read; an empty cell/,
    ],
    ['a fraction without its beginning', 'delivered_mL,Co_mmol\n20,0.1', /^row 2, from_mL: the volume at which the fraction with Co_mmol began; an empty cell/],
    ['an empty row', 'delivered_mL,bed_cm\n20,', /^row 2: at least one measured value; only empty cells/],
    ['words', 'delivered_mL,bed_cm\n20,seven', /^row 2, bed_cm: number 0 to 20 cm; "seven"/],
    ['a decimal comma', 'delivered_mL,bed_cm\n20,6,8', /^row 2: at most 2 cells; 3; decimals have a point/],
    ['an edge below the tube', 'delivered_mL,leading_cm\n20,31', /^row 2, leading_cm: number 0 to 20 cm; "31"/],
    ['a negative amount', 'delivered_mL,from_mL,Co_mmol\n20,10,-0.1', /^row 2, Co_mmol: number 0 to 1000 mmol; "-0.1"/],
    [
      'a flow test without its level',
      'flow_test_mL,flow_test_min\n2,1',
      /^row 2, flow_test_head_mm: what ran out in flow_test_min, and how high the liquid stood/,
    ],
    [
      'a flow test of more than stood above the bed',
      'flow_test_mL,flow_test_min,flow_test_head_mm\n10,5,20',
      /^row 2, flow_test_mL: at most 1\.3 mL, which is what 20 mm above the bed hold in this tube; if more was poured on, give .* flow_test_end_mm; 10 mL/,
    ],
    ['a flow test above the rim', 'flow_test_mL,flow_test_min,flow_test_head_mm\n2,1,900', /^row 2, flow_test_head_mm: number 0 to 130 mm; "900"/],
    ['a flow test of nothing', 'flow_test_mL,flow_test_min,flow_test_head_mm\n0,1,20', /^row 2, flow_test_mL: at least 0\.05 mL; 0 mL/],
    [
      'a flow test that was not timed',
      'flow_test_mL,flow_test_head_mm,bed_cm\n2,20,',
      /^row 2: at least one measured value; only flow_test_mL, flow_test_head_mm/,
    ],
    ['edges the wrong way round', 'delivered_mL,leading_cm,trailing_cm\n20,2,3', /^row 2, trailing_cm: less than leading_cm, 2 cm/],
    ['a fraction that ends before it begins', 'delivered_mL,from_mL,Co_mmol\n20,30,0.1', /^row 2, from_mL: less than delivered_mL, 20 mL; 30 mL/],
  ])('names %s', (_, text, message) => {
    expect(issuesOf(text)[0]).toMatch(message);
  });
});

test('a fitted scenario is read again, with the numbers that were found and their status; what was left open has none', () => {
  const flows = measuredOn(withValues(intended(scenario), ['bed.bead_um'], [1]), 3).filter(({ quantity }) => quantity === 'flow');
  const calibration = calibrated(scenario, flows, ['bed.bead_um', 'resin.curve_scale']);
  const again = readScenario(fittedJson(json, calibration, '2031-05-04'), 'fitted');
  if (!again.ok) throw new Error(JSON.stringify(again.issues));
  const [bead] = calibration.parameters;
  expect(again.scenario.values['bed.bead_um']).toBeCloseTo(bead.value, 3);
  expect(again.scenario.values['resin.curve_scale']).toBeCloseTo(calibration.parameters[1].value, 5);
  expect(again.scenario.fitted).toEqual({
    'bed.bead_um': { date: '2031-05-04', low: expect.closeTo(bead.interval[0], 3), high: expect.closeTo(bead.interval[1], 3) },
  });
});

test('an accepted lab gives back the readings as the fit drew them, also where few leave most numbers open', () => {
  const truth = withValues(intended(scenario), ['resin.curve_scale', 'bed.bead_um'], [1.5, -1]);
  const few = measuredOn(truth, 5).filter(({ quantity }) => quantity === 'flow' || quantity === 'leading');
  const readings = [...few.filter(({ quantity }) => quantity === 'flow').slice(0, 1), ...few.filter(({ quantity }) => quantity === 'leading').slice(0, 2)];
  const calibration = calibrated(scenario, readings);
  expect(calibration.parameters.filter(({ open }) => open).length).toBeGreaterThan(2);
  const again = readScenario(fittedJson(small, calibration, '2031-05-04'), 'fitted');
  if (!again.ok) throw new Error(JSON.stringify(again.issues));
  const found = predicted(withFitted(again.scenario, { ...calibration, parameters: [] }, 'value'), readings);
  for (const [i, { after, deviation }] of calibration.measurements.entries()) expect(Math.abs(found[i] - after)).toBeLessThan(0.01 * deviation);
});

test('a number that is typed over loses its note, and the last note takes the list with it', () => {
  const note = { date: '2031-05-04', low: 1, high: 2 };
  const two = { title: 'x', fitted: { 'bed.bead_um': note, 'bed.porosity': note } };
  const one = withoutNote(two, 'bed.bead_um');
  expect(one).toEqual({ title: 'x', fitted: { 'bed.porosity': note } });
  expect(withoutNote(one, 'bed.porosity')).toEqual({ title: 'x' });
  expect(withoutNote(one, 'bed.length_cm')).toBe(one);
});
