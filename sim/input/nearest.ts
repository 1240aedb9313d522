// The known name nearest to a mistyped one, for the messages of the readers.

/** Longer names are not compared: a key of a megabyte is not a slip of the finger. */
const NAME_MAX = 80;

/** The known name with the fewest slips from `name`, or undefined when none is near. */
export function nearestName(name: string, known: readonly string[]): string | undefined {
  if (name === '' || name.length > NAME_MAX) return undefined;
  const wanted = name.toLowerCase();
  let best: string | undefined;
  let slipsBest = slipsAllowed(wanted) + 1;
  for (const candidate of known) {
    const slips = slipsToEnding(wanted, candidate.toLowerCase());
    if (slips >= slipsBest) continue;
    slipsBest = slips;
    best = candidate;
  }
  return best;
}

/**
 * Insertions, deletions, substitutions and swaps of neighbours that turn `a` into `b`, no letter edited twice
 * (optimal string alignment; Damerau, Commun. ACM 7 (1964) 171, and Levenshtein 1966, recalled).
 */
export function slipsBetween(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let slips = Math.min(above[j] + 1, row[j - 1] + 1, above[j - 1] + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) slips = Math.min(slips, before[j - 2] + 1);
      row.push(slips);
    }
    before = above;
    above = row;
  }
  return above[b.length];
}

/** A third of the letters may be wrong, and two in short names. */
function slipsAllowed(name: string): number {
  return Math.max(Math.min(2, name.length - 1), Math.floor(name.length / 3));
}

/** `length_cm` is near `bed.length_cm`: the last part of a dotted name counts as well, one slip dearer. */
function slipsToEnding(name: string, candidate: string): number {
  const whole = slipsBetween(name, candidate);
  const dot = candidate.lastIndexOf('.');
  return dot < 0 ? whole : Math.min(whole, slipsBetween(name, candidate.slice(dot + 1)) + 1);
}
