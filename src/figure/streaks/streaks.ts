import { streakRamp, type PlotId, type Theme } from '../../../sim/colour/plot.ts';
import { PALETTE } from '../../ui/palette.ts';
import { strongestAcid, strongestMetal } from '../drawing.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Plan } from '../../../sim/history/plan.ts';
import { FRAME } from '../../../sim/history/record.ts';
import { deliveredAtEnd } from '../../../sim/history/windows.ts';

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
  return [strongestAcid(scenario), ...plan.ions.map((_, i) => roundedUp(highest(plan, i + 1) || strongestMetal(scenario)))];
}

function highest({ profiles, components, plates, count }: Plan, component: number): number {
  let most = 0;
  for (let frame = 0; frame < count; frame++) {
    const from = (frame * components + component) * plates;
    for (let at = from; at < from + plates; at++) if (profiles[at] > most) most = profiles[at];
  }
  return most;
}

/** The frame shown by each of `columns` equal steps of the axis; -1 beyond the run. */
export function framesOfColumns(plan: Plan, columns: number, end_mL: number): Int32Array {
  const { rows, stride, count } = plan;
  const last = deliveredAtEnd(plan);
  const frames = new Int32Array(columns).fill(-1);
  let frame = 0;
  for (let x = 0; x < columns; x++) {
    const delivered = ((x + 0.5) / columns) * end_mL;
    if (delivered > last) break;
    while (frame + 1 < count && rows[(frame + 1) * stride + FRAME.delivered] <= delivered) frame++;
    frames[x] = frame;
  }
  return frames;
}

/** First frame at which two runs differ in what the bed holds. */
export function firstDifference(a: Plan, b: Plan): number {
  if (a.plates !== b.plates || a.components !== b.components) return 0;
  const size = a.plates * a.components;
  const frames = Math.min(a.count, b.count);
  for (let at = 0; at < frames * size; at++) if (a.profiles[at] !== b.profiles[at]) return Math.floor(at / size);
  return frames;
}

/** Paints columns from `first` on. `pixels` holds red, green, blue, alpha of columns x plates, line after line. */
export function streaksInto(pixels: Uint8ClampedArray, plan: Plan, frames: Int32Array, inks: Inks, tops: readonly number[], first = 0): void {
  const { plates, components } = plan;
  const table = rootTable();
  const scale = tops.map((top) => (top > 0 ? (ROOTS - 1) / top : 0));
  const multiply = inks.theme === 'light';
  const [pageR, pageG, pageB] = inks.page;
  for (let x = first; x < frames.length; x++) {
    const base = frames[x] * components * plates;
    for (let j = 0; j < plates; j++) {
      const out = (j * frames.length + x) * 4;
      if (base < 0) {
        pixels[out + 3] = 0;
        continue;
      }
      let r = pageR;
      let g = pageG;
      let b = pageB;
      for (let k = 0; k < components; k++) {
        const place = Math.min(ROOTS - 1, plan.profiles[base + k * plates + j] * scale[k]);
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
      pixels[out + 3] = 255;
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
