// The same procedure with another volume of wash acid between the sample and the weaker eluent.
import { certain, isSample, isWeaker } from '../history/index.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';

type Pour = Extract<Action, { do: 'pour' }>;

/** Where in a log the sample was last poured and the weaker eluent first; undefined if it does not do both. */
export interface Wash {
  readonly sample: number;
  readonly eluent: number;
  /** mL between them. */
  readonly volume_mL: number;
}

/** Pours added to a wash, mL, and the level at which they follow one another, mm. */
const PORTION_ML = 7;
const LEVEL_MM = 1;

export function washOf(scenario: Scenario, log: Log): Wash | undefined {
  const liquidOf = (action: Action) => (action.do === 'pour' ? scenario.liquids[action.liquid] : undefined);
  const samples = log.map(liquidOf);
  const first = samples.findIndex((liquid) => liquid && isSample(liquid));
  const acid = samples[first]?.HCl_M ?? 0;
  const eluent = samples.findIndex((liquid, entry) => entry > first && liquid && isWeaker(liquid, acid));
  if (first < 0 || eluent < 0) return undefined;
  const sample = samples.findLastIndex((liquid, entry) => entry < eluent && liquid && isSample(liquid));
  return { sample, eluent, volume_mL: poured(log.slice(sample + 1, eluent)) };
}

/** The log with `wash_mL` of acid as its wash, wherever its band is: the last pours shrink or are left out, or portions are added. */
export function washedWith(scenario: Scenario, log: Log, wash_mL: number): Log {
  const wash = washOf(scenario, log);
  if (!wash) return log;
  const between = log.slice(wash.sample + 1, wash.eluent).map(certain);
  const shift = wash_mL - wash.volume_mL;
  const after = log.slice(wash.eluent).map((action) => (action.at_mL === undefined ? action : { ...action, at_mL: action.at_mL + shift }));
  return [...log.slice(0, wash.sample + 1), ...(shift < 0 ? shortened(between, wash_mL) : lengthened(scenario, between, shift)), ...after];
}

/** Pours up to a volume; a pour that is left out takes the waits after it along. */
function shortened(between: Log, wash_mL: number): Action[] {
  let left = wash_mL;
  return between.flatMap((action): Action[] => {
    if (left <= 1e-9 && (action.do === 'pour' || action.do === 'wait')) return [];
    if (action.do !== 'pour') return [action];
    const volume_mL = Math.min(action.volume_mL, left);
    left -= volume_mL;
    return left <= 1e-9 ? [{ ...action, volume_mL }, drained()] : [{ ...action, volume_mL }];
  });
}

function lengthened(scenario: Scenario, between: Log, more_mL: number): Action[] {
  const last = between.findLast((action): action is Pour => action.do === 'pour');
  const liquid = last?.liquid ?? strongest(scenario);
  const portions = Math.ceil(more_mL / PORTION_ML - 1e-9);
  const extra = Array.from({ length: portions }, (): Action[] => [{ do: 'pour', liquid, volume_mL: more_mL / portions }, drained()]);
  return [...between, ...extra.flat()];
}

function drained(): Action {
  return { do: 'wait', until: { liquid_mm: LEVEL_MM } };
}

function strongest(scenario: Scenario): string {
  const clean = Object.entries(scenario.liquids).filter(([, liquid]) => !isSample(liquid));
  return clean.sort(([, a], [, b]) => b.HCl_M - a.HCl_M)[0]?.[0] ?? '';
}

function poured(log: Log): number {
  return log.reduce((sum, action) => (action.do === 'pour' ? sum + action.volume_mL : sum), 0);
}
