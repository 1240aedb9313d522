/// <reference lib="webworker" />
import { type Attribution, attributionOf, wholeRun } from '../../../sim/attribution/index.ts';
import type { Alive } from './errand.ts';
import { signOfLife } from './watchdog.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';

// Computes where the target went and why, with one run for each cause. Reports the number of runs done after each.

export interface LossRequest {
  readonly scenario: Scenario;
  readonly log: Log;
}

export type LossReply = { readonly runs: number } | { readonly attribution: Attribution | undefined } | { readonly message: string };

self.onmessage = async (event: MessageEvent<LossRequest>) => {
  const { scenario, log } = event.data;
  let runs = 0;
  const alive = signOfLife(() => say({ alive: true }));
  try {
    const attribution = await attributionOf(scenario, log, (so, taken) => {
      const whole = wholeRun(so, taken, alive);
      runs += 1;
      say({ runs });
      return whole;
    });
    say({ attribution });
  } catch (error) {
    say({ message: error instanceof Error ? error.message : String(error) });
  }
};

function say(reply: LossReply | Alive): void {
  self.postMessage(reply);
}
