import { ION_IDS, IONS, type IonId } from '../terms/ions.ts';
import type { Amounts } from '../terms/types.ts';
import { type Balance, balanceOf, type Chemistry, type Component, COMPONENTS, type Totals } from './balance.ts';
import { NICKEL_UPTAKE_MIN } from './constants.ts';
import { exp } from '../math/elementary.ts';

// What a flask holds. Volumes are taken as additive and dissolved salts as without volume: 25 mL of water and 25 mL of
// acetone really make about 48 mL.

export interface Flask {
  readonly volume_mL: number;
  /** Part of the volume that is acetone. */
  readonly acetone_mL: number;
  readonly temperature_C: number;
  /** mmol; charges of Cl, Na, Ac, NH4, SCN, Y (brought as Na2H2Y) and metals balance with H+ and OH-. */
  readonly amounts: Totals;
  /** mmol of each metal present as hydroxide. */
  readonly solid: Readonly<Partial<Record<IonId, number>>>;
  /** min since EDTA first went in. */
  readonly edta_min: number;
}

/** Receiver of a column run: what came out of the tip. */
export type Receiver = Amounts & { readonly volume_mL: number; readonly label?: string };

/** A receiver of a run's results, where labels and amounts share one record. */
export function receiverOf(result: Readonly<Record<string, number | string>>): Receiver {
  const amount = (key: string) => (typeof result[key] === 'number' ? result[key] : 0);
  const ions = Object.fromEntries(ION_IDS.map((ion) => [`${ion}_mmol`, amount(`${ion}_mmol`)]));
  return { label: String(result.label ?? ''), volume_mL: amount('volume_mL'), HCl_mmol: amount('HCl_mmol'), ...ions };
}

/** A reagent as a liquid: mol/L of its components and its acetone share. */
export interface Reagent {
  readonly label: string;
  readonly molarity: Readonly<Partial<Record<Component, number>>>;
  readonly acetoneShare?: number;
}

/** A flask with what a receiver collected; the metals came as chlorides. */
export function flaskOf(receiver: Receiver, temperature_C: number): Flask {
  const amounts = emptyAmounts();
  amounts.Cl = receiver.HCl_mmol;
  for (const ion of ION_IDS) {
    amounts[ion] = receiver[`${ion}_mmol`] ?? 0;
    amounts.Cl += IONS[ion].charge * amounts[ion];
  }
  return { volume_mL: receiver.volume_mL, acetone_mL: 0, temperature_C, amounts, solid: {}, edta_min: 0 };
}

/** Flask after a volume of reagent at `reagent_C`, mixed, before any heat of reaction and before equilibrium. */
export function mixed(flask: Flask, reagent: Reagent, volume_mL: number, reagent_C: number): Flask {
  const total_mL = flask.volume_mL + volume_mL;
  return {
    ...withSolute(flask, reagent.molarity, volume_mL),
    volume_mL: total_mL,
    acetone_mL: flask.acetone_mL + volume_mL * (reagent.acetoneShare ?? 0),
    temperature_C: (flask.volume_mL * flask.temperature_C + volume_mL * reagent_C) / total_mL,
  };
}

/** Flask after `amount` times the given components: mL times mol/L, or mmol times a formula. */
export function withSolute(flask: Flask, formula: Reagent['molarity'], amount: number): Flask {
  const amounts = { ...flask.amounts };
  for (const component of COMPONENTS) amounts[component] += amount * (formula[component] ?? 0);
  return { ...flask, amounts };
}

/** Part of a well-shaken flask, and what stays behind. */
export function parted(flask: Flask, volume_mL: number): readonly [taken: Flask, left: Flask] {
  const share = volume_mL / flask.volume_mL;
  return [scaled(flask, share), scaled(flask, 1 - share)];
}

/** Flask at equilibrium, except that hydroxide already there only goes with time. */
export function balanceIn(flask: Flask, chemistry: Chemistry, pH?: number): Balance {
  return balanceOf(perVolume(flask.amounts, flask.volume_mL), chemistry, { ...circumstance(flask), held: perVolume(flask.solid, flask.volume_mL), pH });
}

/** Flask at full equilibrium: every lump has had time to dissolve. */
export function restingBalance(flask: Flask, chemistry: Chemistry): Balance {
  return balanceOf(perVolume(flask.amounts, flask.volume_mL), chemistry, circumstance(flask));
}

export function acetoneShare(flask: Flask): number {
  return flask.volume_mL > 0 ? flask.acetone_mL / flask.volume_mL : 0;
}

/** Share of the nickel that has taken up EDTA so far. */
export function nickelReacted(flask: Flask): number {
  return 1 - exp(-flask.edta_min / NICKEL_UPTAKE_MIN.value);
}

export function emptyAmounts(): Record<Component, number> {
  return Object.fromEntries(COMPONENTS.map((component) => [component, 0])) as Record<Component, number>;
}

function circumstance(flask: Flask) {
  const slow = (flask.amounts.Ni / flask.volume_mL) * (1 - nickelReacted(flask));
  return { acetoneShare: acetoneShare(flask), slow: { Ni: slow } };
}

function scaled(flask: Flask, share: number): Flask {
  return {
    ...flask,
    volume_mL: flask.volume_mL * share,
    acetone_mL: flask.acetone_mL * share,
    amounts: perVolume(flask.amounts, 1 / share),
    solid: perVolume(flask.solid, 1 / share),
  };
}

function perVolume<K extends string, T extends Readonly<Partial<Record<K, number>>>>(amounts: T, volume: number): T {
  return Object.fromEntries(Object.entries<number>(amounts as Record<string, number>).map(([key, value]) => [key, value / volume])) as T;
}
