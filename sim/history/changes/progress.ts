import type { RunEvent } from '../events.ts';
import type { Scenario } from '../../terms/types.ts';

/** How far a run has come: sample poured, weaker eluent started. */
export interface Progress {
  /** Delivered volume at which the sample was first poured, mL, and its acid, mol/L. */
  readonly load_mL: number | undefined;
  readonly sample_M: number;
  /** Delivered volume and log entry at which a weaker eluent was first poured after the sample. */
  readonly eluent_mL: number | undefined;
  readonly eluentEntry: number | undefined;
  readonly eluent_M: number;
  /** The change of receiver with that or, if there was none, the first one after it. */
  readonly change_mL: number | undefined;
}

/** Acid of an eluent over that of the sample below which it is called weaker; a choice. */
const WEAKER = 0.7;

/** A change of receiver so many mL before the weaker eluent was made with it: a few drops, between two presses. A choice. */
const WITH_ML = 0.25;

/** Whether a receiver was put under the tip with the weaker eluent, on either side of pouring it. */
export function isWithEluent(change_mL: number, eluent_mL: number): boolean {
  return Math.abs(change_mL - eluent_mL) <= WITH_ML;
}

export function progressOf(scenario: Scenario, events: readonly RunEvent[]): Progress {
  let found: Progress = { load_mL: undefined, sample_M: 0, eluent_mL: undefined, eluentEntry: undefined, eluent_M: 0, change_mL: undefined };
  let before_mL = Number.NEGATIVE_INFINITY;
  for (const { entry, action, refused, delivered_mL } of events) {
    if (!action || refused) continue;
    if (action.do === 'receiver' && found.eluent_mL !== undefined) found = { ...found, change_mL: found.change_mL ?? delivered_mL };
    else if (action.do === 'receiver' && found.load_mL !== undefined) before_mL = delivered_mL;
    const liquid = action.do === 'pour' ? scenario.liquids[action.liquid] : undefined;
    if (!liquid) continue;
    if (isSample(liquid)) found = { ...found, load_mL: found.load_mL ?? delivered_mL, sample_M: liquid.HCl_M };
    else if (found.load_mL !== undefined && found.eluent_mL === undefined && isWeaker(liquid, found.sample_M))
      found = {
        ...found,
        eluent_mL: delivered_mL,
        eluentEntry: entry,
        eluent_M: liquid.HCl_M,
        change_mL: isWithEluent(before_mL, delivered_mL) ? before_mL : undefined,
      };
  }
  return found;
}

export function isSample({ ions }: Scenario['liquids'][string]): boolean {
  return Object.keys(ions).length > 0;
}

export function isWeaker({ HCl_M, ions }: Scenario['liquids'][string], sample_M: number): boolean {
  return Object.keys(ions).length === 0 && HCl_M < WEAKER * sample_M;
}
