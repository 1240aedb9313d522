// Compares a run that was handed in with what was handed out.
import type { Issue, Scenario } from '../terms/types.ts';
import { type HandOut, handOutMark } from './hand-out.ts';
import { scenarioMark } from './handed-out.ts';
import type { Under } from './answers.ts';

/** What the comparison needs of a run. */
export interface MadeUnder {
  readonly under: Under | undefined;
  /** Mark of its scenario. */
  readonly of: string;
  readonly seed: number;
}

/** Whose rules a run was made under, seen from a hand-out: its own, those of another, or none. */
export type Origin = 'this' | 'another' | 'none';

export function originOf({ under }: Pick<MadeUnder, 'under'>, handOut: HandOut): Origin {
  if (!under) return 'none';
  return under.mark === handOutMark(handOut) ? 'this' : 'another';
}

/** Ways in which a run departs from the hand-out; `scenario` is the one that was handed out. */
export function against(run: MadeUnder, handOut: HandOut, scenario: Scenario): Issue[] {
  const { under, of, seed } = run;
  const found: Issue[] = [];
  const differ = (path: string, expected: unknown, received: unknown): void => {
    if (expected !== received) found.push({ path, expected: String(expected), received: String(received) });
  };
  if (of !== scenarioMark(scenario)) found.push({ path: 'scenario', expected: 'the one that was handed out', received: 'another' });
  if (handOut.column === 'same') differ('column (seed)', handOut.seed, seed);
  if (!under) return [...found, { path: 'hand-out', expected: 'a run made from its link or file', received: 'a run made without it' }];
  differ('seen before the end', handOut.seeing, under.seeing);
  differ('column', handOut.column, under.column);
  if (under.attempt > handOut.tries || under.tries !== handOut.tries)
    found.push({ path: 'tries', expected: `at most ${handOut.tries}`, received: `try ${under.attempt} of ${under.tries}` });
  if (found.length === 0) differ('hand-out', handOutMark(handOut), under.mark);
  return found;
}
