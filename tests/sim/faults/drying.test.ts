import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { gasVolume } from '../../../sim/bench/refill-below.ts';
import { ledgerError, liquidError } from '../../../sim/column/ledger.ts';
import { act, advance, AIR_ENTERS, type Run, runOf } from '../../../sim/run/run.ts';
import type { Action, FieldPath, Log } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach, spaceError } from './bench.ts';

const DRAIN: Log = [
  { do: 'clamp', open_percent: 100 },
  { do: 'wait', until: { elapsed_min: 200 } },
];

function drained(values: Partial<Record<FieldPath, number>> = {}, severity = 0): Run {
  const run = runOf({ ...leach({ 'bed.spread': 0, ...values }), faults: severity > 0 ? [{ kind: 'uneven-packing', severity }] : [] }, DRAIN);
  advance(run, { endOfLog: true });
  return run;
}

const airNote = (run: Run): boolean => run.events.some(({ note }) => note?.startsWith(AIR_ENTERS));

describe('suction at which air enters', () => {
  // 5.5 gamma/(R rho g), Haines; Mason and Mellor 1995 (recalled): 82 cm of water at 100 µm, 65 at 125, 34 at 240, 27 at 300, 14 at 600.
  test.each([
    [100, 82],
    [125, 65],
    [240, 34],
    [300, 27],
    [600, 14],
  ])('of perfect beads of %i µm is %i cm of water', (bead, head) => {
    const { column } = runOf(leach({ 'bed.bead_um': bead, 'bed.air_entry_core': 1 }), []);
    closeTo('air entry', column.airEntry[0] / 0.9982, head, { absolute: 0.5 }, 'cm');
  });
});

describe('a bed whose liquid runs out', () => {
  test('of fine beads, soundly packed, stops by itself at its top', () => {
    const run = drained();
    expect(run.bed.scalar[AT.headVolume]).toBe(0);
    expect(gasVolume(run.bed)).toBe(0);
    expect(airNote(run)).toBe(false);
  });

  test.each([
    ['coarse beads', { 'bed.bead_um': 240 }, 0],
    ['a long outlet tube full of liquid', { 'column.outlet_cm': 30 }, 0],
    ['an uneven packing', {}, 0.8],
  ])('lets air in with %s, and says why', (_, values, severity) => {
    const run = drained(values, severity);
    expect(gasVolume(run.bed)).toBeGreaterThan(0.02);
    expect(run.bed.scalar[AT.drainings]).toBe(1);
    expect(airNote(run)).toBe(true);
    const said = run.events.find(({ note }) => note?.startsWith(AIR_ENTERS))?.note ?? '';
    const [, hung, held] = /: ([\d.]+) cm of liquid hang below its top, more than the ([\d.]+) cm that its beads can hold up/.exec(said) ?? [];
    const { column, bed } = run;
    expect(Number(hung)).toBeCloseTo(column.length + column.outlet, 1);
    // As a column of the acid that the bed was packed in.
    closeTo('held', Number(held), Math.min(...bed.airEntry) / bed.density[bed.lanes * bed.plates - 1], { absolute: 0.15 }, 'cm');
  });

  test('is safe when the outlet tip is no lower than its support and the beads are fine', () => {
    expect(airNote(drained({ 'column.outlet_cm': 0 }, 0.5))).toBe(false);
  });

  test('drains each lane until what hangs below is what the lane can hold', () => {
    // Hydrostatics (derived): rho (L - drained + outlet) falls to the air entry of the lane.
    const { bed, column } = drained({ 'bed.bead_um': 240 });
    const held = (lane: number): number => bed.density[lane * bed.plates + bed.plates - 1] * (column.length - bed.drained[lane] * column.dz + column.outlet);
    for (let i = 1; i < bed.lanes; i++) closeTo('suction', held(i), bed.airEntry[i], { absolute: 1.5 * column.dz }, 'g/cm²');
    expect(bed.drained[0]).toBe(0);
  });

  test('keeps every cell full of liquid and gas, and the books closed, through draining and refilling', () => {
    const run = drained({ 'bed.bead_um': 240 });
    const check = (): void => {
      expect(spaceError(run.bed)).toBeLessThan(1e-9);
      expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
      expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
    };
    check();
    for (let cycle = 0; cycle < 3; cycle++) {
      act(run, { do: 'pour', liquid: 'acid', volume_mL: 3 });
      check();
      expect(run.bed.drained.every((cells) => cells === 0)).toBe(true);
      advance(run, { time_min: run.bed.scalar[AT.time] + 100 });
      check();
    }
    expect(run.bed.scalar[AT.drainings]).toBe(4);
  });

  test('keeps gas when filled from above, more after every cycle, and flows more slowly for it', () => {
    const flows: number[] = [];
    const gas: number[] = [];
    const run = drained({ 'column.outlet_cm': 30 });
    for (let cycle = 0; cycle < 3; cycle++) {
      act(run, { do: 'pour', liquid: 'water', volume_mL: 3 });
      gas.push(gasVolume(run.bed));
      advance(run, { time_min: run.bed.scalar[AT.time] + 0.05 });
      flows.push(run.bed.scalar[AT.flow] / (run.bed.scalar[AT.headVolume] / run.column.section + run.column.length + run.column.outlet));
      advance(run, { time_min: run.bed.scalar[AT.time] + 100 });
    }
    expect(gas[1]).toBeGreaterThan(gas[0]);
    expect(gas[2]).toBeGreaterThan(gas[1]);
    expect(flows[0]).toBeLessThan(runFlow({ 'column.outlet_cm': 30 }));
  });

  test('cracks along part of the wall only after minutes dry', () => {
    const cracksAfter = (minutes: number): number => {
      const run = runOf(leach({ 'bed.bead_um': 240 }), [
        { do: 'clamp', open_percent: 100 },
        { do: 'wait', until: { elapsed_min: minutes } },
      ]);
      advance(run, { endOfLog: true });
      return run.bed.crack.filter((gap) => gap > 0).length;
    };
    expect(cracksAfter(8)).toBe(0);
    expect(cracksAfter(60)).toBeGreaterThan(0);
    expect(cracksAfter(60)).toBeLessThan(6);
  });
});

describe('gas in a bed', () => {
  test('dissolves at 0.009 mL per mL of liquid that passes', () => {
    // Half of the air that water can hold, 19 mL/L at 20 °C (recalled).
    const run = runOf({ ...leach(), faults: [{ kind: 'dried-bed', severity: 0.7 }] });
    act(run, { do: 'clamp', open_percent: 100 });
    act(run, { do: 'pour', liquid: 'water', volume_mL: 5 });
    const before = gasVolume(run.bed);
    advance(run, { time_min: 2 });
    const passed = run.bed.scalar[AT.delivered];
    expect(passed).toBeGreaterThan(0.5);
    closeTo('gas gone', before - gasVolume(run.bed), 0.009 * passed, { relative: 0.1 }, 'mL');
    expect(spaceError(run.bed)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
  });

  test.each<[string, readonly Action[]]>([
    ['liquid rising from below', [{ do: 'refill-from-below', liquid: 'water', volume_mL: 4 }]],
    ['stirring', [{ do: 'pour', liquid: 'water', volume_mL: 3 }, { do: 'stir' }]],
  ])('is driven out by %s', (_, actions) => {
    const run = runOf({ ...leach(), faults: [{ kind: 'dried-bed', severity: 1 }] });
    expect(gasVolume(run.bed)).toBeGreaterThan(0.1);
    for (const action of actions) expect(act(run, action)?.refused).toBeUndefined();
    expect(gasVolume(run.bed)).toBeLessThan(1e-9);
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
  });
});

function runFlow(values: Partial<Record<FieldPath, number>>): number {
  const run = runOf(leach({ 'bed.spread': 0, ...values }), []);
  act(run, { do: 'clamp', open_percent: 100 });
  act(run, { do: 'pour', liquid: 'water', volume_mL: 3 });
  advance(run, { time_min: run.bed.scalar[AT.time] + 0.05 });
  return run.bed.scalar[AT.flow] / (run.bed.scalar[AT.headVolume] / run.column.section + run.column.length + run.column.outlet);
}
