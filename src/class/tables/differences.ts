import type { Recomputed, Taken } from '../../../sim/handed/index.ts';
import { elementOf } from '../../../sim/terms/ions.ts';
import { millimolesBeside, percentBeside } from '../../ui/text/beside-limit.ts';
import type { Column, Row } from '../../ui/text/csv.ts';
import { millimoles, percent, quantity } from '../../ui/text/format.ts';
import { agreeing, differencesBriefly, nameOf } from './summary.ts';

// Which runs missed the task and by how much, and what was done otherwise than the procedure. The one need not come from the other: a wash
// that is ended where the band stands is shorter than the procedure's and does no harm. So each difference is told with the runs it is in
// that missed the task.

export const MISSED: readonly Column[] = [
  { key: 'who', label: 'who' },
  { key: 'why', label: 'limit that was missed' },
  { key: 'differences', label: 'otherwise than the procedure' },
];

/** Every run that agrees and missed the task, with why. */
export function missedRows(taken: readonly Taken[]): Row[] {
  return agreeing(taken)
    .filter(({ meets }) => !meets)
    .map((run) => ({ who: run.who, why: missedWords(run), differences: differencesBriefly(run) || 'nothing' }));
}

/** Digits of how far a limit was missed. */
const FIGURES = 2;

/** Each limit that a run missed, and by how much; empty where it met them all. */
export function missedWords({ recovered, carried, acid_mmol, targets }: Recomputed): string {
  const { target, unwanted, acid_mmol: acid = Number.POSITIVE_INFINITY } = targets;
  const ofPoured = (share: number): string => `${quantity(100 * share, '%', FIGURES)} of what was poured`;
  const other = unwanted.length === 1 ? elementOf(unwanted[0]) : 'another metal';
  return [
    ...(recovered < targets.recovered
      ? [
          `${elementOf(target)}: ${percentBeside(recovered, targets.recovered)} collected, at least ${percent(targets.recovered)} asked; short by ${ofPoured(targets.recovered - recovered)}`,
        ]
      : []),
    ...(carried > targets.carried
      ? [
          `${other}: ${percentBeside(carried, targets.carried)} collected with it, at most ${percent(targets.carried)} allowed; over by ${ofPoured(carried - targets.carried)}`,
        ]
      : []),
    ...(acid_mmol > acid
      ? [
          `acid: ${millimolesBeside(acid_mmol, acid)} collected with it, at most ${millimoles(acid, 0)} allowed; over by ${quantity(acid_mmol - acid, 'mmol', FIGURES)}`,
        ]
      : []),
  ].join('. ');
}

export const DIFFERENCES: readonly Column[] = [
  { key: 'difference', label: 'difference' },
  { key: 'runs', label: 'runs with it' },
  { key: 'missed', label: 'of these missed the task' },
  { key: 'who', label: 'largest in the run of' },
  { key: 'what', label: 'what was done there' },
];

export function differenceRows(taken: readonly Taken[]): Row[] {
  return differencesOf(taken).map(({ difference, runs, missed, who, what }) => ({ difference, runs: String(runs), missed: String(missed), who, what }));
}

export interface Difference {
  readonly difference: string;
  readonly runs: number;
  /** How many of these runs missed the task. */
  readonly missed: number;
  /** The run in which it is largest: who, in which file, and what was done there. */
  readonly who: string;
  readonly file: string;
  readonly what: string;
}

/** Those first that are in the most runs that missed the task, then the commonest. */
export function differencesOf(taken: readonly Taken[]): Difference[] {
  const sound = taken.flatMap(({ verdict, run, file }) => (verdict === 'agrees' && run ? [{ run, file }] : []));
  const made = sound.flatMap(({ run, file }) => run.mistakes.map((mistake) => ({ run, file, mistake })));
  const kinds = [...new Set(made.map(({ mistake }) => mistake.kind))];
  const rows = kinds.map((kind): Difference => {
    const of = made.filter(({ mistake }) => mistake.kind === kind);
    const runs = [...new Set(of.map(({ run }) => run))];
    const { run, file, mistake } = of.reduce((largest, one) => (one.mistake.size > largest.mistake.size ? one : largest));
    return { difference: nameOf(kind), runs: runs.length, missed: runs.filter(({ meets }) => !meets).length, who: run.who, file, what: mistake.what };
  });
  return rows.sort((a, b) => b.missed - a.missed || b.runs - a.runs);
}
