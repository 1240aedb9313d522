import {
  type FractionTargets,
  type Plan,
  type StartSearch,
  type StartWindow,
  switchWindow,
  type SwitchWindow,
  waterWindow,
  withStop,
} from '../../sim/history/index.ts';
import type { Log } from '../../sim/terms/types.ts';

// When to start the weaker eluent and when to change the receiver. Some columns cannot meet the task however they are run; what comes nearest is told then.

export interface Guidance {
  readonly window: SwitchWindow | undefined;
  readonly startWindow: StartWindow | undefined;
  /** What the windows meet instead, where nothing meets the task. */
  readonly allows?: FractionTargets;
}

/** How many times the loss and the unwanted metal of the task are allowed, one after the other; choices. */
const TIMES = [1, 2, 4];

/** The window of the receiver of a run whose eluent is poured. */
export function receiverGuidance(plan: Plan, targets: FractionTargets): Guidance {
  for (const times of TIMES) {
    const window = switchWindow(plan, withStop(plan, loosened(targets, times)));
    if (window) return { window, startWindow: undefined, ...allowing(targets, times) };
  }
  return { window: undefined, startWindow: undefined };
}

/** The starts of the weaker eluent at `entry`; `planOf` runs a log whole. */
export async function startGuidance(
  plan: Plan,
  entry: number,
  targets: FractionTargets,
  planOf: (log: Log) => Promise<Plan>,
  search?: StartSearch,
): Promise<Pick<Guidance, 'startWindow' | 'allows'>> {
  for (const times of TIMES) {
    const startWindow = await waterWindow(plan, entry, loosened(targets, times), planOf, search);
    if (startWindow) return { startWindow, ...allowing(targets, times) };
  }
  return { startWindow: undefined };
}

function loosened(targets: FractionTargets, times: number): FractionTargets {
  return { ...targets, recovered: 1 - times * (1 - targets.recovered), carried: times * targets.carried };
}

function allowing(targets: FractionTargets, times: number): Pick<Guidance, 'allows'> {
  return times === 1 ? {} : { allows: loosened(targets, times) };
}
