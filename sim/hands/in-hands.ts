// The same procedure in other hands: volumes, levels and moments a little off, drawn from a seed.
import { normalStream } from '../math/random.ts';
import type { Action, Log, Scenario } from '../terms/types.ts';
import type { HandSpreadId, Spread } from './spreads.ts';

/** Keeps the draws apart from those of the column. */
const STREAM = 90_001;
/** Nothing is poured that is smaller than a drop, mL. */
const LEAST_ML = 0.05;

/** Which spreads of the hands are switched on, and how wide they are. */
type HandSpreads = Readonly<Partial<Record<HandSpreadId, Spread>>>;

/**
 * The log as this pair of hands does it. Every action takes the same draws whether its spread is on or not, so that switching
 * one on changes nothing else.
 */
export function inHands(scenario: Scenario, log: Log, spreads: HandSpreads, seed: number): Log {
  const normal = normalStream(seed + STREAM);
  return log.map((action) => handled(scenario, action, spreads, normal()));
}

function handled(scenario: Scenario, action: Action, spreads: HandSpreads, z: number): Action {
  if (action.do === 'pour') {
    const isSample = Object.keys(scenario.liquids[action.liquid]?.ions ?? {}).length > 0;
    const off = isSample ? (spreads.sample?.size ?? 0) * action.volume_mL : (spreads.pours?.size ?? 0);
    // A rinse of half a millilitre is not read off a cylinder to 0.2 mL: never more than a fifth off.
    const most = action.volume_mL / 5;
    return { ...action, volume_mL: Math.max(LEAST_ML, action.volume_mL + Math.min(most, Math.max(-most, off * z))) };
  }
  if (action.do !== 'wait') return action;
  const { until } = action;
  if ('liquid_mm' in until) return { ...action, until: { liquid_mm: until.liquid_mm + (spreads.level?.size ?? 0) * Math.abs(z) } };
  if ('more_mL' in until) return { ...action, until: { more_mL: Math.max(0, until.more_mL + (spreads.receiver?.size ?? 0) * z) } };
  return action;
}
