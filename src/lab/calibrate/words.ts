import { capital } from '../../../sim/terms/capital.ts';
import { FIELDS } from '../../../sim/terms/fields.ts';
import { significant, withUnit } from '../../ui/text/format.ts';
import type { Calibration, FittedParameter } from '../fit/calibrate.ts';

// What a fit says, in sentences.

/** Beyond this two numbers can hardly be told apart. A choice. */
const TIED = 0.8;
/** If the readings lie further from the model than this many standard deviations, the model does not describe them. Common practice, no source. */
const POOR = 2;

export function misfitWords({
  chiSquareBefore,
  chiSquareAfter,
  measurements,
}: Pick<Calibration, 'chiSquareBefore' | 'chiSquareAfter' | 'measurements'>): string {
  const [before, after] = [chiSquareBefore, chiSquareAfter].map((sum) => Math.sqrt(sum / measurements.length));
  const silent = measurements.filter((one) => Number.isNaN(one.after));
  if (silent.length > 0)
    return `The model gives no value for ${silent.map(({ row, column }) => `row ${row}, ${column}`).join('; ')}: in its run there is no such edge or colour. Check the volume and the value, and whether the run followed this lab’s procedure.`;
  const told = measurements.some((one) => Number.isNaN(one.before))
    ? `After the fit the readings lie ${deviations(after)} from the model (root mean square); before the fit the model gave no value for some of them.`
    : `After the fit the readings lie ${deviations(after)} from the model (root mean square); before it, they lay ${significant(before, 2)} away.`;
  return after > POOR
    ? `${told} That is more than the errors of ruler, cylinder and watch explain. Look for a slip in the table, or for a procedure, bottle or resin that differs from this lab’s.`
    : told;
}

/** Which numbers the readings hardly determine. */
export function openWords({ parameters }: Pick<Calibration, 'parameters'>): string {
  const open = parameters.filter((one) => one.open);
  if (open.length === 0) return 'The readings tell something about every number.';
  const all = open.length === parameters.length;
  const names = listed(open.map(({ path }) => FIELDS[path].label));
  return all
    ? 'The readings leave every number open: they are too few, or of the wrong kind. Nothing is changed.'
    : `The readings leave open: ${names}. ${open.length === 1 ? 'Its interval is' : 'Their intervals are'} nearly as wide as before; ${open.length === 1 ? 'its value only goes' : 'their values only go'} along with the others, so that the lab gives back these readings.`;
}

/** What the readings before the sample were good for; nothing if there are none. */
export function beforeLoadWords({ beforeLoad: { readings, determine }, ...fit }: Pick<Calibration, 'beforeLoad' | 'parameters' | 'correlations'>): string {
  if (readings === 0) return '';
  const of = readings === 1 ? 'One reading was' : `${readings} readings were`;
  const names = determine.length === 0 ? 'no number by itself' : listed(determine.map((path) => `${FIELDS[path].label}${togetherWith(fit, path)}`));
  return `${of} taken before the sample was poured, when there is no band yet: flow and bed alone determine ${names}.`;
}

/** The numbers that this one cannot be told apart from, where there are some. */
function togetherWith({ parameters, correlations }: Pick<Calibration, 'parameters' | 'correlations'>, path: FittedParameter['path']): string {
  const at = parameters.findIndex((one) => one.path === path);
  const ties = parameters.filter((_, i) => i !== at && Math.abs(correlations[at]?.[i] ?? 0) >= TIED);
  return ties.length === 0 ? '' : ` (only together with ${listed(ties.map(label))})`;
}

/** Pairs that the readings determine only together; where both are left open, that is told already. */
export function tiedWords({ parameters, correlations }: Pick<Calibration, 'parameters' | 'correlations'>): string {
  const pairs = parameters.flatMap((one, i) => parameters.slice(i + 1).map((other, k) => ({ one, other, r: correlations[i][i + 1 + k] })));
  const tied = pairs.filter(({ one, other, r }) => Math.abs(r) >= TIED && !(one.open && other.open));
  return tied
    .map(
      ({ one, other, r }) =>
        `${capital(label(one))} and ${label(other)} can only be determined together: ${r > 0 ? 'a larger value of both' : 'a larger value of one with a smaller value of the other'} fits nearly as well.`,
    )
    .join(' ');
}

/** The parameter with the strongest correlation to this one, with the correlation. */
export function strongestTie({ parameters, correlations }: Pick<Calibration, 'parameters' | 'correlations'>, at: number): string {
  const others = parameters.map((one, i) => ({ one, r: correlations[at][i] })).filter((_, i) => i !== at);
  const [first] = others.sort((a, b) => Math.abs(b.r) - Math.abs(a.r));
  return first ? `${significant(first.r, 2)} with ${label(first.one)}` : '';
}

export function intervalWords({ interval: [low, high], unit }: FittedParameter): string {
  return withUnit(`${significant(low, 3)} to ${significant(high, 3)}`, unit);
}

function label({ path }: FittedParameter): string {
  return FIELDS[path].label;
}

function deviations(count: number): string {
  return `${significant(count, 2)} standard deviations`;
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}
