import { ION_IDS, IONS, type IonId } from '../terms/ions.ts';
import type { Balance, Chemistry } from './balance.ts';
import { ACID_DILUTION, HEAT_CAPACITY } from './constants.ts';
import { balanceIn, type Flask, mixed, type Reagent, restingBalance, withSolute } from './flask.ts';
import { exp, pow10 } from '../math/elementary.ts';
import { square } from '../math/square.ts';

// What happens in a flask when something is added and while time passes: heat, lumps of hydroxide, cooling.

/** Surroundings of a flask. */
export interface Surroundings {
  readonly chemistry: Chemistry;
  readonly room_C: number;
  /** kJ per mole of water formed. */
  readonly neutralisation: number;
  /** Rate of adding liquids, mL/min. */
  readonly pour: number;
}

/** A drop of alkali first meets this many times its own volume; assumed, of the order of what a drop falling into a swirled flask stirs. */
const LOCAL_VOLUMES = 10;
/** mol/L of alkali at which half of what is not met by acid makes lumps, the rest a fine cloud that goes at once; assumed. */
const LUMP_M = 10;
/** Steps in which an addition is followed. */
const PORTIONS = 40;
/** min for lumps to dissolve to 37 %, swirled and standing; assumed. */
const REDISSOLVE_MIN = { swirled: 0.5, standing: 5 };
/** mmol of hydroxide that nobody sees or titrates. */
const SOLID_MIN = 1e-9;
/** min of swirling until a gram of salt is dissolved; common practice. */
const DISSOLVING_MIN = 0.5;
/** min for a 100 mL flask to lose 63 % of its excess temperature on the bench and in ice; assumed. */
const COOLING_MIN = { bench: 15, ice: 3 };

/** Flask after a reagent was run in, swirled, with its heat, its lumps and the minutes it took. */
export function added(flask: Flask, reagent: Reagent, volume_mL: number, around: Surroundings): Flask {
  const before = balanceIn(flask, around.chemistry);
  const lumps = lumpsFrom(flask, before, reagent, volume_mL, around.chemistry);
  const wet = mixed(flask, reagent, volume_mL, around.room_C);
  const starting = { ...wet, solid: sum(wet.solid, lumps) };
  const settled = settle(starting, around.chemistry);
  const now = balanceIn(settled, around.chemistry);
  const heat = heatOf(before, flask.volume_mL, now, settled.volume_mL, alkaliIn(reagent) * volume_mL, around.neutralisation);
  const temperature_C = settled.temperature_C + heat / (HEAT_CAPACITY.value * settled.volume_mL);
  return passed({ ...settled, temperature_C }, volume_mL / around.pour, around, 'swirled');
}

/** Flask after a solid was dissolved in it, taking up `heat` kJ/mol; half a minute of swirling. */
export function dissolved(flask: Flask, formula: Reagent['molarity'], mmol: number, heat: number, around: Surroundings): Flask {
  const wet = withSolute(flask, formula, mmol);
  const temperature_C = flask.temperature_C - (heat * mmol) / (HEAT_CAPACITY.value * flask.volume_mL);
  return passed({ ...wet, temperature_C }, DISSOLVING_MIN, around, 'swirled');
}

/** Flask some minutes later: lumps dissolve, warmth goes, nickel takes up EDTA. */
export function passed(flask: Flask, minutes: number, around: Surroundings, how: 'swirled' | 'standing' | 'ice'): Flask {
  const resting = restingBalance(flask, around.chemistry);
  const keep = exp(-minutes / (how === 'swirled' ? REDISSOLVE_MIN.swirled : REDISSOLVE_MIN.standing));
  const solid = Object.fromEntries(
    Object.entries(flask.solid).map(([ion, held]) => {
      const rest = resting.metals[ion as IonId].solid * flask.volume_mL;
      return [ion, held > rest ? rest + (held - rest) * keep : held];
    }),
  );
  const cooling = exp(-minutes / (how === 'ice' ? COOLING_MIN.ice : COOLING_MIN.bench));
  return settle(
    {
      ...flask,
      solid,
      temperature_C: around.room_C + (flask.temperature_C - around.room_C) * cooling,
      edta_min: flask.amounts.Y > 0 ? flask.edta_min + minutes : 0,
    },
    around.chemistry,
  );
}

/** What is beyond solubility falls out at once. */
function settle(flask: Flask, chemistry: Chemistry): Flask {
  const { metals } = balanceIn(flask, chemistry);
  const solid = Object.fromEntries(
    ION_IDS.filter((ion) => metals[ion].solid * flask.volume_mL > SOLID_MIN).map((ion) => [ion, metals[ion].solid * flask.volume_mL]),
  );
  return { ...flask, solid };
}

/**
 * mmol of hydroxide left as lumps where the stream of alkali went in: a share, larger for stronger alkali, of what it brings
 * beyond the acid of the liquid around it. Nothing while that acid outweighs the drop.
 */
function lumpsFrom(flask: Flask, before: Balance, reagent: Reagent, volume_mL: number, chemistry: Chemistry): Partial<Record<IonId, number>> {
  const lumps: Partial<Record<IonId, number>> = {};
  const alkali = alkaliIn(reagent);
  if (alkali === 0) return lumps;
  const portion = volume_mL / PORTIONS;
  let acid = acidIn(flask, before, chemistry);
  const metal = (ion: IonId) => before.metals[ion].dissolved * flask.volume_mL - (lumps[ion] ?? 0);
  for (let i = 0; i < PORTIONS; i++) {
    const around = flask.volume_mL + i * portion;
    const met = Math.min(1, (LOCAL_VOLUMES * portion) / around);
    let excess = (alkali * portion - met * Math.max(0, acid)) * (alkali / (alkali + LUMP_M));
    acid -= alkali * portion;
    for (const ion of ION_IDS) {
      const taken = Math.min(Math.max(0, excess / IONS[ion].charge), Math.max(0, metal(ion)));
      if (taken <= 0) continue;
      lumps[ion] = (lumps[ion] ?? 0) + taken;
      excess -= taken * IONS[ion].charge;
    }
  }
  return lumps;
}

/** mmol of acid that alkali meets at once: H+ and undissociated acetic acid. */
function acidIn(flask: Flask, balance: Balance, { pKaAcetic }: Chemistry): number {
  return balance.hydrogen * flask.volume_mL + flask.amounts.Ac / (1 + pow10(balance.pH - pKaAcetic));
}

/** J set free: water formed from `alkali` mmol and what hydroxide there was, and strong acid made weaker. */
function heatOf(before: Balance, volume_mL: number, now: Balance, nowVolume_mL: number, alkali: number, neutralisation: number): number {
  const water = alkali + hydroxideIn(before, volume_mL) - hydroxideIn(now, nowVolume_mL);
  const diluted = ACID_DILUTION.value * (square(before.hydrogen) * volume_mL - square(now.hydrogen) * nowVolume_mL);
  return neutralisation * water + Math.max(0, diluted);
}

/** mol/L of strong alkali in a reagent; acetate and EDTA carry their own sodium. */
function alkaliIn({ molarity }: Reagent): number {
  return Math.max(0, (molarity.Na ?? 0) - (molarity.Ac ?? 0) - 2 * (molarity.Y ?? 0));
}

/** mmol of OH-, dissolved and in solids. */
function hydroxideIn(balance: Balance, volume_mL: number): number {
  return ION_IDS.reduce((total, ion) => total + IONS[ion].charge * balance.metals[ion].solid, balance.hydroxide) * volume_mL;
}

function sum(a: Flask['solid'], b: Flask['solid']): Partial<Record<IonId, number>> {
  return Object.fromEntries(ION_IDS.filter((ion) => a[ion] || b[ion]).map((ion) => [ion, (a[ion] ?? 0) + (b[ion] ?? 0)]));
}
