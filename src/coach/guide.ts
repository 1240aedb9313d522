import type { Log, Scenario } from '../../sim/terms/types.ts';
import { type ModelThread, workerThread } from '../store/threads/model-thread.ts';
import { type FractionTargets, progressOf, switchWindow, waterWindow, withStop } from '../../sim/history/index.ts';
import { logAhead } from './ahead.ts';
import type { Bench } from './occasion.ts';
import { type Guidance, receiverGuidance, startGuidance } from './windows.ts';

/** Works out the windows of the run as it would go on, on a model thread of its own, so that the bench does not wait for it. */
export class Guide {
  private thread: ModelThread | undefined;
  /** The scenario that is open on the thread. */
  private scenario: Scenario | undefined;
  private askedFor: Scenario | undefined;
  private asked: Log | undefined;
  private wished: FractionTargets | undefined;
  private call = 0;

  /** Calls `found` when windows for this log are known; does nothing if it was given the same log before. */
  follow({ scenario, plan, moment, targets }: Bench, taken: Log, found: (guidance: Guidance) => void): void {
    if (this.asked === plan.log && this.askedFor === scenario && this.wished === targets) return;
    this.asked = plan.log;
    this.askedFor = scenario;
    this.wished = targets;
    const log = logAhead(scenario, plan.log, taken, moment);
    const call = ++this.call;
    if (!log) return found({ window: undefined, startWindow: undefined });
    // A question that was given up for a newer run has no answer; without one there is no window to show.
    const poured = progressOf(scenario, moment.events).eluent_mL !== undefined;
    this.work(call, { scenario, log, targets, poured }, found).catch(() => {
      if (call === this.call) found({ window: undefined, startWindow: undefined });
    });
  }

  forget(): void {
    this.call += 1;
    this.asked = undefined;
    this.askedFor = undefined;
    this.scenario = undefined;
    this.thread?.close();
    this.thread = undefined;
  }

  private async work(call: number, { scenario, log, targets, poured }: Asked, found: (guidance: Guidance) => void): Promise<void> {
    this.thread ??= workerThread();
    const { thread } = this;
    const plan = this.scenario === scenario ? await thread.plan(log) : await thread.open(scenario, log);
    this.scenario = scenario;
    if (call !== this.call) return;
    const now = poured ? receiverGuidance(plan, targets) : { window: switchWindow(plan, withStop(plan, targets)), startWindow: undefined };
    found(now);
    const { eluentEntry } = progressOf(scenario, plan.events);
    if (eluentEntry === undefined) return;
    const planOf = (trial: Log) => (call === this.call ? thread.plan(trial) : Promise.reject(new Error('another run was asked for')));
    // Once the eluent is poured its start is only looked back on, by the task as it is.
    const starts = poured
      ? waterWindow(plan, eluentEntry, targets, planOf).then((startWindow) => ({ startWindow }))
      : startGuidance(plan, eluentEntry, targets, planOf);
    // Without an answer the window of the receiver stays.
    const answer = await starts.catch(() => ({}));
    if (call === this.call) found({ ...now, ...answer });
  }
}

interface Asked {
  readonly scenario: Scenario;
  readonly log: Log;
  readonly targets: FractionTargets;
  /** The weaker eluent is on the column. */
  readonly poured: boolean;
}
