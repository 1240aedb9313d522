import type { Recomputed, Taken } from '../../sim/handed/index.ts';
import type { Column, Row } from '../ui/text/csv.ts';
import { fixed, percent } from '../ui/text/format.ts';

// The class on one page, as tables.

export const RUNS: readonly Column[] = [
  { key: 'who', label: 'who' },
  { key: 'verdict', label: 'file' },
  { key: 'water', label: 'water started', unit: 'mL', show: (value) => fixed(value, 1) },
  { key: 'change', label: 'receiver changed', unit: 'mL', show: (value) => fixed(value, 1) },
  { key: 'recovered', label: 'recovered', show: (value) => percent(value) },
  { key: 'carried', label: 'other metal with it', show: (value) => percent(value) },
  { key: 'acid', label: 'acid with it', unit: 'mmol', show: (value) => fixed(value, 1) },
  { key: 'time', label: 'time', unit: 'min', show: (value) => fixed(value, 0) },
  { key: 'right', label: 'predictions right' },
];

export function runRows(taken: readonly Taken[]): Row[] {
  return taken.map(({ file, verdict, run }) => ({
    who: run?.who ?? file,
    verdict,
    water: run?.eluent_mL,
    change: run?.change_mL,
    recovered: run?.recovered,
    carried: run?.carried,
    acid: run?.acid_mmol,
    time: run?.time_min,
    right: run && rightOf(run),
  }));
}

function rightOf({ predictions }: Recomputed): string {
  const judged = predictions.filter(({ right }) => right !== undefined);
  return judged.length === 0 ? 'none made' : `${judged.filter(({ right }) => right).length} of ${judged.length}`;
}

export const OBJECTIONS: readonly Column[] = [
  { key: 'file', label: 'file' },
  { key: 'verdict', label: 'it is' },
  { key: 'who', label: 'name in it' },
  { key: 'why', label: 'why' },
];

/** Files that do not agree, with the first thing that is wrong in words. */
export function objectionRows(taken: readonly Taken[]): Row[] {
  return taken
    .filter(({ verdict }) => verdict !== 'agrees')
    .map(({ file, verdict, issues, run }) => {
      const [{ path, expected, received }] = issues;
      const more = issues.length > 1 ? `, and ${issues.length - 1} more` : '';
      return { file, verdict, who: run?.who ?? '', why: `${path}: expected ${expected}, received ${received}${more}` };
    });
}

const ASKED = {
  load: 'Which ion leaves first?',
  eluent: 'At what volume does the first of the held metal leave?',
  receiver: 'What drips at the change of receiver?',
  stop: 'How much of it is in the receiver?',
};

export const QUESTIONS: readonly Column[] = [
  { key: 'question', label: 'question' },
  { key: 'right', label: 'right' },
  { key: 'wrong', label: 'wrong' },
  { key: 'open', label: 'not shown by the run' },
];

export function questionRows(taken: readonly Taken[]): Row[] {
  const all = agreeing(taken).flatMap(({ predictions }) => predictions);
  return Object.entries(ASKED).map(([occasion, question]) => {
    const asked = all.filter((one) => one.occasion === occasion);
    const count = (right: boolean | undefined): string => String(asked.filter((one) => one.right === right).length);
    return { question, right: count(true), wrong: count(false), open: count(undefined) };
  });
}

export const MISTAKES: readonly Column[] = [
  { key: 'mistake', label: 'mistake' },
  { key: 'runs', label: 'runs' },
  { key: 'who', label: 'best shown by' },
  { key: 'what', label: 'there' },
];

/** The commonest first. Best shown by the run with the fewest other mistakes. */
export function mistakeRows(taken: readonly Taken[]): Row[] {
  const made = agreeing(taken).flatMap((run) => run.mistakes.map((mistake) => ({ run, mistake })));
  const kinds = [...new Set(made.map(({ mistake }) => mistake.kind))];
  const rows = kinds.map((kind) => {
    const of = made.filter(({ mistake }) => mistake.kind === kind);
    const best = of.reduce((clearest, one) => (one.run.mistakes.length < clearest.run.mistakes.length ? one : clearest));
    return { count: new Set(of.map(({ run }) => run)).size, mistake: kind.replaceAll('-', ' '), who: best.run.who, what: best.mistake.what };
  });
  return rows.sort((a, b) => b.count - a.count).map(({ count, ...row }) => ({ ...row, runs: String(count) }));
}

/** Of an altered file one does not know what was said and done. */
function agreeing(taken: readonly Taken[]): Recomputed[] {
  return runsOf(taken.filter(({ verdict }) => verdict === 'agrees'));
}

export function runsOf(taken: readonly Taken[]): Recomputed[] {
  return taken.flatMap(({ run }) => (run ? [run] : []));
}
