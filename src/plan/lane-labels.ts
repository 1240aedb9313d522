// Where the names of the tasks of one lane stand: in the block where it is wide enough, else in a row under the lane, so that no
// block is without a name and no name stands on another.

export interface Block {
  readonly from: number;
  readonly width: number;
  /** Names from the fullest to the shortest. */
  readonly names: readonly string[];
}

export interface BlockLabel {
  readonly text: string;
  /** Middle of the text, px. */
  readonly at: number;
  /** 0: in the block; 1 and more: so many rows under it. */
  readonly row: number;
}

/** Mean width of a character in the block, and in a row under it, px. */
const CHARACTER = 7.2;
const SMALL_CHARACTER = 6.3;
const APART = 5;

/** `blocks` from left to right; `left` and `right` bound the text, px. */
export function laneLabels(blocks: readonly Block[], left: number, right: number): BlockLabel[] {
  /** Right end of the last text of each row, px. */
  const ends: number[] = [];
  return blocks.map(({ from, width, names }) => {
    const inside = names.find((name) => name.length * CHARACTER < width - 6);
    const middle = from + width / 2;
    if (inside !== undefined) return { text: inside, at: middle, row: 0 };
    const text = names[names.length - 1] ?? '';
    const half = (text.length * SMALL_CHARACTER) / 2;
    const at = Math.min(right - half, Math.max(left + half, middle));
    const free = ends.findIndex((end) => end + APART <= at - half);
    const row = free < 0 ? ends.length : free;
    ends[row] = at + half;
    return { text, at, row: row + 1 };
  });
}
