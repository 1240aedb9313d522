import { describe, expect, test } from 'vitest';
import { BedPaint } from '../../../src/glass/bed-paint.ts';
import { SmoothBed } from '../../../src/glass/scene/smooth-bed.ts';
import { type Cell, momentWith, scenarioWith } from './moment.ts';

const LANES = 13;
const PLATES = 100;
const scenario = scenarioWith({ bed: { plates: PLATES, lanes: LANES } });
const STAINED: Cell = { HCl_M: 9, resin: { Co: 0.1 } };
const BARE: Cell = { HCl_M: 9 };

interface Picture {
  readonly bed: SmoothBed;
  readonly paint: BedPaint;
}

function pictureOf(cell: (lane: number, plate: number) => Cell): Picture {
  const paint = new BedPaint(scenario, false);
  const moment = momentWith(scenario, cell);
  paint.paint(moment);
  const bed = new SmoothBed(LANES, PLATES);
  bed.paint(paint, moment);
  return { bed, paint };
}

/** Red, green and blue at a direction, in turns, and a depth, in cells. */
function colourAt({ bed }: Picture, turns: number, depth: number): number[] {
  const column = Math.round(turns * bed.width) % bed.width;
  const row = Math.floor((depth / PLATES) * bed.height);
  return [...bed.colours.subarray(4 * (row * bed.width + column), 4 * (row * bed.width + column) + 3)];
}

/** Depth, in cells, at which red has come half way from that of the band to that of the bare bed, in each direction. */
function fronts({ bed, paint }: Picture): number[] {
  const [stained, bare] = [paint.rgba[0], paint.rgba[4 * (PLATES - 1)]];
  return Array.from({ length: bed.width }, (_, column) => {
    const red = (row: number): number => bed.colours[4 * (row * bed.width + column)];
    let row = 0;
    while (red(row) < (stained + bare) / 2) row++;
    const before = red(row - 1);
    return ((row - 0.5 + ((stained + bare) / 2 - before) / (red(row) - before)) / bed.height) * PLATES;
  });
}

describe('SmoothBed', () => {
  test('follows a leaning front without teeth at the borders of lanes', () => {
    const front = (turns: number): number => 50 + 30 * Math.sin(2 * Math.PI * turns);
    const picture = pictureOf((lane, plate) => (plate < (lane === 0 ? 50 : front((lane - 1) / 12)) ? STAINED : BARE));
    const found = fronts(picture);
    // Half a cell for the step of whole cells, and 30 (1 - (2 + cos 30 deg)/3) / 2 = 0.7 that the rounding curve may fall short.
    found.forEach((depth, i) => {
      expect(Math.abs(depth - front(i / found.length)), `direction ${i}`).toBeLessThan(2);
    });
    // From one direction to the next the sine falls at most 2 pi 30 / 48 = 3.9 cells; teeth would fall a whole lane's 15 at once.
    const steps = found.map((depth, i) => Math.abs(depth - found[(i + 1) % found.length]));
    expect(Math.max(...steps)).toBeLessThan(5.5);
  });

  test('keeps the computed colours in the middle of lanes that are alike, zone by zone', () => {
    const zones: readonly Cell[] = [{ HCl_M: 0 }, { HCl_M: 9, pore: { Ni: 0.3 } }, { HCl_M: 9, resin: { Co: 0.02 } }, { HCl_M: 9, resin: { Co: 0.4 } }];
    const picture = pictureOf((_, plate) => zones[Math.floor(plate / 25)]);
    for (const turns of [0, 0.1, 0.25, 0.6]) {
      zones.forEach((_, zone) => {
        const from = 4 * (PLATES + zone * 25 + 12);
        expect(colourAt(picture, turns, zone * 25 + 12.5)).toEqual([...picture.paint.rgba.subarray(from, from + 3)]);
      });
    }
  });

  test('keeps most of the lead of a single lane, at its place', () => {
    const found = fronts(pictureOf((lane, plate) => (plate < (lane === 4 ? 70 : 40) ? STAINED : BARE)));
    const lead = Math.max(...found);
    expect(found.indexOf(lead) / found.length).toBeCloseTo(3 / 12, 1);
    expect(lead).toBeGreaterThan(40 + 0.75 * 30);
    expect(lead).toBeLessThan(71);
  });

  test('shows a crater, gas and dryness where they are', () => {
    const paint = new BedPaint(scenario, false);
    const moment = momentWith(scenario, (_, plate) => (plate < 5 ? { HCl_M: 9, resinShare: 0 } : { HCl_M: 9, gas: plate > 60 ? 0.2 : 0 }), {
      drained: new Float64Array(LANES).fill(10),
    });
    paint.paint(moment);
    const bed = new SmoothBed(LANES, PLATES);
    bed.paint(paint, moment);
    const at = (depth: number): number => 4 * Math.floor((depth / PLATES) * bed.height) * bed.width;
    expect([2, 8, 50].map((depth) => bed.colours[at(depth) + 3])).toEqual([0, 255, 255]);
    expect([2, 50, 80].map((depth) => bed.state[at(depth)])).toEqual([0, 0, 51]);
    expect([2, 8, 50].map((depth) => bed.state[at(depth) + 1])).toEqual([255, 255, 0]);
  });

  test('does nothing while nothing changes', () => {
    const paint = new BedPaint(scenario, false);
    const moment = momentWith(scenario, () => BARE);
    paint.paint(moment);
    const bed = new SmoothBed(LANES, PLATES);
    expect([bed.paint(paint, moment), bed.paint(paint, { ...moment })]).toEqual([true, false]);
  });

  test('is the same all round for one lane', () => {
    const one = scenarioWith({ bed: { plates: 20, lanes: 1 } });
    const paint = new BedPaint(one, false);
    const moment = momentWith(one, () => STAINED);
    paint.paint(moment);
    const bed = new SmoothBed(1, 20);
    bed.paint(paint, moment);
    expect([bed.width, ...bed.colours.subarray(0, 3)]).toEqual([1, ...paint.rgba.subarray(0, 3)]);
  });
});
