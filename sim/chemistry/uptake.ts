import { density, invasion, meanActivity, viscosity } from './acid.ts';
import { exchangeConstant, exchangeFractions } from './complexes.ts';
import { innerChloride } from './loading.ts';
import { monotoneCubic } from '../math/interpolation.ts';
import { remembered } from '../math/remembered.ts';
import { type IonId, IONS } from '../terms/ions.ts';
import type { Parameters, Scenario } from '../terms/types.ts';
import { log10, pow10, power } from '../math/elementary.ts';
import { square } from '../math/square.ts';

// Distribution coefficients D_v = (mol in the beads per L of bed) / (mol per L of solution) against HCl molarity.

/** What the curves depend on besides the acid. */
export interface Resin {
  /** Fixed charge, mol per L of resin solution. */
  readonly Q: number;
  /** L of resin solution per L of bed. */
  readonly pore: number;
  /** Factor of the HCl that enters the beads. */
  readonly kappa: number;
  /** Scale of the recalled curves. */
  readonly F: number;
}

/** D_v of a trace in two parts. */
export interface Uptake {
  /** Cations that enter with the HCl; not limited by the capacity. */
  readonly coion: number;
  /** Anions exchanged for chloride, to be multiplied by `chlorideLeft` to the power z on a loaded bed. */
  readonly exchange: number;
}

/** The same against HCl molarity, on the grid of `tableIndex`. */
export interface UptakeTable {
  readonly coion: Float64Array;
  readonly exchange: Float64Array;
}

/** A user's curve: HCl mol/L, increasing, and D_v. */
type Points = readonly (readonly [acid: number, D: number])[];

/** Tables have this many steps, equal in the square root of the molarity: fine near water, where D falls by decades. */
export const TABLE_STEPS = 2048;
export const TABLE_TOP_M = 13;
const GRID_M = Array.from({ length: TABLE_STEPS + 1 }, (_, i) => square(i / TABLE_STEPS) * TABLE_TOP_M);

/** The scale, the invasion and the resin with which the exchange constants were fitted: 1.2 eq in 0.286 L of resin solution per L of bed. */
const FITTED_F = 0.63;
const FITTED_KAPPA = 1;
const FITTED_CAPACITY = 1.2;
const FITTED_Q = FITTED_CAPACITY / 0.286;
/** Less acid than this is water; far above where c² leaves the range of numbers. */
const WATER_M = 1e-9;
/** Acid so dilute that the parts of D_v stand in their final ratio. */
const DILUTE_M = 1e-6;
/** Tables of built-in curves that are kept for the next run, one for each ion and resin. */
const TABLES_KEPT = 24;
/** Keeps log10 D finite in a user's table with zeros; a D of 1e-6 moves no band. */
const FAINT_D = 1e-6;

export function resinFrom(values: Parameters): Resin {
  const pore = values['resin.pore_L_per_L'];
  return { Q: values['resin.capacity_eq_per_L'] / pore, pore, kappa: values['resin.invasion'], F: values['resin.curve_scale'] };
}

/**
 * D_v of a trace from the built-in curve. First part: Donnan uptake of cations, after Helfferich, Ion Exchange (1962), ch. 5
 * (recalled). Second part: exchange of MCl4 z- against z Cl-, with (1 + Q/x) the square of the chloride in the beads over that
 * outside.
 */
export function curveParts(ion: IonId, c: number, resin: Resin): Uptake {
  if (c < WATER_M) return { coion: 0, exchange: 0 };
  return partsAt(ion, c, exchangeFractions(ion, meanActivity(c)), resin);
}

/** D_v of a trace from the built-in curve at HCl molarity `c`. */
export function distributionCoefficient(ion: IonId, c: number, resin: Resin): number {
  const { coion, exchange } = curveParts(ion, c, resin);
  return coion + exchange;
}

/** The curve an ion has in a scenario: the scenario's own table, in place of the built-in curve, if there is one. */
export function uptakeCurve(scenario: Scenario, ion: IonId): (c: number) => Uptake {
  const points = scenario.curves[ion];
  if (points) {
    const D = ownCurve(points);
    return IONS[ion].anionCharge > 0 ? (c) => ({ coion: 0, exchange: D(c) }) : (c) => ({ coion: D(c), exchange: 0 });
  }
  const resin = resinFrom(scenario.values);
  return (c) => curveParts(ion, c, resin);
}

/** The same, tabulated for the run. Built-in curves are shared between runs: nobody may write into them. */
export function uptakeTable(scenario: Scenario, ion: IonId): UptakeTable {
  return scenario.curves[ion] ? tabulated(uptakeCurve(scenario, ion)) : builtIn(ion, resinFrom(scenario.values));
}

/** `complexShare` on the grid; shared between runs as well. */
export function shareTable(ion: IonId, resin: Resin): Float64Array {
  return builtIn(ion, resin).share;
}

const builtIn = remembered(TABLES_KEPT, (ion: IonId, { Q, pore, kappa, F }: Resin) => `${ion} ${Q} ${pore} ${kappa} ${F}`, builtInTable);

function builtInTable(ion: IonId, resin: Resin): UptakeTable & { readonly share: Float64Array } {
  const table = tabulated((c) => curveParts(ion, c, resin));
  const { coion, exchange } = table;
  return { ...table, share: exchange.map((part, i) => (GRID_M[i] > DILUTE_M ? part / (coion[i] + part) : complexShare(ion, GRID_M[i], resin))) };
}

function tabulated(curve: (c: number) => Uptake): UptakeTable {
  const parts = GRID_M.map(curve);
  return { coion: Float64Array.from(parts, ({ coion }) => coion), exchange: Float64Array.from(parts, ({ exchange }) => exchange) };
}

/**
 * Share of the sorbed metal that is there as the exchanged anion, the rest being free cations beside the HCl; from the built-in
 * curve, of a trace. In water its limit: both parts vanish alike.
 */
export function complexShare(ion: IonId, c: number, resin: Resin): number {
  const { coion, exchange } = curveParts(ion, Math.max(c, DILUTE_M), resin);
  return exchange / (coion + exchange);
}

/** Density (g/mL) and viscosity (mPa s) of HCl at 20 °C on the same grid. Shared between runs: nobody may write into them. */
export function liquidTable(): { density: Float64Array; viscosity: Float64Array } {
  return liquids();
}

const liquids = remembered(
  1,
  () => '',
  () => ({ density: Float64Array.from(GRID_M, density), viscosity: Float64Array.from(GRID_M, viscosity) }),
);

/** Place of a molarity in a table: the whole part is the entry below it, the rest the share of the way to the next. */
export function tableIndex(c: number): number {
  return Math.min(Math.sqrt(Math.max(0, c) / TABLE_TOP_M), 1) * TABLE_STEPS;
}

/** Value of a table at a molarity, linear between its entries. */
export function tableValue(table: Float64Array, c: number): number {
  const x = tableIndex(c);
  const i = x < TABLE_STEPS ? Math.floor(x) : TABLE_STEPS - 1;
  return table[i] + (x - i) * (table[i + 1] - table[i]);
}

/**
 * Through a user's points: monotone in log10 D against log10 c, where the power laws of weak acid are straight; on the built-in
 * curves sampled at eight molarities from 0.1 up this errs 3 to 17 times less than against c (computed). Below the first point D
 * falls as c², as the built-in curves of all 2+ ions do near water, so that water releases the ion; above the last it is held.
 */
export function ownCurve(points: Points): (c: number) => number {
  const inWater = points.find(([acid]) => acid === 0)?.[1] ?? 0;
  const inAcid = points.filter(([acid]) => acid > 0);
  if (inAcid.length === 0) return () => inWater;
  const [first, firstD] = inAcid[0];
  const logs = monotoneCubic(
    inAcid.map(([acid]) => log10(acid)),
    inAcid.map(([, D]) => log10(D + FAINT_D)),
  );
  return (c) => (c < first ? inWater + (firstD - inWater) * square(c / first) : Math.max(0, pow10(logs(log10(c))) - FAINT_D));
}

function partsAt(ion: IonId, c: number, fractions: readonly number[], resin: Resin): Uptake {
  const K = exchangeConstant(ion);
  const { charge, anionCharge } = IONS[ion];
  const inside = invasion(c, resin.Q, resin.kappa) / c;
  let coion = 0;
  for (let n = 0; n <= charge; n++) coion += fractions[n] * power(inside, charge - n);
  if (K === 0) return { coion: resin.pore * coion, exchange: 0 };
  // F turns the recalled axis into D_v. It scales what the resin binds; the Donnan share has no such axis.
  const fitted = K * fractions[4] * power(innerChloride(c, FITTED_Q, FITTED_KAPPA) / c, anionCharge) * (resin.F / FITTED_F);
  return { coion: resin.pore * coion, exchange: fitted * power(strength(c, resin), anionCharge) * sites(resin) };
}

/** Exchange sites over those of the resin of the curves. The anions are held by the sites, so uptake goes with their number (assumed). */
function sites(resin: Resin): number {
  return (resin.Q * resin.pore) / FITTED_CAPACITY;
}

/**
 * Chloride in the beads over that in the resin of the curves, at the same kappa: the recalled curves fix the exchange of that
 * resin, so that another kappa is for the HCl, the co-ions and the load.
 */
function strength(c: number, resin: Resin): number {
  return innerChloride(c, resin.Q, resin.kappa) / innerChloride(c, FITTED_Q, resin.kappa);
}
