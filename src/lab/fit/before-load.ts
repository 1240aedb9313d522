import { isSample } from '../../../sim/history/index.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Measurement } from './measurements.ts';

// When the sample is poured, told from the volumes of the procedure alone.

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
