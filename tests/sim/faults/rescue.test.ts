import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { blow } from '../../../sim/flaws/crater.ts';
import { ledgerError, liquidError } from '../../../sim/column/ledger.ts';
import { act, advance, type Run, runOf } from '../../../sim/run/run.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { closeTo } from '../../exact/asserts.ts';
import { heldAmount, leach, procedure, resinVolume, spaceError } from './bench.ts';

/** A column with the sample on the bed and 1 mm of liquid above it. */
function loaded(): Run {
  const run = runOf(leach(), procedure().slice(0, 11));
  advance(run, { endOfLog: true });
  act(run, { do: 'clamp', open_percent: 0 });
  return run;
}

describe('stirring', () => {
  test.each([
    ['while the clamp is open', [{ do: 'clamp', open_percent: 20 } as const], 'the clamp shut before the bed is stirred', '20 % open'],
    ['without liquid to stir in', [], 'at least 35 mm of liquid above the bed', '1.0 mm'],
  ])('is refused %s', (_, before, expected, received) => {
    const run = loaded();
    for (const action of before) act(run, action);
    expect(act(run, { do: 'stir' })?.refused).toEqual({ path: 'do', expected, received });
  });

  test('makes the bed one composition, keeps all it holds, and packs it anew', () => {
    const run = loaded();
    act(run, { do: 'pour', liquid: 'acid', volume_mL: 4 });
    const held = [0, 1, 2].map((k) => heldAmount(run, k));
    expect(act(run, { do: 'stir' })?.refused).toBeUndefined();
    held.forEach((amount, k) => closeTo(`component ${k}`, heldAmount(run, k), amount, { relative: 1e-10 }, 'mmol'));
    const { bed } = run;
    const cells = bed.lanes * bed.plates;
    for (const array of [bed.pore, bed.sorbed])
      closeTo('cobalt', Math.max(...array.slice(cells, 2 * cells)), Math.min(...array.slice(cells, 2 * cells)), { relative: 1e-9 });
    expect(new Set(bed.packing).size).toBe(bed.lanes);
    expect(liquidError(bed, run.startedVolume)).toBeLessThan(1e-9);
  });

  test('repairs the packing but not the bands', () => {
    const faults = [
      { kind: 'channel', severity: 1, side_deg: 0 },
      { kind: 'uneven-packing', severity: 1 },
    ] as const;
    const run = runOf({ ...leach(), faults });
    act(run, { do: 'pour', liquid: 'water', volume_mL: 4 });
    act(run, { do: 'stir' });
    expect(Math.max(...run.bed.packing) / Math.min(...run.bed.packing)).toBeLessThan(1.4);
    expect(Array.from(run.bed.airEntry)).toEqual(Array.from(run.column.airEntry));
  });
});

describe('filling from below', () => {
  test('is refused while the clamp is open, and beyond the rim', () => {
    const run = loaded();
    expect(act(run, { do: 'refill-from-below', liquid: 'acid', volume_mL: 50 })?.refused?.path).toBe('volume_mL');
    act(run, { do: 'clamp', open_percent: 10 });
    expect(act(run, { do: 'refill-from-below', liquid: 'acid', volume_mL: 1 })?.refused?.path).toBe('do');
  });

  test('raises the level by what it brings, and closes the books', () => {
    const run = loaded();
    const before = run.bed.scalar[AT.headVolume];
    act(run, { do: 'refill-from-below', liquid: 'acid', volume_mL: 2 });
    closeTo('above the bed', run.bed.scalar[AT.headVolume], before + 2, { absolute: 1e-9 }, 'mL');
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
  });
});

describe('a pour onto the bed', () => {
  test('strikes harder with volume and fall, softer on deep liquid', () => {
    expect(blow(2, 10, 0.1, 0)).toBeGreaterThan(blow(1, 10, 0.1, 0));
    expect(blow(2, 10, 0.1, 0)).toBeGreaterThan(blow(2, 5, 0.1, 0));
    expect(blow(2, 10, 2, 0)).toBeLessThan(0.1 * blow(2, 10, 0.1, 0));
    expect(blow(2, 10, 0.1, 9)).toBeGreaterThan(blow(2, 10, 0.1, 1));
  });

  test('digs out the middle, heaps beads at the wall on one side more, and loses nothing', () => {
    const run = loaded();
    const [resin, held] = [resinVolume(run), [0, 1, 2].map((k) => heldAmount(run, k))];
    act(run, { do: 'pour', liquid: 'water', volume_mL: 5, how: 'bed' });
    closeTo('resin', resinVolume(run), resin, { relative: 1e-12 }, 'mL');
    held.forEach((amount, k) => closeTo(`component ${k}`, heldAmount(run, k), amount, { relative: 1e-10 }, 'mmol'));
    expect(run.bed.resinShare[0]).toBeLessThan(0.9);
    const walls = [1, 2, 3, 4, 5, 6].map((lane) => run.bed.resinShare[lane * run.bed.plates]);
    expect(Math.min(...walls)).toBeGreaterThan(1);
    expect(Math.max(...walls)).toBeGreaterThan(Math.min(...walls) + 0.01);
    expect(spaceError(run.bed)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
  });

  test('down the wall moves no beads', () => {
    const run = loaded();
    act(run, { do: 'pour', liquid: 'acid', volume_mL: 5, how: 'wall' });
    expect(run.bed.resinShare.every((share) => share === 1)).toBe(true);
  });

  test('can be made good by topping up with fresh resin', () => {
    const run = runOf({ ...leach(), faults: [{ kind: 'crater', severity: 1 }] });
    const before = resinVolume(run);
    expect(act(run, { do: 'top-up', resin_mL: 1 })?.refused).toBeUndefined();
    expect(resinVolume(run)).toBeGreaterThan(before + 0.02);
    expect(Math.min(...run.bed.resinShare)).toBeGreaterThan(0.999);
    expect(act(run, { do: 'top-up', resin_mL: 1 })?.refused?.expected).toBe('a hollow in the bed to fill');
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
  });
});

test('a spill takes its share of volume and amounts from the vessel, and is in the books', () => {
  const run = loaded();
  const before = resultsOf(run).receivers[0];
  expect(act(run, { do: 'spill', share: 0.25 })?.refused).toBeUndefined();
  const after = resultsOf(run);
  closeTo('volume', after.receivers[0].volume_mL, 0.75 * before.volume_mL, { relative: 1e-12 }, 'mL');
  closeTo('acid spilled', after.spilled.HCl_mmol, 0.25 * before.HCl_mmol, { relative: 1e-12 }, 'mmol');
  expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
  expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
});
