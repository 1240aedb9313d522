import { differenceCiede2000, type Rgb } from 'culori';
import { describe, expect, test } from 'vitest';
import { type BedCell, bedColour } from '../../../sim/colour/bed.ts';
import { BedPaint } from '../../../src/glass/bed-paint.ts';
import { type Cell, momentAtStart, momentWith, scenarioWith } from './moment.ts';

const scenario = scenarioWith({ bed: { plates: 40, lanes: 5 } });
const OPTIONS = { porosity: scenario.values['bed.porosity'], beadUm: scenario.values['bed.bead_um'] };
const TINT = scenario.values['resin.tint_per_cm'];
/** CIEDE2000 from a general colour library. */
const dE00 = differenceCiede2000();

function seen(paint: BedPaint, cell: number): Rgb {
  const [r, g, b] = paint.rgba.subarray(4 * cell, 4 * cell + 3);
  return { mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 };
}

function wanted({ HCl_M = 0, pore = {}, resin = {}, gas = 0 }: Cell): Rgb {
  const cell: BedCell = { HCl_M, pore, resin, gasSaturation: gas };
  const [r, g, b] = bedColour(cell, TINT, OPTIONS);
  return { mode: 'rgb', r, g, b };
}

describe('BedPaint', () => {
  test('gives every cell the colour computed for what it holds', () => {
    const held = (lane: number, plate: number): Cell => ({
      HCl_M: 9 - lane,
      pore: { Ni: plate / 100 },
      resin: { Co: (lane * plate) / 400 },
      gas: lane === 3 ? 0.2 : 0,
    });
    const paint = new BedPaint(scenario, false);
    paint.paint(momentWith(scenario, held));
    for (const [lane, plate] of [
      [0, 0],
      [1, 5],
      [2, 39],
      [3, 20],
      [4, 11],
    ])
      expect(dE00(seen(paint, lane * 40 + plate), wanted(held(lane, plate)))).toBeLessThan(0.5);
  });

  test('follows a band that grows in small steps within dE00 1', () => {
    const paint = new BedPaint(scenario, false);
    const start = momentWith(scenario, () => ({ HCl_M: 9 }));
    for (let step = 0; step <= 2000; step++) {
      const sorbed = start.sorbed.slice();
      sorbed[200] = step * 2e-5;
      paint.paint({ ...start, sorbed });
      if (step % 100 === 0) expect(dE00(seen(paint, 0), wanted({ HCl_M: 9, resin: { Co: step * 2e-5 } }))).toBeLessThan(1);
    }
  });

  test('computes nothing again while nothing changes', () => {
    const paint = new BedPaint(scenario, false);
    const moment = momentAtStart(scenario);
    expect(paint.paint(moment)).toBe(200);
    expect(paint.paint({ ...moment, pore: moment.pore.slice() })).toBe(0);
  });

  test('leaves a hole where resin is missing and fills it again', () => {
    const paint = new BedPaint(scenario, false);
    paint.paint(momentWith(scenario, (_, plate) => ({ HCl_M: 9, resinShare: plate < 3 ? 0 : 1 })));
    expect([paint.rgba[3], paint.rgba[4 * 3 + 3]]).toEqual([0, 255]);
    paint.paint(momentWith(scenario, () => ({ HCl_M: 9 })));
    expect(paint.rgba[3]).toBe(255);
    expect(dE00(seen(paint, 0), wanted({ HCl_M: 9 }))).toBeLessThan(0.5);
  });

  test('colours a drained cell by the liquid that stays round its beads, and paler than a wet one', () => {
    const paint = new BedPaint(scenario, false);
    const held: Cell = { HCl_M: 9, resin: { Co: 0.05 } };
    const wet = momentWith(scenario, () => held);
    const dry = momentWith(scenario, (_, plate) => (plate < 4 ? { ...held, HCl_M: 0, gas: 0.9 } : held), {
      still: wet.pore,
      drained: new Float64Array(5).fill(4),
    });
    paint.paint(dry);
    expect(dE00(seen(paint, 1), wanted({ ...held, gas: 0.9 }))).toBeLessThan(0.5);
    expect(seen(paint, 1).r).toBeGreaterThan(seen(paint, 10).r);
  });

  test('shows faint nickel stronger when asked, and cobalt in the beads the same', () => {
    const moment = momentWith(scenario, (lane) => (lane === 0 ? { HCl_M: 9, pore: { Ni: 0.05 } } : { HCl_M: 9, resin: { Co: 0.05 } }));
    const [plain, strong] = [false, true].map((exaggerate) => {
      const paint = new BedPaint(scenario, exaggerate);
      paint.paint(moment);
      return paint;
    });
    expect(dE00(seen(plain, 0), seen(strong, 0))).toBeGreaterThan(1.5);
    expect(dE00(seen(plain, 40), seen(strong, 40))).toBe(0);
  });
});
