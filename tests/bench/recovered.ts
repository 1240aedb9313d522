import { intended } from '../../sim/column/index.ts';
import { normalStream } from '../../sim/math/random.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { calibrated, withValues } from '../../src/lab/fit/calibrate.ts';
import { type Measurement, readMeasurements } from '../../src/lab/fit/measurements.ts';
import { boundsOf, FITTED_PATHS, type FittedPath } from '../../src/lab/fit/parameters.ts';
import { predicted } from '../../src/lab/fit/predict.ts';
import { aligned } from './aims.ts';
import { wilson } from './wilson.ts';

// Does a calibration find a known column again? Columns are drawn from what is known beforehand, measured with the stated noise, and
// fitted; an interval of 95 % then holds the truth 95 times in 100, if the model were straight within it.

/** What a lab reads of one run with ruler, cylinder, watch and burette. The values only have to be readable: those of the column replace them. */
const READINGS = [
  'delivered_mL,from_mL,flow_mL_per_min,bed_cm,leading_cm,trailing_cm,first_colour_mL,Co_mmol,NaOH_mL',
  '5,,0.5,,,,,,',
  '12,,0.5,6.8,,,,,',
  '38,,0.5,,3,1,,,',
  '45,,0.5,,4,2,,,',
  '51,,0.5,,5,3,,,',
  '62,54,,,,,,0.1,2',
  ',,,,,,54,,',
].join('\n');
/** Keeps the draws of the column apart from those of the readings. */
const STREAM = 1_000_000;

/** One column: which intervals hold the truth, by the order of the paths, and which are left open. */
export interface Recovered {
  readonly seed: number;
  readonly held: readonly boolean[];
  readonly open: readonly boolean[];
}

/** Draws the column of a seed, measures and fits it. */
export function recovered(scenario: Scenario, seed: number, paths: readonly FittedPath[] = FITTED_PATHS): Recovered {
  const truth = drawnColumn(scenario, seed, paths);
  const { parameters } = calibrated(scenario, measuredOn(truth, seed), paths);
  return {
    seed,
    held: parameters.map(({ path, interval: [low, high] }) => low <= truth.values[path] && truth.values[path] <= high),
    open: parameters.map(({ open }) => open),
  };
}

/** Every parameter from its prior, on the column that is meant; what falls outside of its range or beyond four widths is drawn again. */
export function drawnColumn(scenario: Scenario, seed: number, paths: readonly FittedPath[]): Scenario {
  const normal = normalStream(STREAM + seed);
  const within = (path: FittedPath): number => {
    const [least, most] = boundsOf(scenario.values, path);
    for (;;) {
      const u = normal();
      if (u >= least && u <= most) return u;
    }
  };
  return withValues(intended(scenario), paths, paths.map(within));
}

/** The readings of a column with noise of their own deviation; an edge that is not there is not read. */
export function measuredOn(truth: Scenario, seed: number): Measurement[] {
  const table = readMeasurements(READINGS, truth);
  if (!table.ok) throw new Error(JSON.stringify(table.issues));
  const normal = normalStream(seed);
  const exact = predicted(truth, table.measurements);
  return table.measurements.map((one, i) => ({ ...one, value: exact[i] + one.deviation * normal() })).filter(({ value }) => Number.isFinite(value));
}

/** How many intervals hold the truth, a row a parameter and one for all. */
export function rateTable(found: readonly Recovered[], paths: readonly FittedPath[] = FITTED_PATHS): string {
  const rows = paths.map((path, k) =>
    rowOf(
      `\`${path}\``,
      found.map(({ held }) => held[k]),
      found.filter(({ open }) => open[k]).length,
    ),
  );
  const all = rowOf(
    'all',
    found.flatMap(({ held }) => held),
    undefined,
  );
  return aligned([['parameter', 'intervals', 'hold the truth', '95 % of a sample', 'left open'], ...rows, all]);
}

function rowOf(name: string, held: readonly boolean[], open: number | undefined): string[] {
  const hits = held.filter((one) => one).length;
  const [low, high] = wilson(hits, held.length).map((share) => (100 * share).toFixed(1));
  return [name, String(held.length), `${hits} (${((100 * hits) / held.length).toFixed(1)} %)`, `${low} to ${high} %`, String(open ?? '')];
}
