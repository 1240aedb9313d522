import { type Limit, LIMITS } from '../terms/limits.ts';
import type { Issue } from '../terms/types.ts';

// The log of a work-up: what is done to the flask in hand: the collected eluate itself, or a portion pipetted from it.

export type ReagentId = 'water' | 'HCl' | 'NaOH' | 'acetic' | 'acetate' | 'thiocyanate' | 'acetone' | 'EDTA';

/** How much: a number of drops, a volume, a mass of solid thiocyanate, or until the meter or the eye says so. */
export type Dose = { readonly drops: number } | { readonly mL: number } | { readonly g: number } | { readonly until: { readonly pH: number } | 'pink' };

export type WorkUpAction =
  /** The eluate is poured from its beaker into a flask and the beaker rinsed after it with water. */
  | { readonly do: 'transfer'; readonly rinses: number; readonly rinse_mL: number }
  /** Water to the mark of a volumetric flask. */
  | { readonly do: 'make up'; readonly to_mL: number }
  /** The flask in hand is put aside and a fresh one is filled by pipette from the eluate. */
  | { readonly do: 'portion'; readonly mL: number }
  | { readonly do: 'add'; readonly reagent: ReagentId; readonly dose: Dose }
  | { readonly do: 'swirl'; readonly min: number }
  | { readonly do: 'wait'; readonly min: number; readonly ice?: boolean };

export type WorkUpLog = readonly WorkUpAction[];

/** Largest titration flask, mL. */
export const FLASK_MAX_ML = LIMITS['work-up.mL'].max;

export const REAGENTS: readonly ReagentId[] = ['water', 'HCl', 'NaOH', 'acetic', 'acetate', 'thiocyanate', 'acetone', 'EDTA'];

/** What is wrong with an action whatever the flask holds; undefined if nothing. */
export function misfit(action: WorkUpAction): Issue | undefined {
  if (action.do === 'make up') return outside('make up.to_mL', action.to_mL, LIMITS['work-up.make_up_mL']);
  if (action.do === 'transfer') return misfitTransfer(action.rinses, action.rinse_mL);
  if (action.do === 'portion') return outside('portion.mL', action.mL, LIMITS['work-up.portion_mL']);
  if (action.do === 'swirl' || action.do === 'wait') return outside(`${action.do}.min`, action.min, LIMITS['work-up.time_min']);
  if (action.do === 'add') return misfitDose(action.reagent, action.dose);
  return { path: 'do', expected: 'transfer, make up, portion, add, swirl or wait', received: String((action as { do?: unknown }).do) };
}

function misfitTransfer(rinses: number, rinse_mL: number): Issue | undefined {
  const { max } = LIMITS['work-up.rinses'];
  const sound = Number.isInteger(rinses) && rinses >= 0 && rinses <= max;
  return sound
    ? outside('transfer.rinse_mL', rinse_mL, LIMITS['work-up.rinse_mL'])
    : { path: 'transfer.rinses', expected: `a whole number from 0 to ${max}`, received: String(rinses) };
}

function misfitDose(reagent: ReagentId, dose: Dose): Issue | undefined {
  if (!REAGENTS.includes(reagent)) return { path: 'add.reagent', expected: `one of ${REAGENTS.join(', ')}`, received: String(reagent) };
  if ('drops' in dose) return outside(`${reagent}.drops`, dose.drops, LIMITS['work-up.drops']);
  if ('mL' in dose) return outside(`${reagent}.mL`, dose.mL, LIMITS['work-up.mL']);
  if ('g' in dose) {
    const weighed = reagent === 'thiocyanate';
    if (!weighed) return { path: `${reagent}.g`, expected: 'a volume or drops: only thiocyanate is weighed', received: `${dose.g} g` };
    return outside('thiocyanate.g', dose.g, LIMITS['work-up.g']);
  }
  if (dose.until === 'pink')
    return reagent === 'EDTA' ? undefined : { path: `${reagent}.until`, expected: 'EDTA: only its end point is seen', received: 'pink' };
  const moves = reagent === 'NaOH' || reagent === 'acetic' || reagent === 'HCl';
  if (!moves) return { path: `${reagent}.until`, expected: 'NaOH, acetic or HCl: what moves the pH', received: reagent };
  const { pH } = dose.until;
  return pH >= 0 && pH <= 14 ? undefined : { path: `${reagent}.until.pH`, expected: '0 to 14', received: String(pH) };
}

function outside(path: string, value: unknown, { max, unit, integer }: Limit): Issue | undefined {
  if (typeof value === 'number' && value > 0 && value <= max && (!integer || Number.isInteger(value))) return undefined;
  const noun = integer ? 'a whole number' : 'a number';
  const received = typeof value === 'number' ? `${value} ${unit}` : (JSON.stringify(value) ?? 'nothing');
  return { path, expected: `${noun} above 0, at most ${max} ${unit}`, received };
}
