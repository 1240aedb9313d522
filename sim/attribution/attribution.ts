import type { FaultKind } from '../terms/fault-kinds.ts';
import { FAULTS } from '../faults/index.ts';
import { targetOf } from '../input/index.ts';
import { type Results, targetsOf } from '../history/index.ts';
import { dryTimesOf } from '../run/index.ts';
import type { Fault, IonId, Log, Scenario } from '../terms/types.ts';
import { type Cycle, cyclesOf } from './cycles.ts';
import { dryingMistake, dryingsOf } from './dryings.ts';
import { judgedWell, metBy } from './judged.ts';
import type { Mistake, MistakeKind } from './mistake.ts';
import { mistakesOf } from './mistakes.ts';
import { amountIn, logFrom, type Step, stepsOf, type Whole } from './placed.ts';

// Where the target went, and why: the same run again with each cause repaired by itself, and with all of them repaired.

/** What a run lost and carried. Amounts in mmol. */
export interface Outcome {
  readonly loaded_mmol: number;
  /** Target in its receivers. */
  readonly collected_mmol: number;
  readonly lost_mmol: number;
  /** All other metals in those receivers. */
  readonly carried_mmol: number;
  /** Free acid in those receivers. */
  readonly acid_mmol: number;
  readonly time_min: number;
}

/** How much of each a cause is to blame for: positive is worse with the cause than without. */
export interface Blame {
  readonly lost_mmol: number;
  readonly carried_mmol: number;
  readonly acid_mmol: number;
  readonly time_min: number;
}

export interface AttributionLine extends Blame {
  readonly kind: FaultKind | MistakeKind;
  readonly origin: 'imposed' | 'hand';
  readonly what: string;
  /** Index in the log, -1 for a fault of the scenario or something left out; and the moment, for a link. */
  readonly entry: number;
  readonly moment_min: number;
  readonly delivered_mL: number;
}

export interface Attribution {
  readonly target: IonId;
  readonly receivers: readonly string[];
  readonly actual: Outcome;
  /** The same log on a sound bed with every mistake repaired: what even a good run loses. */
  readonly repaired: Outcome;
  readonly lines: readonly AttributionLine[];
  /** What the lines do not add up to: causes that act together. repaired + lines + this = actual, in every column. */
  readonly notSeparable: Blame;
  /** Where the loaded target is, mmol, by place; sums to loaded_mmol. */
  readonly places: readonly { readonly place: string; readonly amount_mmol: number }[];
  /** Whole runs that were needed. */
  readonly runs: number;
}

/** Runs a whole log; a worker may take its time. */
export type RunIt = (scenario: Scenario, log: Log) => Whole | Promise<Whole>;

interface Cause extends Pick<AttributionLine, 'kind' | 'origin' | 'what' | 'entry' | 'moment_min' | 'delivered_mL'> {
  repair(scenario: Scenario, steps: readonly Step[]): { readonly scenario: Scenario; readonly steps: Step[] };
}

/** A receiver with this share of the loaded target in the repaired run is meant for it. */
const MEANT = 0.05;

/** Attributes the losses of a log. Costs one run, one of the procedure, one per cause, and one with all repaired. */
export async function attributionOf(scenario: Scenario, log: Log, run: RunIt): Promise<Attribution | undefined> {
  const target = targetOf(scenario);
  if (target === undefined) return undefined;
  const sound: Scenario = { ...scenario, faults: [] };
  const actual = await run(scenario, log);
  const model = await run(sound, scenario.procedure);
  const steps = stepsOf(scenario, actual);
  const met = metBy(targetsOf(scenario, target), receiversFor(target, actual.results, cyclesOf(scenario, steps)), actual.results);
  const mistakes = mistakesOf(scenario, steps, actual, stepsOf(sound, model)).filter(({ kind }) => !judgedWell(kind, met));
  const causes = causesOf(scenario, steps, mistakes);
  const outcomes: Whole[] = [];
  for (const cause of causes) outcomes.push(await run(...repaired(scenario, steps, [cause])));
  const whole = causes.length === 1 ? outcomes[0] : causes.length === 0 ? actual : await run(...repaired(scenario, steps, causes));
  const receivers = receiversFor(target, whole.results, cyclesOf(scenario, stepsOf(scenario, whole)));
  const [had, best] = [outcomeOf(target, receivers, actual), outcomeOf(target, receivers, whole)];
  const lines = causes.map(({ repair: _, ...cause }, i) => ({ ...cause, ...blame(had, outcomeOf(target, receivers, outcomes[i])) }));
  return {
    target,
    receivers,
    actual: had,
    repaired: best,
    lines,
    notSeparable: rest(blame(had, best), lines),
    places: placesOf(target, actual.results),
    runs: 2 + causes.length + (causes.length > 1 ? 1 : 0),
  };
}

/** The log of a run as hands would have carried it out that kept the bed wet; undefined where no liquid was poured onto a dry bed. */
export function withoutDryings(scenario: Scenario, whole: Whole): Log | undefined {
  // Most runs have none, and are not read as steps.
  if (!dryTimesOf(whole.events).some(({ ended }) => ended)) return undefined;
  const steps = stepsOf(scenario, whole);
  const dryings = dryingsOf(steps, whole).filter(({ ended }) => ended !== undefined);
  return logFrom(dryings.reduce<Step[]>((so, drying) => dryingMistake(drying, scenario, whole.results.time_min).repair(so), steps));
}

function causesOf(scenario: Scenario, steps: readonly Step[], mistakes: readonly Mistake[]): Cause[] {
  // A fault of the hands is found in the log itself.
  const given = scenario.faults.flatMap((fault): Cause[] =>
    FAULTS[fault.kind].place === 'log'
      ? []
      : [{ ...imposedCause(fault, -1, 0, 0), repair: (so, list) => ({ scenario: withoutFault(so, fault), steps: [...list] }) }],
  );
  const during = steps.flatMap(({ id, action, entry, time_min, at_mL }): Cause[] =>
    action.do === 'fault'
      ? [{ ...imposedCause(action.fault, entry, time_min, at_mL), repair: (so, list) => ({ scenario: so, steps: list.filter((step) => step.id !== id) }) }]
      : [],
  );
  const byHand = mistakes.map(
    ({ kind, what, entry, time_min, delivered_mL, repair }): Cause => ({
      kind,
      origin: 'hand',
      what,
      entry,
      moment_min: time_min,
      delivered_mL,
      repair: (so, list) => ({ scenario: so, steps: repair(list) }),
    }),
  );
  return [...given, ...during, ...byHand];
}

function imposedCause({ kind, severity = 1 }: Fault, entry: number, moment_min: number, delivered_mL: number): Omit<Cause, 'repair'> {
  return { kind, origin: 'imposed', what: `${kind}, severity ${severity}`, entry, moment_min, delivered_mL };
}

function withoutFault(scenario: Scenario, fault: Fault): Scenario {
  return { ...scenario, faults: scenario.faults.map((other) => (other === fault ? { ...other, severity: 0 } : other)) };
}

function repaired(scenario: Scenario, steps: readonly Step[], causes: readonly Cause[]): [Scenario, Log] {
  const start = { scenario, steps: [...steps] };
  const given = causes.reduce((so, cause) => cause.repair(so.scenario, so.steps), start);
  return [given.scenario, logFrom(given.steps)];
}

/** The receivers changed to when each elution began; if they hold less than half of the target, those with a share of it. */
function receiversFor(target: IonId, results: Results, cycles: readonly Cycle[]): string[] {
  const loaded = amountIn(results.loaded, target);
  const inIt = (label: string): number =>
    results.receivers.filter((receiver) => receiver.label === label).reduce((sum, receiver) => sum + amountIn(receiver, target), 0);
  const changedTo = [...new Set(cycles.flatMap(({ receiver }) => (receiver ? [receiver.action.label] : [])))];
  if (changedTo.reduce((sum, label) => sum + inIt(label), 0) > loaded / 2) return changedTo;
  const meant = results.receivers.map(({ label }) => label).filter((label) => inIt(label) > MEANT * loaded);
  return meant.length > 0 ? meant : results.receivers.slice(-1).map(({ label }) => label);
}

function outcomeOf(target: IonId, labels: readonly string[], { results }: Whole): Outcome {
  const mine = results.receivers.filter(({ label }) => labels.includes(label));
  const sum = (of: (receiver: Results['receivers'][number]) => number): number => mine.reduce((total, receiver) => total + of(receiver), 0);
  const collected = sum((receiver) => amountIn(receiver, target));
  const loaded = amountIn(results.loaded, target);
  const metals = Object.keys(results.loaded).filter((key) => key !== 'HCl_mmol' && key !== `${target}_mmol`);
  return {
    loaded_mmol: loaded,
    collected_mmol: collected,
    lost_mmol: loaded - collected,
    carried_mmol: metals.reduce((total, key) => total + sum((receiver) => Number(receiver[key] ?? 0)), 0),
    acid_mmol: sum(({ HCl_mmol }) => HCl_mmol),
    time_min: results.time_min,
  };
}

/** Every place the loaded target can be in. */
function placesOf(target: IonId, results: Results): Attribution['places'] {
  return [
    ...results.receivers.map((receiver) => ({ place: receiver.label, amount_mmol: amountIn(receiver, target) })),
    { place: 'on the bed', amount_mmol: amountIn(results.onBed, target) },
    { place: 'below the bed', amount_mmol: amountIn(results.inTip, target) },
    { place: 'above the bed', amount_mmol: amountIn(results.inHead, target) },
    { place: 'spilled', amount_mmol: amountIn(results.spilled, target) },
  ];
}

function blame(had: Outcome, repaired: Outcome): Blame {
  return {
    lost_mmol: had.lost_mmol - repaired.lost_mmol,
    carried_mmol: had.carried_mmol - repaired.carried_mmol,
    acid_mmol: had.acid_mmol - repaired.acid_mmol,
    time_min: had.time_min - repaired.time_min,
  };
}

function rest(total: Blame, lines: readonly Blame[]): Blame {
  const left = (of: (blame: Blame) => number): number => of(total) - lines.reduce((sum, line) => sum + of(line), 0);
  return {
    lost_mmol: left((b) => b.lost_mmol),
    carried_mmol: left((b) => b.carried_mmol),
    acid_mmol: left((b) => b.acid_mmol),
    time_min: left((b) => b.time_min),
  };
}
