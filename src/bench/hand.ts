import { LIMITS } from '../../sim/terms/limits.ts';
import type { Action, Scenario } from '../../sim/terms/types.ts';
import { tracked } from '../store/tracked.ts';

export type How = 'wall' | 'bed' | 'reservoir';

const USUAL_ML = 5;

/** What would be poured next: chosen in the strip, used by the strip, the glass and the keys alike. */
export class Hand {
  @tracked liquid = '';
  @tracked volume_mL = USUAL_ML;
  @tracked how: How = 'wall';

  private bottles = '';

  /** Takes the bottle of the first pour in hand where another set of bottles stands on the bench. */
  suit(scenario: Scenario): void {
    const inOrder = bottlesInOrder(scenario);
    const bottles = inOrder.join('\n');
    if (bottles !== this.bottles) this.liquid = inOrder[0] ?? '';
    this.bottles = bottles;
  }

  get pour(): Action {
    const { liquid, how, volume_mL } = this;
    return { do: 'pour', liquid, volume_mL, ...(how === 'reservoir' ? { hold_level: true } : { how }) };
  }

  /** One press of the stepper: finer where little is poured. */
  step(side: 1 | -1): void {
    const { step, max } = LIMITS['pour.volume_mL'];
    const by = this.volume_mL + (side < 0 ? -1e-9 : 1e-9) >= 1 && !(side < 0 && this.volume_mL <= 1) ? 5 * step : step;
    this.volume_mL = Math.min(max, Math.max(step, Math.round((this.volume_mL + side * by) * 10) / 10));
  }
}

/** Keys of the bottles as the procedure first pours them; those that it leaves out come last. */
export function bottlesInOrder({ liquids, procedure }: Pick<Scenario, 'liquids' | 'procedure'>): string[] {
  const poured = procedure.flatMap((action) => (action.do === 'pour' && Object.hasOwn(liquids, action.liquid) ? [action.liquid] : []));
  return [...new Set([...poured, ...Object.keys(liquids)])];
}
