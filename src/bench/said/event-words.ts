import { bottleName } from '../../../sim/terms/bottle-name.ts';
import type { RunEvent } from '../../../sim/history/index.ts';
import type { Action, Issue, Scenario } from '../../../sim/terms/types.ts';
import { fixed, millilitres } from '../../ui/text/format.ts';

// Bench actions and events of a run in words.

export function actionWords(action: Action, scenario: Scenario): string {
  switch (action.do) {
    case 'pour':
      return `${millilitres(action.volume_mL)} ${bottleName(action.liquid, scenario.liquids)} ${action.hold_level ? 'from the reservoir' : action.how === 'bed' ? 'poured onto the bed' : 'poured down the wall'}`;
    case 'clamp':
      return action.open_percent === 0 ? 'clamp shut' : `clamp open to ${fixed(action.open_percent, 0)} %`;
    case 'receiver':
      return `receiver: ${action.label}`;
    case 'wait':
      return 'waited';
    case 'stir':
      return 'bed stirred up and settled';
    case 'refill-from-below':
      return `${millilitres(action.volume_mL)} ${bottleName(action.liquid, scenario.liquids)} pushed in from below`;
    case 'pack':
      return `slurry of ${millilitres(action.resin_mL)} resin poured ${action.pour === 'spoonfuls' ? 'in spoonfuls' : 'in one go'} ${action.into === 'glass' ? 'onto dry glass' : 'into liquid'}${action.tapped === false ? '' : ', tapped'}`;
    case 'top-up':
      return `${millilitres(action.resin_mL)} resin added`;
    case 'spill':
      return `${fixed(action.share * 100, 0)} % of the receiver spilled`;
    case 'fault':
      // Not which: it may be hidden from the reader, and this is spoken.
      return 'a fault imposed on the bed';
  }
}

/** What an event of the run says to the reader; undefined for waits, which say nothing new. */
export function eventWords({ action, refused, note }: RunEvent, scenario: Scenario): string | undefined {
  if (note !== undefined) return note;
  if (refused) return refusalWords(refused);
  return action && action.do !== 'wait' ? actionWords(action, scenario) : undefined;
}

export function refusalWords({ expected, received }: Issue): string {
  return `Refused: expected ${expected}; received ${received}`;
}
