import { drawn } from '../../sim/column/drawn.ts';
import { bestStart, lessonOf, progressOf, targetsOf } from '../../sim/history/index.ts';
import { checklistOf, NEAR_ML, offerFor, type Role } from '../../sim/teach/index.ts';
import type { Action, Log, Scenario } from '../../sim/terms/types.ts';
import { logAhead } from '../../src/coach/ahead.ts';
import { warningsOf } from '../../src/coach/warnings.ts';
import { type Guidance, receiverGuidance, startGuidance } from '../../src/coach/windows.ts';
import { Planner } from '../../src/store/threads/planner.ts';

// A run in which the guide is followed to the letter: button after button, water where it is best, the receiver in the middle of its window.

/** Coarser than on the page, to be fast, mL. */
const SEARCH = { within_mL: 0.5 };
/** More presses than a wash takes. */
const PRESSES = 12;

export interface Guided {
  readonly seed: number;
  /** The limits of the task are met. */
  readonly good: boolean;
  readonly recovered: number;
  readonly carried: number;
  /** What the guide said before the water. */
  readonly said: string;
}

/** The run of the column that a seed draws. */
export async function guided(shipped: Scenario, seed: number): Promise<Guided> {
  const bench = new Bench(drawn({ ...shipped, seed }));
  bench.press('condition');
  bench.press('load');
  let starts: Guidance = { window: undefined, startWindow: undefined };
  for (let presses = 0; presses < PRESSES; presses++) {
    starts = { window: undefined, ...(await bench.starts()) };
    const from_mL = starts.startWindow && bestStart(starts.startWindow);
    if (from_mL !== undefined && bench.moment.delivered_mL >= from_mL - NEAR_ML) break;
    if (!bench.press('wash', from_mL)) break;
  }
  const said = bench.said(starts);
  const [pour, ...rest] = bench.actionsOf('release');
  const change_mL = bench.changeAt([pour, ...rest]);
  bench.do(change_mL === undefined ? [pour, ...rest] : [pour, { do: 'wait', until: { delivered_mL: change_mL } }]);
  bench.press('change');
  while (bench.press('release'));
  bench.press('stop');
  return { seed, said, ...outcomeOf(bench.scenario, bench.log) };
}

/** The written procedure on the column that a seed draws; `above_bottom_mm`: no more acid is poured once the leading edge is so near the bottom. */
export function written(shipped: Scenario, seed: number, above_bottom_mm?: number): Omit<Guided, 'said'> {
  const scenario = drawn({ ...shipped, seed });
  const { target } = targetsOf(scenario);
  const loaded = scenario.procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'sample');
  const log = scenario.procedure.map(
    (action, i): Action =>
      above_bottom_mm !== undefined && i > loaded && action.do === 'pour' && action.liquid === 'acid'
        ? { ...action, unless: { ion: target, above_bottom_mm } }
        : action,
  );
  return { seed, ...outcomeOf(scenario, log) };
}

function outcomeOf(scenario: Scenario, log: Log): Pick<Guided, 'good' | 'recovered' | 'carried'> {
  const plan = new Planner(scenario).plan(log);
  const { found } = lessonOf(plan, targetsOf(scenario), progressOf(scenario, plan.events).eluent_mL);
  return { good: found?.meets === true, recovered: found?.recovered ?? 0, carried: found?.carried ?? 0 };
}

class Bench {
  readonly scenario: Scenario;
  log: Log = [];
  private readonly planner: Planner;
  private readonly guide: Planner;

  constructor(scenario: Scenario) {
    this.scenario = scenario;
    this.planner = new Planner(scenario);
    this.guide = new Planner(scenario);
  }

  get plan() {
    return this.planner.plan(this.log);
  }

  get moment() {
    return this.planner.moment(this.plan.logEnd.time_min);
  }

  /** What one press of a step does; nothing if there is nothing to do for it. */
  actionsOf(role: Role, washTo_mL?: number): Log {
    const { moment, scenario } = this;
    const step = checklistOf(scenario, moment.events).find((one) => one.role === role);
    return (step && offerFor(scenario, moment, step, washTo_mL)?.actions) ?? [];
  }

  press(role: Role, washTo_mL?: number): boolean {
    const actions = this.actionsOf(role, washTo_mL);
    this.do(actions);
    return actions.length > 0;
  }

  do(actions: readonly Action[]): void {
    this.log = [...this.log, ...actions];
  }

  starts() {
    const plan = this.ahead(this.log);
    const { eluentEntry = -1 } = progressOf(this.scenario, plan.events);
    return startGuidance(plan, eluentEntry, targetsOf(this.scenario), (log) => Promise.resolve(this.guide.plan(log)), SEARCH);
  }

  /** Where the receiver is best changed, with this press under way. */
  changeAt(pressed: Log): number | undefined {
    const { window } = receiverGuidance(this.ahead([...this.log, ...pressed]), targetsOf(this.scenario));
    return window && bestStart(window);
  }

  said(guidance: Guidance): string {
    const { scenario, plan, moment } = this;
    return warningsOf({ scenario, plan, moment, targets: targetsOf(scenario) }, guidance).join(' ');
  }

  private ahead(log: Log) {
    const found = logAhead(this.scenario, log, this.log, this.moment);
    if (!found) throw new Error('guide: expected a run ahead, received none');
    return this.guide.plan(found);
  }
}
