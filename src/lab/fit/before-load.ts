import { isSample } from '../../../sim/history/index.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import type { Issue, Scenario } from '../../../sim/terms/types.ts';
import type { Measurement, Quantity } from './measurements.ts';

// When the sample is poured, told from the volumes of the procedure alone, and which readings cannot be right for that.

const OF_THE_BAND: readonly Quantity[] = ['leading', 'trailing', 'first colour', 'last colour'];
/** A cylinder is read to about this, mL. A choice. */
const READ_TO_ML = 0.5;

/**
 * Least volume that has been delivered when the sample is poured, mL: what stood above the bed and was poured before, less what may
 * then stand there. That is the height the procedure waits for, or else as much as the tube holds. 0 without a sample.
 */
export function loadedFrom({ values, procedure, liquids }: Scenario): number {
  const at = procedure.findIndex((action) => action.do === 'pour' && isSample(liquids[action.liquid]));
  if (at < 0) return 0;
  const before = procedure.slice(0, at);
  const poured_mL = before.reduce((sum, action) => sum + (action.do === 'pour' ? action.volume_mL : 0), 0);
  const last = before.at(-1);
  const above_mm = last?.do === 'wait' && 'liquid_mm' in last.until ? last.until.liquid_mm : 10 * (values['column.tube_cm'] - values['bed.length_cm']);
  return Math.max(0, poured_mL + (sectionOf(values) * (values['bench.start_head_mm'] - above_mm)) / 10);
}

export function isBefore({ at_mL }: Pick<Measurement, 'at_mL'>, loaded_mL: number): boolean {
  return at_mL < loaded_mL;
}

/** Readings of the band at a volume at which the procedure has not loaded anything: the model has no band there, so no fit can use them. */
export function earlyReadings(scenario: Scenario, measurements: readonly Measurement[]): readonly Measurement[] {
  const loaded_mL = loadedFrom(scenario);
  return measurements.filter((one) => OF_THE_BAND.includes(one.quantity) && isBefore(one, loaded_mL - READ_TO_ML));
}

/** The same as issues, one for each reading. */
export function earlyIssues(scenario: Scenario, measurements: readonly Measurement[]): Issue[] {
  const from_mL = loadedFrom(scenario).toFixed(0);
  return earlyReadings(scenario, measurements).map(({ row, column, at_mL }) => ({
    path: `row ${row}, ${column}`,
    expected: `a reading of the band after the sample, which this procedure pours at about ${from_mL} mL from the start of the run`,
    received: `one at ${at_mL} mL`,
  }));
}
