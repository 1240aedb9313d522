import { type Solution, vesselStops } from '../../../sim/colour/index.ts';
import { EXAGGERATION, stainOf } from '../../plot/liquid.ts';

// Colours of the clear liquids across their vessels, a row of points each.

/** Rows as the shader knows them; receivers follow. */
export const STAIN = { head: 0, outlet: 1, drop: 2, receivers: 3 } as const;
export const STAIN_ROWS = 10;
export const STAIN_POINTS = 32;

export class Stains {
  readonly rgba = new Uint8Array(4 * STAIN_ROWS * STAIN_POINTS).fill(255);
  private readonly keys: string[] = [];

  /** Colours a row for a round vessel of this inner radius; whether it changed. */
  fill(row: number, solution: Solution, radius_cm: number, exaggerate: boolean): boolean {
    const key = `${radius_cm} ${stainOf(solution, exaggerate)}`;
    if (this.keys[row] === key) return false;
    this.keys[row] = key;
    const stops = vesselStops(solution, radius_cm, { exaggerate: exaggerate ? EXAGGERATION : 1 });
    let right = 1;
    for (let i = 0; i < STAIN_POINTS; i++) {
      const offset = i / (STAIN_POINTS - 1);
      while (right < stops.length - 1 && stops[right].offset < offset) right++;
      const [a, b] = [stops[right - 1], stops[right]];
      const share = (offset - a.offset) / (b.offset - a.offset);
      for (let c = 0; c < 3; c++) this.rgba[4 * (row * STAIN_POINTS + i) + c] = Math.round(255 * (a.colour[c] + share * (b.colour[c] - a.colour[c])));
    }
    return true;
  }
}
