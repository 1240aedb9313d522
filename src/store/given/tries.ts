import { isRecord, parseJson } from '../../../sim/input/index.ts';

// How many tries of each hand-out were begun in this browser. If the browser stores nothing, they are counted until the page is closed.

const KEY = 'bandfall.tries';

export interface Tries {
  begun(mark: string): number;
  begin(mark: string, attempt: number): void;
}

export function openTries(storage: Storage | undefined): Tries {
  let known = kept(storage);
  return {
    begun: (mark) => Math.max(known[mark] ?? 0, kept(storage)[mark] ?? 0),
    begin(mark, attempt) {
      known = { ...kept(storage), ...known, [mark]: Math.max(attempt, known[mark] ?? 0) };
      try {
        storage?.setItem(KEY, JSON.stringify(known));
      } catch {
        // They are still counted on the page.
      }
    },
  };
}

function kept(storage: Storage | undefined): Readonly<Record<string, number>> {
  try {
    const parsed = parseJson(storage?.getItem(KEY) ?? '{}', 'tries');
    const counts = parsed.ok && isRecord(parsed.json) ? Object.entries(parsed.json) : [];
    return Object.fromEntries(counts.filter((count): count is [string, number] => Number.isInteger(count[1])));
  } catch {
    return {};
  }
}
