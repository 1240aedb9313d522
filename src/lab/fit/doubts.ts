import { DEFAULT_GRADE, isSieved, sieveOf } from '../../../sim/terms/grades.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { fixed, millilitres, significant } from '../../ui/text/format.ts';
import { earlyReadings, loadedFrom } from './before-load.ts';
import type { Calibration } from './calibrate.ts';
import type { Measurement } from './measurements.ts';

// What may be wrong with readings or with what was fitted to them, in sentences.

/** Readings of the band at a volume at which the procedure has not loaded anything; none if all is well. */
export function earlyWords(scenario: Scenario, measurements: readonly Measurement[]): readonly string[] {
  const loaded_mL = loadedFrom(scenario);
  return earlyReadings(scenario, measurements).map(
    ({ row, column, at_mL }) =>
      `Row ${row}, ${column}: a reading of the band at ${millilitres(at_mL)}, but this lab’s procedure pours the sample only after about ${fixed(loaded_mL, 0)} mL. Volumes are counted from the start of the run, conditioning included.`,
  );
}

/** Beyond so many standard deviations chance hardly explains a reading: 3 in 1000 lie there. A choice. */
const FAR = 3;

/** Readings that the fit leaves unexplained, or a misfit above their errors, and what to check; empty if neither. */
export function misfitDoubt({ measurements, chiSquareAfter }: Pick<Calibration, 'measurements' | 'chiSquareAfter'>): string {
  const away = ({ row, column, residual }: Calibration['measurements'][number]): string =>
    `row ${row}, ${column}, lies ${significant(Math.abs(residual), 2)} standard deviations off`;
  const told = measurements.filter(({ residual }) => Number.isFinite(residual)).sort((a, b) => Math.abs(b.residual) - Math.abs(a.residual));
  const far = told.filter(({ residual }) => Math.abs(residual) > FAR);
  const check = `check the reading${far.length > 1 ? 's' : ''}, and that the procedure of this lab is the one you ran`;
  if (far.length > 0) return `Not everything fits: ${far.map(away).join('; ')}: ${check}.`;
  if (told.length === 0 || told.length < measurements.length || chiSquareAfter <= measurements.length) return '';
  return `The readings lie farther from the model than their errors, which may be chance; the farthest, ${away(told[0])}: ${check}.`;
}

/** A fitted bead that the grade of the lab cannot have; empty if it can, or if the bead was left open. */
export function sieveWords(grade: unknown, { parameters }: Pick<Calibration, 'parameters'>): string {
  const name = grade ?? DEFAULT_GRADE;
  const sieve = sieveOf(name);
  const bead = parameters.find(({ path }) => path === 'bed.bead_um');
  if (!sieve || !bead || bead.open || isSieved(sieve, bead.value)) return '';
  return `The fitted bead diameter, ${significant(bead.value, 3)} µm, lies outside the wet sieve range of the grade that is set, ${String(name)}: ${sieve.wetLeast_um} to ${sieve.wetMost_um} µm. Check the grade, the bore and the flow readings.`;
}
