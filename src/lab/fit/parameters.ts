import { FIELDS } from '../../../sim/terms/fields.ts';
import type { FieldPath, Parameters } from '../../../sim/terms/types.ts';
import type { Status } from '../../../sim/terms/status.ts';

// Parameters that a run can determine, and how well each is known beforehand.

/** Standard deviation of ln(parameter) by the status of its number; choices of this project. */
const WIDTHS: Readonly<Record<Status, number>> = { read: 0.05, memory: 0.15, derived: 0.2, assumed: 0.4, choice: 0.3 };

/** Factor on that width: a porosity is known far better, a diffusion coefficient far worse than other numbers of its status. */
const FITTED = {
  'bed.bead_um': 1,
  'bed.porosity': 0.3,
  'resin.capacity_eq_per_L': 1,
  'resin.shrinkage': 1,
  'resin.curve_scale': 1,
  'resin.Ds_exchange_cm2_s': 3,
  'resin.invasion': 1,
  'column.tip_mL': 1,
} as const satisfies Partial<Record<FieldPath, number>>;

export type FittedPath = keyof typeof FITTED;

export const FITTED_PATHS = Object.keys(FITTED) as FittedPath[];

/** One standard deviation of ln(parameter) before anything is measured. */
export function priorWidth(path: FittedPath): number {
  return WIDTHS[FIELDS[path].status] * FITTED[path];
}

/** The parameter u prior widths away from its present value. */
export function parameterAt(values: Parameters, path: FittedPath, u: number): number {
  return values[path] * Math.exp(priorWidth(path) * u);
}

/** Bounds of u, so that a parameter stays within its range and within four widths. */
export function boundsOf(values: Parameters, path: FittedPath): readonly [least: number, most: number] {
  const { min, max } = FIELDS[path];
  const width = priorWidth(path);
  const u = (value: number): number => Math.log(value / values[path]) / width;
  return [Math.max(-FARTHEST, min > 0 ? u(min * INSIDE) : -FARTHEST), Math.min(FARTHEST, u(max / INSIDE))];
}

const FARTHEST = 4;
/** A little inside of the range: the slope needs room on both sides. */
const INSIDE = 1.02;
