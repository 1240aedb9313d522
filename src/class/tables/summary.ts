import type { Judged, Recomputed, Taken } from '../../../sim/handed/index.ts';
import type { Cell, Column, Row } from '../../ui/text/csv.ts';
import { percentBeside } from '../../ui/text/beside-limit.ts';
import { fixed } from '../../ui/text/format.ts';
import type { Held } from '../class-room.ts';
import { APART } from './objections.ts';

// The class on one page, as tables.

export const RUNS: readonly Column[] = [
  { key: 'who', label: 'who' },
  { key: 'verdict', label: 'verdict' },
  { key: 'water', label: 'water started', unit: 'mL', show: (value) => fixed(value, 1) },
  { key: 'change', label: 'receiver changed', unit: 'mL', show: (value) => fixed(value, 1) },
  { key: 'met', label: 'met the task' },
  { key: 'recovered', label: 'recovered', show: (value, { asked }) => percentBeside(value, Number(asked)) },
  { key: 'carried', label: 'other metal with it', show: (value, { allowed }) => percentBeside(value, Number(allowed)) },
  { key: 'acid', label: 'acid with it', unit: 'mmol', show: (value) => fixed(value, 1) },
  { key: 'time', label: 'time', unit: 'min', show: (value) => fixed(value, 0) },
  { key: 'right', label: 'predictions right' },
  { key: 'answers', label: 'answers right' },
  { key: 'attempt', label: 'try' },
];

/** The columns that these runs need. */
export function runColumns(taken: readonly Held[]): readonly Column[] {
  return taken.some(({ sameAs }) => sameAs.length > 0) ? [...RUNS, SAME] : RUNS;
}

/** Names of runs of the same actions in a line of the table; a choice. */
const NAMED = 2;
const SAME: Column = { key: 'same', label: 'same actions as' };

export function runRows(taken: readonly Held[]): Row[] {
  return taken.map((held) => {
    const { file, run, sameAs, asked } = held;
    return {
      who: run?.who ?? file,
      verdict: verdictWords(held),
      water: run?.eluent_mL,
      change: run?.change_mL,
      met: run && (run.meets ? 'yes' : 'no'),
      recovered: run?.recovered,
      carried: run?.carried,
      // Limits, so that a figure just beyond one is not rounded onto it.
      asked: run?.targets.recovered,
      allowed: run?.targets.carried,
      acid: run?.acid_mmol,
      time: run?.time_min,
      right: run && rightOf(run),
      answers: run && answersRight(run, asked),
      same: briefly(sameAs),
      attempt: run?.under && `${run.under.attempt} of ${run.under.tries}`,
    };
  });
}

/** How many of the runs that agree did what the task asks; empty where none agrees. */
export function metWords(taken: readonly Taken[]): string {
  const sound = agreeing(taken);
  return sound.length === 0 ? '' : `${sound.filter(({ meets }) => meets).length} of the ${sound.length} that agree met the task.`;
}

/** Some of many names; the spreadsheet has them all. */
function briefly(names: readonly string[]): string {
  return names.length <= NAMED + 1 ? names.join(', ') : `${names.slice(0, NAMED).join(', ')} and ${names.length - NAMED} more`;
}

/** A run under a name that came too often is sound, so this is said last. */
function verdictWords({ verdict, apart, origin, often }: Held): string {
  if (verdict !== 'agrees') return verdict;
  if (origin === 'another') return 'another hand-out';
  if (origin === 'none') return 'no hand-out';
  if (apart.length > 0) return APART;
  return often ? `same name ${often.times} times` : verdict;
}

/** Amounts and shares below this are rounding errors of the model, not results. A choice, far below what any balance or burette tells. */
const NOTHING = 1e-12;

/** The runs with every answer, for a spreadsheet; files that were not computed have a line with their name. */
export function wholeTable(
  taken: readonly Held[],
  notComputed: readonly string[] = [],
): { readonly columns: readonly Column[]; readonly rows: readonly Row[] } {
  const asked = questionsIn(taken);
  const columns = [
    { key: 'file', label: 'name of the file' },
    ...RUNS,
    SAME,
    { key: 'seed', label: 'column (seed)' },
    { key: 'apart', label: 'differs from hand-out' },
    { key: 'differences', label: 'otherwise than the procedure' },
  ];
  const rows = runRows(taken).map((row, i): Row => {
    const { file, run, apart, sameAs } = taken[i];
    const answers = asked.map((prompt, n): [string, string | undefined] => [`answer ${n}`, run?.answers.find((one) => one.prompt === prompt)?.said]);
    return {
      ...Object.fromEntries(Object.entries(row).map(([key, value]) => [key, cleared(value)])),
      file,
      same: sameAs.join(', '),
      seed: run?.seed,
      apart: apart.map(({ path, received }) => `${path}: ${received}`).join('; '),
      differences: run && differencesBriefly(run),
      ...Object.fromEntries(answers),
    };
  });
  const left = notComputed.map((file): Row => ({ file, verdict: 'not computed' }));
  return { columns: [...columns, ...asked.map((label, n) => ({ key: `answer ${n}`, label }))], rows: [...rows, ...left] };
}

function cleared(value: Cell): Cell {
  return typeof value === 'number' && Math.abs(value) < NOTHING ? 0 : value;
}

function answersRight({ answers }: Recomputed, asked: number | undefined): string {
  const judged = answers.filter(({ right }) => right !== undefined);
  const right = judged.filter((one) => one.right && one.rightReason).length;
  if (asked !== undefined && asked > judged.length) return `${right} of ${judged.length} answered (${asked} asked)`;
  return judged.length === 0 ? '' : `${right} of ${judged.length}`;
}

function rightOf({ predictions }: Recomputed): string {
  const judged = predictions.filter(({ right }) => right !== undefined);
  return judged.length === 0 ? 'none made' : `${judged.filter(({ right }) => right).length} of ${judged.length}`;
}

const ASKED = {
  load: 'Which ion leaves first?',
  eluent: 'At what volume does the metal that is held begin to leave?',
  receiver: 'What drips from the tip at the change of receiver?',
  stop: 'How much of the metal is in the receiver?',
};

export const QUESTIONS: readonly Column[] = [
  { key: 'question', label: 'question' },
  { key: 'right', label: 'right' },
  { key: 'wrong', label: 'wrong' },
  { key: 'open', label: 'not shown by the run' },
];

export function questionRows(taken: readonly Taken[]): Row[] {
  const all = agreeing(taken).flatMap(({ predictions }) => predictions);
  if (all.length === 0) return [];
  return Object.entries(ASKED).map(([occasion, question]) => {
    const asked = all.filter((one) => one.occasion === occasion);
    const count = (right: boolean | undefined): string => String(asked.filter((one) => one.right === right).length);
    return { question, right: count(true), wrong: count(false), open: count(undefined) };
  });
}

export const ASKED_AT_THE_END: readonly Column[] = [
  { key: 'question', label: 'question' },
  { key: 'both', label: 'right, with the right reason' },
  { key: 'choice', label: 'right, for another reason' },
  { key: 'wrong', label: 'wrong' },
];

/** Questions with a choice, judged by the model. */
export function answerRows(taken: readonly Taken[]): Row[] {
  const all = agreeing(taken).flatMap(({ answers }) => answers);
  const asked = [...new Set(all.filter(({ right }) => right !== undefined).map(({ prompt }) => prompt))];
  return asked.map((question) => {
    const answers = all.filter(({ prompt }) => prompt === question);
    const count = (of: (one: Judged) => boolean | undefined): string => String(answers.filter(of).length);
    return {
      question,
      both: count(({ right, rightReason }) => right && rightReason),
      choice: count(({ right, rightReason }) => right && !rightReason),
      wrong: count(({ right }) => right === false),
    };
  });
}

/** Questions in the instructor's words, with what each said. */
export function wordsOf(taken: readonly Taken[]): { readonly question: string; readonly said: readonly { readonly who: string; readonly words: string }[] }[] {
  const all = agreeing(taken).flatMap(({ who, answers }) => answers.filter(({ words }) => words !== undefined).map((answer) => ({ who, ...answer })));
  return [...new Set(all.map(({ prompt }) => prompt))].map((question) => ({
    question,
    said: all.filter(({ prompt }) => prompt === question).map(({ who, said }) => ({ who, words: said })),
  }));
}

function questionsIn(taken: readonly Taken[]): string[] {
  return [...new Set(runsOf(taken).flatMap(({ answers }) => answers.map(({ prompt }) => prompt)))];
}

/** In an altered file it is not known what the student really did and answered. */
export function agreeing(taken: readonly Taken[]): Recomputed[] {
  return runsOf(taken.filter(({ verdict }) => verdict === 'agrees'));
}

export function runsOf(taken: readonly Taken[]): Recomputed[] {
  return taken.flatMap(({ run }) => (run ? [run] : []));
}

/** Names of what a run did otherwise than the procedure, each once. */
export function differencesBriefly({ mistakes }: Recomputed): string {
  return [...new Set(mistakes.map(({ kind }) => nameOf(kind)))].join(', ');
}

export function nameOf(kind: string): string {
  return kind.replaceAll('-', ' ');
}
