import type { RunEvent } from '../history/index.ts';
import type { Scenario } from '../terms/types.ts';
import type { PlannedStep } from './steps.ts';

// Which step an action was for. Steps come in their order, and a bottle or a receiver may be wanted more than once in a day.

export interface Ticks {
  /** mL per step. */
  readonly poured: readonly number[];
  /** Whether a step's receiver was put under the tip for it. */
  readonly changed: readonly boolean[];
  /** The pour that was reached. */
  readonly at: number;
}

export function ticksOf({ liquids }: Scenario, steps: readonly PlannedStep[], events: readonly RunEvent[], firstLabel: string | undefined): Ticks {
  const poured = steps.map(() => 0);
  const changed = steps.map(() => false);
  let at = 0;
  for (const { action, refused, delivered_mL } of events) {
    if (refused) continue;
    if (action?.do === 'pour' && liquids[action.liquid]) {
      const found = pouredFor(action.liquid, steps, poured, at);
      if (found >= 0) poured[found] += action.volume_mL;
      at = Math.max(at, found);
    }
    // A change before the first drop only names the vessel that is there.
    if (action?.do === 'receiver' && delivered_mL > 0) putInto(changed, action.label, steps, poured, at, firstLabel);
  }
  return { poured, changed, at };
}

/** The step reached if it pours this liquid, else the next that wants it; -1 if none can be meant. */
function pouredFor(liquid: string, steps: readonly PlannedStep[], poured: readonly number[], at: number): number {
  const ahead = steps.findIndex((step, i) => i >= at && step.liquid === liquid);
  const leavesOut = (role: string): boolean => steps.some((step, i) => i >= at && i < ahead && step.role === role && poured[i] === 0);
  // Nothing is washed or set free before it is loaded, and what sets free is left out only if no step before wants the liquid.
  const behind = steps.findLastIndex((step, i) => i < at && step.liquid === liquid);
  return leavesOut('load') || (leavesOut('release') && behind >= 0) ? behind : ahead;
}

/** A receiver that is put back takes back the change that came after it. */
function putInto(
  changed: boolean[],
  label: string,
  steps: readonly PlannedStep[],
  poured: readonly number[],
  at: number,
  firstLabel: string | undefined,
): void {
  const behind = steps.findLastIndex((step, i) => i < at && step.role === 'change');
  const next = steps.findIndex((step, i) => i > at && step.role === 'change');
  const unloaded = steps.findIndex((step, i) => i >= at && step.role === 'load' && poured[i] === 0);
  if (steps[next]?.label === label) changed[next] = unloaded < 0 || next <= unloaded + 1;
  else {
    if ((steps[behind]?.label ?? firstLabel) === label) changed.fill(false, at);
    if (steps[behind]?.label === label) changed[behind] = true;
  }
}
