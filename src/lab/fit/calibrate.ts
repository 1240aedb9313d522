import { intended } from '../../../sim/column/index.ts';
import { FIELDS } from '../../../sim/terms/fields.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Status } from '../../../sim/terms/status.ts';
import { isBefore, loadedFrom } from './before-load.ts';
import { type Fit, fitted } from '../squares/least-squares.ts';
import type { FitProgress } from '../squares/problem.ts';
import { covarianceOf, NO_ANSWER } from '../squares/slopes.ts';
import type { Measurement } from './measurements.ts';
import { boundsOf, FITTED_PATHS, type FittedPath, parameterAt } from './parameters.ts';
import { predicted } from './predict.ts';

// Fits a scenario to what a lab measured.

export interface FittedParameter {
  readonly path: FittedPath;
  readonly unit: string;
  readonly status: Status;
  readonly before: number;
  readonly value: number;
  /** 95 %, from the measurements and what was known before; by profile, so it need not be even on both sides. */
  readonly interval: readonly [low: number, high: number];
  /** Width of what is known after over that before: 1 if nothing was learned. */
  readonly narrowed: number;
  /** The measurements hardly determine it, and speak for nothing else than the value from before. */
  readonly open: boolean;
}

export interface Residual extends Measurement {
  /** Value of the model; NaN where it has none, such as the edge of a band that has left. */
  readonly before: number;
  readonly after: number;
  /** (measured - model) over the deviation, after. */
  readonly residual: number;
}

export interface Calibration {
  readonly parameters: readonly FittedParameter[];
  /** In the order of `parameters`. */
  readonly correlations: readonly (readonly number[])[];
  readonly measurements: readonly Residual[];
  /** Readings taken before the sample was poured, flow tests among them, and what these alone determine. */
  readonly beforeLoad: { readonly readings: number; readonly determine: readonly FittedPath[] };
  readonly chiSquareBefore: number;
  readonly chiSquareAfter: number;
  readonly runs: number;
}

/** A parameter is left open if the readings made its interval narrower by less than a fifth and its value from before lies in it. A choice. */
const OPEN = 0.8;
/** Step of u for slopes; a smaller one would show the time steps of the model. Found by trial on the shipped lesson. */
const STEP = 0.1;

/** Fits the scenario to measurements of a run of its own procedure, on one lane for speed. `alive` is called within every run. */
export function calibrated(
  given: Scenario,
  measurements: readonly Measurement[],
  paths: readonly FittedPath[] = FITTED_PATHS,
  told?: (progress: FitProgress) => void,
  alive?: () => void,
): Calibration {
  const scenario = onOneLane(given);
  const bounds = paths.map((path) => boundsOf(scenario.values, path));
  const fit = fitted({
    model: (u) => predicted(withValues(scenario, paths, u), measurements, alive),
    measured: measurements.map(({ value }) => value),
    deviation: measurements.map(({ deviation }) => deviation),
    parameters: paths.length,
    bounds: { least: bounds.map(([least]) => least), most: bounds.map(([, most]) => most) },
    prior: true,
    step: STEP,
    ...(told && { told }),
  });
  return {
    parameters: paths.map((path, k) => parameterOf(scenario, path, fit, k)),
    correlations: fit.covariance.map((row, i) => row.map((c, k) => c / Math.sqrt(fit.covariance[i][i] * fit.covariance[k][k]))),
    measurements: measurements.map((one, i) => {
      const [before, after] = [answerOf(one, fit.before[i]), answerOf(one, fit.after[i])];
      return { ...one, before, after, residual: (one.value - after) / one.deviation };
    }),
    beforeLoad: toldBefore(scenario, measurements, paths, fit),
    chiSquareBefore: fit.chiSquareBefore,
    chiSquareAfter: fit.chiSquareAfter,
    runs: fit.evaluations,
  };
}

/** The scenario with each parameter moved by u of its prior widths. */
export function withValues(scenario: Scenario, paths: readonly FittedPath[], u: readonly number[]): Scenario {
  const moved = paths.map((path, k) => [path, parameterAt(scenario.values, path, u[k])]);
  return { ...scenario, values: { ...scenario.values, ...Object.fromEntries(moved) } };
}

/** The scenario as it was computed for the fit, with the numbers from before it or those it found. */
export function withFitted(scenario: Scenario, { parameters }: Calibration, which: 'before' | 'value'): Scenario {
  const { values, ...rest } = onOneLane(scenario);
  return { ...rest, values: { ...values, ...Object.fromEntries(parameters.map((one) => [one.path, one[which]])) } };
}

/** The column that was measured is the one that is written, not one drawn around it. */
function onOneLane(given: Scenario): Scenario {
  const scenario = intended(given);
  return { ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } };
}

function answerOf({ value, deviation }: Measurement, found: number): number {
  return Math.abs(found - value) < 0.5 * NO_ANSWER * deviation ? found : Number.NaN;
}

function toldBefore(scenario: Scenario, measurements: readonly Measurement[], paths: readonly FittedPath[], { slopes }: Fit): Calibration['beforeLoad'] {
  const loaded_mL = loadedFrom(scenario);
  const rows = measurements.flatMap((one, i) => (isBefore(one, loaded_mL) ? [i] : []));
  if (rows.length === 0) return { readings: 0, determine: [] };
  const alone = covarianceOf(
    rows.map((i) => slopes[i]),
    rows.map((i) => measurements[i].deviation),
    true,
  );
  return { readings: rows.length, determine: paths.filter((_, k) => Math.sqrt(alone[k][k]) <= OPEN) };
}

function parameterOf({ values }: Scenario, path: FittedPath, { u, covariance, ends }: Fit, k: number): FittedParameter {
  const [low, high] = ends[k];
  const width = Math.sqrt(covariance[k][k]);
  const { unit, status } = FIELDS[path];
  const before = values[path];
  const interval: FittedParameter['interval'] = [parameterAt(values, path, low), parameterAt(values, path, high)];
  return {
    path,
    unit,
    status,
    before,
    value: parameterAt(values, path, u[k]),
    interval,
    narrowed: width,
    open: width > OPEN && interval[0] <= before && before <= interval[1],
  };
}
