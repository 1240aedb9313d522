import { ION_IDS, IONS, type IonId } from '../terms/ions.ts';
import { type Balance, balanceOf, type Chemistry, type Totals } from './balance.ts';
import { acetoneShare, balanceIn, type Flask, mixed, nickelReacted, type Reagent } from './flask.ts';
import { blueAbsorbance } from './indicator.ts';
import { rootOf } from '../math/root.ts';
import { ln, log10 } from '../math/elementary.ts';

// A flask under the burette: cobalt, pH and blue against titrant, the end point as an eye sees it, and equivalence.

export interface Titration {
  readonly EDTA_M: number;
  /** Absorbance below which the eye sees no blue. */
  readonly threshold_A: number;
  readonly path_cm: number;
  /** Rate of adding titrant, mL/min. */
  readonly pour: number;
  readonly chemistry: Chemistry;
}

export interface TitrationPoint {
  readonly mL: number;
  readonly pH: number;
  /** -log10 of cobalt that EDTA does not hold, mol/L; solid not counted. */
  readonly pCo: number;
  readonly absorbance: number;
  /** Share of the cobalt on EDTA. */
  readonly titrated: number;
  readonly acetoneShare: number;
}

/** What is wished away to see what one cause does; an empty object is the real flask. */
export interface Ideal {
  readonly pH?: number;
  readonly acetoneShare?: number;
  /** All cobalt without EDTA is blue. */
  readonly allBlue?: boolean;
  readonly without?: readonly IonId[];
  readonly noSolid?: boolean;
}

export function edtaOf(EDTA_M: number): Reagent {
  return { label: 'EDTA', molarity: { Na: 2 * EDTA_M, Y: EDTA_M } };
}

/** Curve from nothing to `last_mL` of titrant, `count` points, evenly spaced. */
export function titrationCurve(flask: Flask, titration: Titration, last_mL: number, count: number): TitrationPoint[] {
  return Array.from({ length: count }, (_, i) => titrationPoint(flask, titration, (last_mL * i) / (count - 1)));
}

export function titrationPoint(flask: Flask, titration: Titration, mL: number): TitrationPoint {
  const wet = titrated(flask, titration, mL);
  const balance = titratedBalance(wet, titration, {});
  const cobalt = wet.amounts.Co / wet.volume_mL;
  return {
    mL,
    pH: balance.pH,
    pCo: -log10(balance.metals.Co.dissolved),
    absorbance: blueAbsorbance(balance.blue, titration.path_cm),
    titrated: cobalt > 0 ? balance.metals.Co.edta / cobalt : 0,
    acetoneShare: acetoneShare(wet),
  };
}

/** mL of titrant at which the last blue goes for the eye; 0 if none is there, `limit_mL` if it outlasts that. */
export function endPoint(flask: Flask, titration: Titration, ideal: Ideal = {}, limit_mL = 200): number {
  const seen = (mL: number) => ln(Math.max(1e-300, absorbanceAt(flask, titration, mL, ideal)) / titration.threshold_A);
  if (seen(0) <= 0) return 0;
  if (seen(limit_mL) > 0) return limit_mL;
  return rootOf(seen, 0, limit_mL, 1e-9);
}

/** mL of titrant that holds as much EDTA as the flask holds cobalt. */
export function equivalence(flask: Flask, EDTA_M: number): number {
  return flask.amounts.Co / EDTA_M;
}

function absorbanceAt(flask: Flask, titration: Titration, mL: number, ideal: Ideal): number {
  const balance = titratedBalance(titrated(flask, titration, mL), titration, ideal);
  return blueAbsorbance(ideal.allBlue ? balance.metals.Co.dissolved : balance.blue, titration.path_cm);
}

/** Flask after titrant, with the time that took; nothing else has happened yet. */
function titrated(flask: Flask, titration: Titration, mL: number): Flask {
  const wet = mixed(flask, edtaOf(titration.EDTA_M), mL, flask.temperature_C);
  return { ...wet, edta_min: flask.edta_min + mL / titration.pour };
}

function titratedBalance(wet: Flask, { chemistry }: Titration, ideal: Ideal): Balance {
  if (!ideal.without && !ideal.noSolid && ideal.acetoneShare === undefined) return balanceIn(wet, chemistry, ideal.pH);
  const totals = totalsWithout(wet, ideal.without ?? []);
  const held = Object.fromEntries(ION_IDS.map((ion) => [ion, ideal.noSolid ? 0 : (wet.solid[ion] ?? 0) / wet.volume_mL]));
  const slow = { Ni: (1 - nickelReacted(wet)) * totals.Ni };
  return balanceOf(totals, chemistry, { acetoneShare: ideal.acetoneShare ?? acetoneShare(wet), held, slow, pH: ideal.pH });
}

/** mol/L of everything but some metals and the chloride that came with them. */
function totalsWithout(flask: Flask, without: readonly IonId[]): Totals {
  const totals = Object.fromEntries(Object.entries(flask.amounts).map(([key, mmol]) => [key, mmol / flask.volume_mL])) as Record<keyof Totals, number>;
  for (const ion of without) {
    totals.Cl -= IONS[ion].charge * totals[ion];
    totals[ion] = 0;
  }
  return totals;
}
