// A handed-in run computed again: whether its results are as claimed, and what an instructor wants to know about it.
import { AT } from '../column/index.ts';
import {
  effluentCurve,
  type FractionTargets,
  framesApart,
  keptOf,
  type Plan,
  progressOf,
  receiverLabels,
  type Results,
  switchWindow,
  targetsOf,
  taskHeld,
  trimmed,
  withStop,
} from '../history/index.ts';
import { mistakesOf, type Step, stepsOf, wholeRun } from '../attribution/index.ts';
import { advanceAlive, resultsOf, type Run, runOf } from '../run/index.ts';
import type { Scenario } from '../terms/types.ts';
import type { Under } from './answers.ts';
import { actionsApart, actionsMark } from './actions.ts';
import type { Claimed } from './claimed.ts';
import type { HandedRun } from './handed-in.ts';
import { scenarioMark } from './handed-out.ts';
import { type Judged, judged } from './judged.ts';
import { truthOf } from './predicted.ts';
import type { Occasion } from './predictions.ts';

/** Relative difference up to which figures agree though not bit for bit, as with another release of the model. A choice. */
export const TOLERANCE = 1e-6;

/** Between points of a curve that is only drawn, mL. */
const APART_ML = 0.5;

export interface Difference {
  readonly figure: string;
  readonly claimed: number | string;
  readonly computed: number | string;
}

export interface Recomputed {
  readonly who: string;
  readonly scenario: string;
  readonly title: string;
  readonly seed: number;
  /** `exactly`: bit for bit. `nearly`: within TOLERANCE. */
  readonly agrees: 'exactly' | 'nearly' | 'no';
  readonly differences: readonly Difference[];
  readonly unchanged: boolean;
  /** Delivered volumes, mL; undefined for what was not done, or a window that is not there. */
  readonly eluent_mL: number | undefined;
  readonly change_mL: number | undefined;
  readonly window_mL: readonly [from: number, to: number] | undefined;
  readonly delivered_mL: number;
  readonly time_min: number;
  /** What the task is judged by, of the receivers for the target: shares of what was poured, acid in mmol. */
  readonly recovered: number;
  readonly carried: number;
  readonly acid_mmol: number;
  /** Did what the task asks, which is in `targets`. */
  readonly meets: boolean;
  readonly targets: FractionTargets;
  /** The target leaving the tip, mol/L, along the volume delivered, mL. */
  readonly leaving: { readonly xs: readonly number[]; readonly ys: readonly number[] };
  readonly predictions: readonly { readonly occasion: Occasion; readonly right: boolean | undefined }[];
  readonly answers: readonly Judged[];
  /** Mark of every action with its time, on this column; and how many actions are otherwise than the procedure has them. */
  readonly actions: string;
  readonly fromProcedure: number;
  /** For the comparison with what was handed out. */
  readonly under: Under | undefined;
  readonly of: string;
  /** What was done otherwise than the procedure; `size` tells the larger of two of one kind. */
  readonly mistakes: readonly { readonly kind: string; readonly what: string; readonly size: number; readonly delivered_mL: number }[];
}

/** Computes a handed-in run again, up to the time at which it was handed in. `alive` is called meanwhile. */
export function recomputed(handed: HandedRun, alive: () => void = () => undefined): Recomputed {
  const { scenario, claimed, who, unchanged, predictions, answers = [], under } = handed;
  const run = runOf(scenario, handed.log);
  advanceAlive(run, { endOfLog: true }, alive);
  const logEnd = { time_min: run.bed.scalar[AT.time], delivered_mL: run.bed.scalar[AT.delivered] };
  advanceAlive(run, { time_min: claimed.time_min }, alive);
  const results = resultsOf(run);
  const plan = planOf(run, logEnd, results);
  const targets = targetsOf(scenario);
  const differences = differencesOf(claimed, results);
  const { eluent_mL, change_mL } = progressOf(scenario, run.events);
  const kept = keptOf(plan, targets);
  const window = switchWindow(plan, withStop(plan, targets));
  const moment = { delivered_mL: results.delivered_mL, time_min: results.time_min, results, events: run.events };
  return {
    who,
    scenario: scenario.id,
    title: scenario.title,
    seed: scenario.seed,
    agrees: differences.length === 0 ? 'exactly' : differences.every(isSmall) ? 'nearly' : 'no',
    differences,
    unchanged,
    eluent_mL,
    // Who changed it long before the water did so too early, not never.
    change_mL: change_mL ?? (kept && kept.from_mL > 0 ? kept.from_mL : undefined),
    window_mL: window && [window.from_mL, window.to_mL],
    delivered_mL: results.delivered_mL,
    time_min: results.time_min,
    ...taskHeld(plan, targets),
    targets,
    leaving: effluentCurve(plan, targets.target, framesApart(plan, APART_ML)),
    predictions: predictions.map((one) => ({ occasion: one.occasion, right: truthOf(one, { scenario, plan, targets, moment })?.agrees })),
    answers: judged(scenario, answers),
    actions: actionsMark(scenario, handed.log),
    fromProcedure: actionsApart(handed.log, scenario.procedure),
    under,
    of: scenarioMark(scenario),
    mistakes: mistakesIn(scenario, run, results),
  };
}

function planOf(run: Run, logEnd: Plan['logEnd'], results: Results): Plan {
  const { record, events, log, column } = run;
  return { ...trimmed(record), log, events, labels: receiverLabels(events), length_cm: column.length, logEnd, results, recomputed_min: 0 };
}

/** Every claimed number that differs from the computed one. */
export function differencesOf(claimed: Claimed, results: Results): Difference[] {
  const found: Difference[] = [];
  const compare = (figure: string, said: number | string | undefined, is: number | string | undefined): void => {
    if (said !== is) found.push({ figure, claimed: said ?? 'nothing', computed: is ?? 'nothing' });
  };
  compare('time_min', claimed.time_min, results.time_min);
  compare('delivered_mL', claimed.delivered_mL, results.delivered_mL);
  const count = Math.max(claimed.receivers.length, results.receivers.length);
  for (let i = 0; i < count; i++) {
    const [said, is] = [new Map(Object.entries(claimed.receivers[i] ?? {})), new Map(Object.entries(results.receivers[i] ?? {}))];
    for (const key of new Set([...said.keys(), ...is.keys()])) compare(`receivers[${i}].${key}`, said.get(key), is.get(key));
  }
  return found;
}

function isSmall({ claimed, computed }: Difference): boolean {
  if (typeof claimed !== 'number' || typeof computed !== 'number') return false;
  return Math.abs(claimed - computed) <= TOLERANCE * Math.max(Math.abs(claimed), Math.abs(computed), TOLERANCE);
}

/** The procedure as planned, on one lane: only volumes and levels are compared, and thirty runs should not take twice as long for it. */
function procedureSteps(scenario: Scenario): readonly Step[] {
  const plain = { ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } };
  return stepsOf(plain, wholeRun(plain, plain.procedure));
}

function mistakesIn(scenario: Scenario, { record, events }: Run, results: Results): Recomputed['mistakes'] {
  if (scenario.procedure.length === 0) return [];
  const whole = { ...record, events, results };
  const found = mistakesOf(scenario, stepsOf(scenario, whole), whole, procedureSteps(scenario));
  return found.map(({ kind, what, size, delivered_mL }) => ({ kind, what, size, delivered_mL }));
}
