import type { Issue } from '../terms/types.ts';
import { readHandedIn } from './handed-in.ts';
import { type Recomputed, recomputed } from './recomputed.ts';

/**
 * The verdict on a file. `agrees`: its results are as claimed, and nothing was changed since it was written. `altered`: it can be
 * computed, but its results differ, or its text was changed. `damaged` and `foreign` ones cannot be computed.
 */
export type Verdict = 'agrees' | 'altered' | 'damaged' | 'foreign';

export interface Taken {
  readonly file: string;
  readonly verdict: Verdict;
  /** Why, if it does not agree. */
  readonly issues: readonly Issue[];
  readonly run?: Recomputed;
}

/** Reads a file and computes it again; `alive` is called meanwhile. Never throws, whatever the text is. */
export async function takenIn(file: string, source: string, known: (id: string) => Promise<unknown>, alive?: () => void): Promise<Taken> {
  const read = await readHandedIn(source, known);
  if (!read.ok) return { file, verdict: read.because, issues: read.issues };
  const run = recomputed(read.run, alive);
  const issues = issuesOf(run);
  return { file, verdict: issues.length > 0 ? 'altered' : 'agrees', issues, run };
}

function issuesOf({ agrees, differences, unchanged }: Recomputed): Issue[] {
  const wrong = agrees === 'no' ? differences : [];
  const marked = unchanged
    ? []
    : [{ path: 'check', expected: 'the mark of the text as it was written', received: 'another mark: the text was changed afterwards' }];
  return [...marked, ...wrong.map(({ figure, claimed, computed }) => ({ path: `claimed.${figure}`, expected: String(computed), received: String(claimed) }))];
}
