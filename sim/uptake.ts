import { density, invasion, meanActivity, viscosity } from './acid.ts';
import { EXCHANGE_CONSTANTS, exchangeFractions } from './complexes.ts';
import { monotoneCubic } from './interpolation.ts';
import { type IonId, IONS } from './ions.ts';
import type { Parameters, Scenario } from './types.ts';

// Distribution coefficients D_v = (mol in the beads per L of bed) / (mol per L of solution) against HCl molarity.

/** What the curves depend on besides the acid. */
export interface Resin {
  /** Fixed charge, mol per L of resin solution. */
  readonly Q: number;
  /** L of resin solution per L of bed. */
  readonly pore: number;
  readonly kappa: number;
  /** Scale F of the recalled curves. */
  readonly F: number;
}

/** Points of the tables are equally spaced in the square root of the molarity, which follows D well near zero. */
export const TABLE_STEPS = 2048;
export const TABLE_TOP_M = 13;
/** The scale at which the exchange constants were fitted. */
const FITTED_F = 0.63;

export function resinFrom(values: Parameters): Resin {
  const pore = values['resin.pore_L_per_L'];
  return { Q: values['resin.capacity_eq_per_L'] / pore, pore, kappa: values['resin.invasion'], F: values['resin.curve_scale'] };
}

/** D_v of a trace, in two parts: co-ion uptake, and exchange, which the caller multiplies by (1 - theta)^z. */
export function curveParts(ion: IonId, c: number, resin: Resin): { coion: number; exchange: number } {
  if (c <= 0) return { coion: 0, exchange: 0 };
  const { logK, z, zM } = EXCHANGE_CONSTANTS[ion];
  const fractions = exchangeFractions(ion, meanActivity(c));
  const x = invasion(c, resin.Q, resin.kappa);
  let coion = 0;
  for (let n = 0; n <= zM; n++) coion += fractions[n] * (x / c) ** (zM - n);
  // F turns the recalled axis into D_v; it scales what the resin binds, not the Donnan share, which has no such axis.
  const exchange = logK === null ? 0 : 10 ** logK * fractions[4] * (1 + resin.Q / x) ** (z / 2) * (resin.F / FITTED_F);
  return { coion: resin.pore * coion, exchange };
}

/** D_v of a trace of an ion at HCl molarity `c`. */
export function distributionCoefficient(ion: IonId, c: number, resin: Resin): number {
  const { coion, exchange } = curveParts(ion, c, resin);
  return coion + exchange;
}

/** An ion's curve tabulated for the run; a scenario's own table replaces the built-in curve. */
export function uptakeTable(scenario: Scenario, ion: IonId): { coion: Float64Array; exchange: Float64Array } {
  const own = scenario.curves[ion];
  if (own) {
    const D = tabulated(ownCurve(own));
    const none = new Float64Array(TABLE_STEPS + 1);
    return IONS[ion].anionCharge > 0 ? { coion: none, exchange: D } : { coion: D, exchange: none };
  }
  const resin = resinFrom(scenario.values);
  return { coion: tabulated((c) => curveParts(ion, c, resin).coion), exchange: tabulated((c) => curveParts(ion, c, resin).exchange) };
}

/** Density (g/mL) and viscosity (mPa s) of HCl at 20 °C on the same grid. */
export function liquidTable(): { density: Float64Array; viscosity: Float64Array } {
  return { density: tabulated(density), viscosity: tabulated(viscosity) };
}

/** Below its first point a user's curve falls as c², so that water releases the ion; above its last it is held. */
export function ownCurve(points: readonly (readonly [number, number])[]): (c: number) => number {
  const [first, last] = [points[0], points[points.length - 1]];
  const between = monotoneCubic(points.map(([c]) => c), points.map(([, D]) => Math.log10(Math.max(D, 1e-9))));
  return (c) => (c <= first[0] ? first[1] * (first[0] > 0 ? (c / first[0]) ** 2 : 1) : c >= last[0] ? last[1] : 10 ** between(c));
}

function tabulated(f: (c: number) => number): Float64Array {
  return Float64Array.from({ length: TABLE_STEPS + 1 }, (_, i) => f((i / TABLE_STEPS) ** 2 * TABLE_TOP_M));
}
