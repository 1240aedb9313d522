import { describe, expect, test } from 'vitest';
import { columnOf } from '../../../sim/column/column.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach } from '../faults/bench.ts';

// Viscosity of water in mPa s, CRC Handbook (recalled). The model takes one straight line for all its liquids.
const WATER = { 10: 1.306, 20: 1.002, 30: 0.797 } as const;
const KELVIN = 273.15;

const at = (temperature_C: number) => columnOf(leach({ 'bench.temperature_C': temperature_C }));

describe.each([10, 30] as const)('at %i °C instead of 20 °C', (temperature) => {
  const column = at(temperature);
  const usual = at(20);

  test('liquid is as much thinner or thicker as water is, to a tenth', () => {
    closeTo('viscosity', column.viscosityFactor / usual.viscosityFactor, WATER[temperature] / WATER[20], { relative: 0.1 });
  });

  // Stokes and Einstein: D goes as T over the viscosity of the liquid.
  const faster = ((temperature + KELVIN) / (20 + KELVIN)) * (WATER[20] / WATER[temperature]);

  test('all diffusion in the liquid is as much faster or slower as Stokes and Einstein have it, to a twentieth', () => {
    column.diffusion.forEach((D, k) => closeTo('diffusion', D / usual.diffusion[k], faster, { relative: 0.05 }));
  });

  test('beads exchange faster by the same factor, for r²/(15 D) is their time', () => {
    const factor = column.diffusion[0] / usual.diffusion[0];
    closeTo('time of a bead, HCl', usual.bead / column.bead, factor, { relative: 1e-9 });
    column.tables.forEach(({ bead }, s) => bead.forEach((time, i) => closeTo('time of a bead', usual.tables[s].bead[i] / time, factor, { relative: 1e-9 })));
  });
});

test('warmth makes the liquid thinner and diffusion faster', () => {
  expect(at(30).viscosityFactor).toBeLessThan(at(10).viscosityFactor);
  expect(at(30).diffusion[1]).toBeGreaterThan(at(10).diffusion[1]);
});
