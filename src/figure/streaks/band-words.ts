import { deliveredOf } from '../../../sim/history/index.ts';
import { type IonId, symbolOf } from '../../../sim/terms/ions.ts';
import { type Box, overlap } from '../../plot/box.ts';
import { BOLD, textWidth } from '../rows/labels.ts';
import { CELL, type InkGrid, inkGrids, ownInk } from './ink-grid.ts';
import type { Measured } from './measured.ts';
import { type Motion, motionsOf } from './motions.ts';

// How each band moves, said on its own streak: elsewhere it would be read with another band. Left out where no streak has room.

/** Words on a streak; turned ones read upwards. The baseline begins at x, y. */
export interface BandWord {
  readonly ion: IonId;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
  readonly box: Box;
}

const SAID: Readonly<Record<Motion['kind'], string>> = { runs: 'runs through', crawls: 'crawls', stays: 'stays', falls: 'falls' };
/** Above and below the baseline, px, for text of 14 px. */
const ABOVE = 12;
const BELOW = 4;

interface Placed {
  readonly taken: string;
  readonly words: readonly BandWord[];
}

const known = new WeakMap<Measured, Placed>();

/** Words that keep off what is taken, each told once the run has passed it; they are placed once for a run, so that they stand still while it is played. */
export function bandWords(measured: Measured, taken: readonly Box[], until_mL: number): readonly BandWord[] {
  const key = JSON.stringify(taken);
  const kept = known.get(measured);
  const placed = kept?.taken === key ? kept : { taken: key, words: placedIn(measured, taken) };
  known.set(measured, placed);
  return placed.words.filter(({ box }) => measured.x.invert(box.right) <= until_mL);
}

/** The longest stretch has the first choice. */
function placedIn(measured: Measured, taken: readonly Box[]): BandWord[] {
  const grids = inkGrids(measured);
  const motions = measured.tracks.flatMap((track) => motionsOf(measured.plan, track)).sort((a, b) => b.span - a.span);
  const words: BandWord[] = [];
  for (const motion of motions) {
    const grid = grids.get(motion.ion);
    const word = grid && wordFor(measured, grid, motion, [...taken, ...words.map(({ box }) => box)]);
    if (word) words.push(word);
  }
  return words;
}

/** The fullest wording that has room, level before turned, where the streak is densest. */
function wordFor(measured: Measured, grid: InkGrid, motion: Motion, taken: readonly Box[]): BandWord | undefined {
  const { plan, x } = measured;
  // Without its charge: the words are about the element.
  const symbol = symbolOf(motion.ion);
  const full = `${symbol} ${SAID[motion.kind]}`;
  const stretch = { from: x(deliveredOf(plan, motion.from)), to: x(deliveredOf(plan, motion.to)) };
  for (const text of new Set([full, `${symbol} ${SAID[motion.kind].split(' ')[0]}`])) {
    for (const turned of [false, true]) {
      const box = densest(measured, grid, stretch, textWidth(text) * BOLD, turned, taken);
      if (!box) continue;
      const at = turned ? { x: box.right - BELOW, y: box.bottom } : { x: box.left, y: box.bottom - BELOW };
      return { ion: motion.ion, text, turned, box, ...at };
    }
  }
  return undefined;
}

function densest(
  measured: Measured,
  grid: InkGrid,
  { from, to }: { from: number; to: number },
  length: number,
  turned: boolean,
  taken: readonly Box[],
): Box | undefined {
  const { left: origin, depth } = measured.layout;
  const [wide, high] = turned ? [ABOVE + BELOW, length] : [length, ABOVE + BELOW];
  let best: { readonly box: Box; readonly ink: number } | undefined;
  // From cell to cell, so that a narrow streak is not missed by half a cell.
  for (let left = origin + CELL * Math.ceil((from - origin) / CELL); left + wide <= to; left += CELL) {
    for (let y = depth.top; y + high <= depth.bottom; y += CELL) {
      const box = { left, right: left + wide, top: y, bottom: y + high };
      const ink = ownInk(grid, measured, box) ?? 0;
      if (ink > (best?.ink ?? 0) && !taken.some((other) => overlap(other, box))) best = { box, ink };
    }
  }
  return best?.box;
}
