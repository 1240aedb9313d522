import { applySettings, own } from '../../sim/input/index.ts';
import type { Issue, Scenario } from '../../sim/terms/types.ts';
import { earlyIssues } from '../lab/fit/before-load.ts';
import { type Calibration, calibrated } from '../lab/fit/calibrate.ts';
import { misfitDoubt, sieveWords } from '../lab/fit/doubts.ts';
import { fittedJson } from '../lab/fit/fitted-scenario.ts';
import { readMeasurements } from '../lab/fit/measurements.ts';

export type CalibrationOutcome =
  | { readonly ok: true; readonly calibration: Calibration & { readonly warnings: readonly string[]; readonly scenario: unknown } }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** Fits a scenario to a table of measurements. `json` is the scenario as written, `settings` what was set on the command line. */
export function calibrationOf(scenario: Scenario, json: unknown, settings: readonly string[], table: string, date: string | undefined): CalibrationOutcome {
  if (date === undefined || date.trim() === '')
    return {
      ok: false,
      issues: [{ path: '--date', expected: 'the day of the measurements, such as 2031-05-04', received: date === undefined ? 'nothing' : `"${date}"` }],
    };
  const read = readMeasurements(table, scenario);
  if (!read.ok) return read;
  const early = earlyIssues(scenario, read.measurements);
  if (early.length > 0) return { ok: false, issues: early };
  const set = applySettings(json, settings);
  if (!set.ok) return set;
  const calibration = calibrated(scenario, read.measurements);
  const warnings = [misfitDoubt(calibration), sieveWords(own(own(set.json, 'resin'), 'grade'), calibration)].filter((line) => line !== '');
  return { ok: true, calibration: { ...calibration, warnings, scenario: fittedJson(set.json, calibration, date) } };
}
