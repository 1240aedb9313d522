import type { Theme } from '../../../sim/colour/index.ts';
import { firstDifference, type Plan } from '../../../sim/history/index.ts';
import { framesOfColumns, type Inks, inksOf, streaksInto } from './streaks.ts';

/** Most columns of the picture; a screen shows about as many across the figure. */
const COLUMNS_MAX = 1000;

interface Drawn {
  readonly plan: Plan;
  readonly frames: Int32Array;
  readonly tops: readonly number[];
  readonly inks: Inks;
}

/** Keeps the picture of the bands on a canvas and repaints only the columns that a change of the run touches. */
export class StreakImage {
  private image: ImageData | undefined;
  private drawn: Drawn | undefined;
  private inks: Inks | undefined;

  /** Columns painted; 0 when the canvas already shows this. */
  draw(canvas: HTMLCanvasElement, plan: Plan, tops: readonly number[], theme: Theme, end_mL: number, frame_mL: number): number {
    const columns = Math.max(2, Math.min(COLUMNS_MAX, Math.round(end_mL / frame_mL)));
    const context = canvas.getContext('2d');
    if (!context) return 0;
    const image = this.fitted(canvas, columns, plan.plates);
    const next = { plan, frames: framesOfColumns(plan, columns, end_mL), tops, inks: this.inksFor(plan, theme) };
    const first = this.drawn ? firstColumn(this.drawn, next) : 0;
    this.drawn = next;
    if (first >= columns) return 0;
    streaksInto(image.data, plan, next.frames, next.inks, next.tops, first);
    context.putImageData(image, 0, 0, first, 0, columns - first, plan.plates);
    return columns - first;
  }

  private fitted(canvas: HTMLCanvasElement, columns: number, plates: number): ImageData {
    if (this.image?.width === columns && this.image.height === plates && canvas.width === columns && canvas.height === plates) return this.image;
    canvas.width = columns;
    canvas.height = plates;
    this.drawn = undefined;
    this.image = new ImageData(columns, plates);
    return this.image;
  }

  private inksFor(plan: Plan, theme: Theme): Inks {
    const ids = ['HCl', ...plan.ions] as const;
    if (this.inks?.theme !== theme || this.inks.ids.join() !== ids.join()) this.inks = inksOf(ids, theme);
    return this.inks;
  }
}

function firstColumn(before: Drawn, after: Drawn): number {
  if (before.inks !== after.inks || before.tops.some((top, k) => top !== after.tops[k])) return 0;
  if (before.plan === after.plan) return after.frames.length;
  const same = firstDifference(before.plan, after.plan);
  const changed = after.frames.findIndex((frame, x) => frame !== before.frames[x] || frame >= same);
  return changed < 0 ? after.frames.length : changed;
}
