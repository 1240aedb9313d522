import type { Issue } from '../../../sim/terms/types.ts';
import type { Column, Row } from '../../ui/text/csv.ts';
import { type Held, nameOf, type Often } from '../class-room.ts';

// What is wrong with files that were taken in, as tables.

/** A sound run of what was handed out, though on another column or with more tries than its rules allow. */
export const APART = 'other rules';

export const OBJECTIONS: readonly Column[] = [
  { key: 'file', label: 'file' },
  { key: 'verdict', label: 'verdict' },
  { key: 'who', label: 'name in it' },
  { key: 'why', label: 'why' },
];

/** Files that do not agree, or break the rules of the hand-out they are from, with the first thing that is wrong in words. */
export function objectionRows(taken: readonly Held[]): Row[] {
  return taken
    .filter((one) => one.verdict !== 'agrees' || broken(one).length > 0)
    .map((one) => {
      const { file, verdict: found, issues, run } = one;
      const all = [...issues, ...broken(one)];
      const first = all.find(({ path }) => path.startsWith(CLAIMED)) ?? all[0];
      const verdict = found === 'agrees' ? APART : found;
      return { file, verdict, who: run?.who ?? '', why: `${objection(first)}${moreOf(all.length - 1, found)}` };
    });
}

/** A run of another hand-out, or of none, breaks no rules: it only cannot be measured by this one. */
function broken({ origin, apart }: Held): Held['apart'] {
  return origin === 'this' ? apart : [];
}

/** Runs that are not of the hand-out that runs are compared with, counted in a sentence; empty if there are none. */
export function elsewhereWords(taken: readonly Held[]): string {
  const of = (origin: Held['origin']): number => taken.filter((one) => one.origin === origin).length;
  const [another, none] = [of('another'), of('none')];
  const parts = [...(another > 0 ? [`${another} from another hand-out`] : []), ...(none > 0 ? [`${none} from none`] : [])];
  const count = another + none;
  return count === 0 ? '' : `${count} ${count === 1 ? 'run is' : 'runs are'} not of this hand-out: ${parts.join(', ')}.`;
}

export const NAMES: readonly Column[] = [
  { key: 'who', label: 'name' },
  { key: 'times', label: 'runs' },
  { key: 'tries', label: 'tries allowed' },
  { key: 'files', label: 'files' },
];

/** Names under which more runs came than tries were allowed: two students with one code, or a file that was sent twice. */
export function nameRows(taken: readonly Held[]): Row[] {
  const found = new Map<string, { who: string; often: Often; files: string[] }>();
  for (const { file, run, often } of taken) {
    if (!run || !often) continue;
    const known = found.get(nameOf(run.who));
    if (known) known.files.push(file);
    else found.set(nameOf(run.who), { who: run.who, often, files: [file] });
  }
  return [...found.values()].map(({ who, often, files }) => ({ who, times: String(often.times), tries: String(often.tries), files: files.join(', ') }));
}

const CLAIMED = 'claimed.';

function objection({ path, expected, received }: Issue): string {
  if (path.startsWith('file') && received.startsWith('one that is cut off')) return received.replace('one that', 'the file');
  if (path === 'check') return 'the text was changed since it was written, though no figure differs';
  if (path.startsWith(CLAIMED)) {
    const [said, is] = toldApart(received, expected);
    return `${figureWords(path.slice(CLAIMED.length))}: ${said} in the file, ${is} when computed again`;
  }
  return `${path}: expected ${expected}, received ${received}`;
}

/** Fewest digits of a figure, and most that a number holds. */
const DIGITS = [4, 17] as const;

/** Two figures in as few digits as tell them apart; names of receivers as they are. */
function toldApart(...texts: readonly [string, string]): readonly string[] {
  const numbers = texts.map(Number);
  if (numbers.some((number) => !Number.isFinite(number))) return texts;
  const rounded = (digits: number): string[] => numbers.map((number) => String(Number(number.toPrecision(digits))));
  let digits: number = DIGITS[0];
  while (digits < DIGITS[1] && rounded(digits)[0] === rounded(digits)[1]) digits += 1;
  return rounded(digits);
}

function figureWords(figure: string): string {
  const [, slot, what = ''] = /^receivers\[(\d+)\]\.(.*)$/.exec(figure) ?? [];
  const [, name, unit] = /^(.*)_(mmol|mL|min)$/.exec(slot === undefined ? figure : what) ?? [];
  return `${name ?? what}${slot === undefined ? '' : ` in receiver ${Number(slot) + 1}`}${unit ? `, ${unit}` : ''}`;
}

function moreOf(count: number, found: Held['verdict']): string {
  if (count <= 0) return '';
  const noun = found === 'damaged' || found === 'foreign' ? 'fault' : 'difference';
  return `; and ${count} more ${noun}${count === 1 ? '' : 's'}`;
}
