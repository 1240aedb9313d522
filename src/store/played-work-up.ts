import type { ReceiverResult } from '../../sim/history/index.ts';
import { type Receiver, receiverOf } from '../../sim/flask/index.ts';
import type { Issue, Parameters, Scenario } from '../../sim/terms/types.ts';
import { type Bench, benchOf, readWorkUpLog, startOf, type WorkUpLog, type WorkUpState, workUpStep } from '../../sim/workup/index.ts';

/** A work-up as it was played. */
export interface PlayedWorkUp {
  readonly key: string;
  readonly receiver: Receiver;
  readonly bench: Bench;
  /** State before the first action and after each. */
  readonly states: readonly WorkUpState[];
}

/** What a work-up begins with. */
export interface Taken {
  readonly scenario: Scenario;
  readonly held: ReceiverResult;
  readonly values: Parameters;
  /** Number of the aliquot of a day, for which the hand draws other errors. */
  readonly nth: number | undefined;
}

/** The log played on what the receiver holds now; only new actions are played when nothing else has changed since `before`. */
export function playedOn({ scenario, held, values, nth }: Taken, log: WorkUpLog, before: PlayedWorkUp | undefined): PlayedWorkUp {
  const key = JSON.stringify([scenario.id, scenario.seed, held, values]);
  const start = before?.key === key ? before : begun(key, receiverOf(held), benchOf(values, scenario.seed, nth));
  const changed = start.states.at(-1)?.events.findIndex(({ action }, i) => action !== log[i]) ?? -1;
  if (changed < 0 && start.states.length === log.length + 1) return start;
  const states = changed < 0 ? [...start.states] : start.states.slice(0, changed + 1);
  for (let i = states.length - 1; i < log.length; i++) states.push(workUpStep(states[i], log[i], start.bench));
  return { ...start, states };
}

/** Why a log of a work-up could not be read again; undefined if it can. */
export function unreadable(log: WorkUpLog): Issue | undefined {
  const read = readWorkUpLog(log);
  return read.ok ? undefined : read.issues[0];
}

function begun(key: string, receiver: Receiver, bench: Bench): PlayedWorkUp {
  return { key, receiver, bench, states: [startOf(receiver, bench)] };
}
