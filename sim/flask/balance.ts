import { ION_IDS, IONS, type IonId } from '../terms/ions.ts';
import { EDTA_SETS, type EdtaSet, KSP, KSP_COBALT, PKA_ACETIC, PKA_AMMONIUM, PKW } from './constants.ts';
import { protonationAt } from './edta.ts';
import { cobaltForms } from './indicator.ts';
import { rootOf } from '../math/root.ts';
import { asinh, ln, log10, pow10, power } from '../math/elementary.ts';

// Charge balance of a flask: strong acid and alkali, acetic acid, ammonium, thiocyanate, metal hydroxides and EDTA.
// For given totals the charge falls as pH rises, so there is one root; the free EDTA at each pH is one root as well.

/** What is counted in a flask: ions that stay as they are, totals of acetic acid, ammonium and EDTA, and the metals. */
export type Component = 'Cl' | 'Na' | 'Ac' | 'NH4' | 'SCN' | 'Y' | IonId;

export const COMPONENTS: readonly Component[] = ['Cl', 'Na', 'Ac', 'NH4', 'SCN', 'Y', ...ION_IDS];

/** mol/L of every component. */
export type Totals = Readonly<Record<Component, number>>;

/** Constants that may differ from one bench to another. */
export interface Chemistry {
  readonly pKw: number;
  readonly pKaAcetic: number;
  readonly pKaAmmonium: number;
  readonly edta: EdtaSet;
  readonly Ksp: Readonly<Record<IonId, number>>;
}

export const CHEMISTRY: Chemistry = {
  pKw: PKW.value,
  pKaAcetic: PKA_ACETIC.value,
  pKaAmmonium: PKA_AMMONIUM.value,
  edta: EDTA_SETS.warm,
  Ksp: KSP,
};

export interface Circumstance {
  readonly acetoneShare?: number;
  /** mol/L of each metal shut up in lumps of hydroxide. */
  readonly held?: Readonly<Partial<Record<IonId, number>>>;
  /** mol/L of each metal that has not taken up EDTA yet, however much there is. */
  readonly slow?: Readonly<Partial<Record<IonId, number>>>;
  /** Fixes the pH instead of solving for it. */
  readonly pH?: number;
}

/** mol/L of one metal in its forms; they add up to its total. */
export interface MetalForms {
  /** Dissolved without EDTA, thiocyanate complexes included. */
  readonly dissolved: number;
  /** The aquo ion alone. */
  readonly aquo: number;
  readonly edta: number;
  readonly solid: number;
}

export interface Balance {
  readonly pH: number;
  readonly metals: Readonly<Record<IonId, MetalForms>>;
  /** mol/L of [Co(NCS)4]2-. */
  readonly blue: number;
  /** mol/L of EDTA on no metal. */
  readonly freeEdta: number;
  /** mol/L of H+ and of OH-. */
  readonly hydrogen: number;
  readonly hydroxide: number;
}

/** Widest pH met: 12 mol/L acid or alkali is inside. */
const PH_RANGE = [-1.5, 15.5] as const;
/** mol/L of EDTA that counts as none. */
const TRACE = 1e-25;
/** Charge (mol/L) below which the root search sees a straight line; far above rounding, far below what moves a pH. */
const CHARGE_SCALE = 1e-8;

export function balanceOf(totals: Totals, chemistry: Chemistry = CHEMISTRY, circumstance: Circumstance = {}): Balance {
  const cobalt = cobaltForms(totals.SCN, circumstance.acetoneShare ?? 0);
  const present = metalsIn(totals, chemistry, circumstance, cobalt.sideReaction);
  const pH = circumstance.pH ?? rootOf((x) => asinh(chargeAt(x, present, totals, chemistry) / CHARGE_SCALE), ...PH_RANGE);
  const medium = mediumAt(pH, present, totals, chemistry);
  const metals = Object.fromEntries(ION_IDS.map((ion) => [ion, NONE])) as Record<IonId, MetalForms>;
  for (const metal of present) metals[metal.ion] = formsOf(metal, medium);
  const { y, alpha, hydrogen, hydroxide } = medium;
  return { pH, metals, freeEdta: y / alpha, hydrogen, hydroxide, blue: metals.Co.dissolved * cobalt.blueShare };
}

/** Onset of cobalt hydroxide by the lowest and the highest Ksp in use: a band, for tables differ by a factor of 24. */
export function cobaltOnset(molarity: number): readonly [low: number, high: number] {
  return [onsetPH('Co', molarity, KSP_COBALT.low.value), onsetPH('Co', molarity, KSP_COBALT.high.value)];
}

/** pH at which a hydroxide first forms from a molarity of its dissolved ion: pKw + log10(Ksp / [M]) / z. */
export function onsetPH(ion: IonId, molarity: number, Ksp: number = KSP[ion], pKw: number = PKW.value): number {
  return pKw + log10(Ksp / molarity) / IONS[ion].charge;
}

const NONE: MetalForms = { dissolved: 0, aquo: 0, edta: 0, solid: 0 };

/** A metal that is there. `side` is all dissolved forms without EDTA over the aquo ion. */
interface Metal {
  readonly ion: IonId;
  readonly charge: number;
  readonly free: number;
  readonly slow: number;
  readonly held: number;
  readonly side: number;
  readonly K: number;
  readonly Ksp: number;
}

/** What all metals of a flask meet at one pH. */
interface Medium {
  readonly hydrogen: number;
  readonly hydroxide: number;
  readonly alpha: number;
  readonly protons: number;
  /** mol/L of Y4-. */
  readonly y: number;
}

function metalsIn(totals: Totals, { edta, Ksp }: Chemistry, { held, slow }: Circumstance, cobaltSide: number): Metal[] {
  return ION_IDS.filter((ion) => totals[ion] > 0).map((ion) => {
    const shut = Math.min(held?.[ion] ?? 0, totals[ion]);
    const waiting = totals.Y >= TRACE ? Math.min(slow?.[ion] ?? 0, totals[ion] - shut) : 0;
    const free = totals[ion] - shut - waiting;
    return { ion, charge: IONS[ion].charge, free, slow: waiting, held: shut, side: ion === 'Co' ? cobaltSide : 1, K: pow10(edta.logK[ion]), Ksp: Ksp[ion] };
  });
}

function mediumAt(pH: number, present: readonly Metal[], totals: Totals, chemistry: Chemistry): Medium {
  const hydrogen = pow10(-pH);
  const hydroxide = pow10(pH - chemistry.pKw);
  if (totals.Y < TRACE) return { hydrogen, hydroxide, alpha: 1, protons: 0, y: 0 };
  const { alpha, protons } = protonationAt(pH, chemistry.edta);
  const excess = (logY: number) => {
    const y = pow10(logY);
    let edta = y / alpha;
    for (const metal of present) edta += aquoOf(metal, y, hydroxide) * metal.K * y;
    return ln(edta / totals.Y);
  };
  const pull = present.reduce((sum, { free, side, K }) => sum + (K * free) / side, 1 / alpha);
  const y = pow10(rootOf(excess, log10(totals.Y / pull) - 1e-9, log10(totals.Y * alpha) + 1e-9));
  return { hydrogen, hydroxide, alpha, protons, y };
}

/** mol/L of the aquo ion: shared with EDTA and side reactions, or what the hydroxide lets dissolve. */
function aquoOf({ free, side, K, Ksp, charge }: Metal, y: number, hydroxide: number): number {
  return Math.min(free / (side + K * y), Ksp / power(hydroxide, charge));
}

function formsOf(metal: Metal, { y, hydroxide }: Medium): MetalForms {
  const { free, slow, held, side, K } = metal;
  const aquo = aquoOf(metal, y, hydroxide);
  const solid = Math.max(0, free - aquo * (side + K * y));
  return { dissolved: aquo * side + slow, aquo: aquo + slow / side, edta: aquo * K * y, solid: held + solid };
}

/** Net charge, mol/L. Complexes of ions carry the sum of their charges, so dissolved totals are enough; a solid carries none. */
function chargeAt(pH: number, present: readonly Metal[], totals: Totals, chemistry: Chemistry): number {
  const { hydrogen, hydroxide, alpha, protons, y } = mediumAt(pH, present, totals, chemistry);
  const acetate = totals.Ac / (1 + pow10(chemistry.pKaAcetic - pH));
  const ammonium = totals.NH4 / (1 + pow10(pH - chemistry.pKaAmmonium));
  let charge = hydrogen - hydroxide + totals.Na + ammonium - totals.Cl - totals.SCN - acetate + ((protons - 4) * y) / alpha;
  for (const metal of present) {
    const aquo = aquoOf(metal, y, hydroxide);
    charge += metal.charge * (aquo * metal.side + metal.slow) + (metal.charge - 4) * aquo * metal.K * y;
  }
  return charge;
}
