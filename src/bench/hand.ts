import { LIMITS } from '../../sim/terms/limits.ts';
import type { Action, Log, Scenario } from '../../sim/terms/types.ts';
import { tracked } from '../store/tracked.ts';

export type How = 'wall' | 'bed' | 'reservoir';

const USUAL_ML = 5;

/** What would be poured next: chosen in the strip, used by the strip, the glass and the keys alike. */
export class Hand {
  @tracked liquid = '';
  @tracked volume_mL = USUAL_ML;
  @tracked how: How = 'wall';

  private suited: Scenario | undefined;
  private bottles = '';
  /** By bottle: as it was last set, or else as the procedure first pours it. */
  private amounts: Record<string, number> = {};

  /** Takes the bottle of the first pour in hand where another column or another set of bottles stands on the bench, or another procedure asks for other amounts. */
  suit(scenario: Scenario): void {
    // Asked for each picture of a run: only another scenario is looked into.
    if (scenario === this.suited) return;
    this.suited = scenario;
    const inOrder = bottlesInOrder(scenario);
    const amounts = firstPours(scenario);
    const bottles = JSON.stringify([scenario.seed, inOrder, amounts]);
    if (bottles === this.bottles) return;
    this.bottles = bottles;
    this.amounts = amounts;
    this.liquid = inOrder[0] ?? '';
    this.volume_mL = amounts[this.liquid] ?? USUAL_ML;
  }

  /** Takes a bottle in hand, with the amount that goes with it. */
  take(liquid: string): void {
    if (liquid === this.liquid) return;
    this.amounts[this.liquid] = this.volume_mL;
    this.liquid = liquid;
    this.volume_mL = this.amounts[liquid] ?? USUAL_ML;
  }

  /** What the list pours last is in hand from then on. */
  follow(actions: Log): void {
    const poured = actions.findLast((action) => action.do === 'pour');
    if (poured) this.take(poured.liquid);
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

function firstPours({ procedure }: Scenario): Record<string, number> {
  return Object.fromEntries(procedure.flatMap((action) => (action.do === 'pour' ? [[action.liquid, action.volume_mL] as const] : [])).reverse());
}
