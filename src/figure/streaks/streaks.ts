import { type PlotId, streakRamp, type Theme } from '../../../sim/colour/index.ts';
import { PALETTE } from '../../ui/look/palette.ts';
import { shownOf, strongestAcid, strongestMetal } from '../drawing.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { deliveredAtEnd, frameAt, highestInBed, type Plan, profilesOf } from '../../../sim/history/index.ts';

// The bands as a picture: one column per step of delivered volume, one row per plate, every ion laid over the others.

/** Inks of the components on one page, each as what a full step of its ramp does to the page. */
export interface Inks {
  readonly ids: readonly PlotId[];
  readonly theme: Theme;
  readonly page: readonly number[];
  /** Per component, STEPS times red, green, blue: factors on a light page, additions on a dark one. */
  readonly tables: readonly Float32Array[];
}

/** Steps of a ramp; the eye tells fewer apart. */
const STEPS = 256;
/** The acid is a backdrop: its ramp stops here. */
const ACID_SHARE: Readonly<Record<Theme, number>> = { light: 0.28, dark: 0.16 };
/** Ramps run with the square root of the amount, so that a spread band is still seen beside a thin one. */
const ROOT = 0.5;

/**
 * Laid over each other inks multiply on a light page and add on a dark one; alone each gives exactly its numeric ramp.
 */
export function inksOf(ids: readonly PlotId[], theme: Theme): Inks {
  const page = rgbOf(PALETTE[theme].paper);
  const tables = ids.map((id) => {
    const table = new Float32Array(STEPS * 3);
    const reach = id === 'HCl' ? ACID_SHARE[theme] : 1;
    for (let step = 0; step < STEPS; step++) {
      const colour = streakRamp(id, theme, (reach * step) / (STEPS - 1), PALETTE[theme].paper);
      for (let c = 0; c < 3; c++) table[step * 3 + c] = theme === 'light' ? colour[c] / page[c] : colour[c] - page[c];
    }
    return table;
  });
  return { ids, theme, page, tables };
}

/** Top of each component's ramp: the strongest acid on the bench, and of each metal its highest amount in the run, rounded up to one figure. */
export function rampTops(scenario: Scenario, plan: Plan): number[] {
  return [strongestAcid(scenario), ...plan.ions.map((ion) => roundedUp(highestInBed(plan, ion) || strongestMetal(scenario)))];
}

/** The frame shown by each of `columns` equal steps of the axis; -1 beyond the run. */
export function framesOfColumns(plan: Plan, columns: number, end_mL: number): Int32Array {
  const last = deliveredAtEnd(plan);
  return Int32Array.from({ length: columns }, (_, x) => {
    const delivered = ((x + 0.5) / columns) * end_mL;
    return delivered > last ? -1 : frameAt(plan, delivered);
  });
}

/** Paints columns from `first` on, each as high as the bed is by then, standing on the bottom line. `pixels` holds red, green, blue, alpha of columns x plates, line after line. */
export function streaksInto(pixels: Uint8ClampedArray, plan: Plan, frames: Int32Array, inks: Inks, tops: readonly number[], first = 0): void {
  const { plates } = plan;
  const table = rootTable();
  const scale = tops.map((top) => (top > 0 ? (ROOTS - 1) / top : 0));
  const multiply = inks.theme === 'light';
  const [pageR, pageG, pageB] = inks.page;
  for (let x = first; x < frames.length; x++) {
    const held = frames[x] < 0 ? [] : profilesOf(plan, frames[x]);
    const shown = frames[x] < 0 ? 0 : shownOf(plan, frames[x]);
    // Rows above the bed as it stands then; the row that its top crosses is covered in part.
    const above = plates * (1 - shown);
    for (let j = 0; j < plates; j++) {
      const out = (j * frames.length + x) * 4;
      const cover = Math.min(1, j + 1 - above);
      if (shown <= 0 || cover <= 0) {
        pixels[out + 3] = 0;
        continue;
      }
      const cell = Math.min(plates - 1, Math.floor(Math.max(0, j + 0.5 - above) / shown));
      let r = pageR;
      let g = pageG;
      let b = pageB;
      for (let k = 0; k < held.length; k++) {
        const place = Math.min(ROOTS - 1, held[k][cell] * scale[k]);
        const step = k === 0 ? ((place * (STEPS - 1)) / (ROOTS - 1)) | 0 : table[place | 0];
        if (step <= 0) continue;
        const ink = inks.tables[k];
        const at = step * 3;
        if (multiply) {
          r *= ink[at];
          g *= ink[at + 1];
          b *= ink[at + 2];
        } else {
          r += ink[at];
          g += ink[at + 1];
          b += ink[at + 2];
        }
      }
      pixels[out] = r * 255;
      pixels[out + 1] = g * 255;
      pixels[out + 2] = b * 255;
      pixels[out + 3] = 255 * cover;
    }
  }
}

/** Amounts are looked up by place instead of taking a root each. */
const ROOTS = 4096;
let roots: Uint8Array | undefined;

function rootTable(): Uint8Array {
  roots ??= Uint8Array.from({ length: ROOTS }, (_, place) => Math.round((STEPS - 1) * (place / (ROOTS - 1)) ** ROOT));
  return roots;
}

function roundedUp(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  return decade * Math.ceil((value / decade) * (1 - 1e-9));
}

function rgbOf(hex: string): number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
}
