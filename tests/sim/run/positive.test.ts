import { describe, expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { ledgerError } from '../../../sim/column/ledger.ts';
import { mix } from '../../../sim/flow/mixing.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { advance, type Run, recordLast, runOf, runWhole } from '../../../sim/run/run.ts';
import type { IonId } from '../../../sim/terms/ions.ts';
import type { Action, Scenario } from '../../../sim/terms/types.ts';
import { caseOf, clamp, lowest, pour, until } from './case.ts';

// Laws: no amount is negative, every number is a number, and what is poured is found again to 1e-9. Cases that once failed.

const separation = [
  clamp(100),
  pour('acid', 6),
  until({ more_mL: 4 }),
  pour('sample', 0.5),
  pour('acid', 3),
  until({ more_mL: 4 }),
  pour('water', 5),
  until({ liquid_mm: 1 }),
];

/** A case of one sample in one acid, mol/L. */
function sampleCase(HCl_M: number, ions: Partial<Record<IonId, number>>, values: Parameters<typeof caseOf>[0] = {}): Scenario {
  const liquids = {
    acid: { label: 'acid', HCl_M, ions: {} },
    sample: { label: 'sample', HCl_M, ions },
    water: { label: 'water', HCl_M: 0, ions: {} },
  };
  return caseOf(values, { ions: Object.keys(ions) as IonId[], liquids });
}

/** Least amount at any time of a run, and how far its ledger opens; what is negative for a moment may be gone at the end. */
function watched(scenario: Scenario, log: readonly Action[]): { readonly run: Run; readonly least: number; readonly open: number } {
  const run = runOf(scenario, log);
  let least = lowest(run);
  while (!advance(run, { endOfLog: true, steps: 5 })) least = Math.min(least, lowest(run));
  recordLast(run);
  return { run, least: Math.min(least, lowest(run)), open: Math.max(run.bed.scalar[AT.worstLedger], ledgerError(run.bed, run.column)) };
}

describe('amounts', () => {
  it('stay above zero where a step passes several dead volumes below the bed', () => {
    const run = runWhole(caseOf({ 'column.tip_mL': 0.02 }), separation);
    expect(lowest(run)).toBeGreaterThanOrEqual(0);
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
  });

  it('are numbers after the least pour that a number can say, from a reservoir too', () => {
    for (const volume of [Number.MIN_VALUE, 1e-300, 1e-9]) {
      const run = runWhole(caseOf(), [clamp(100), pour('acid', volume, { hold_level: true }), pour('acid', volume), until({ elapsed_min: 1 })]);
      expect(lowest(run)).toBeGreaterThanOrEqual(0);
    }
  });

  it('are numbers after the least pour of a metal that a number can say', () => {
    for (const volume of [Number.MIN_VALUE, 1e-310, 1e-300]) {
      const scenario = sampleCase(0, { Co: 3 }, { 'bed.plates': 4, 'bed.lanes': 1 });
      const run = runWhole(scenario, [clamp(100), pour('sample', volume), until({ elapsed_min: 1 })]);
      expect(lowest(run)).toBeGreaterThanOrEqual(0);
    }
  });

  it('are numbers after the least time that a number can say, with the least acid', () => {
    for (const [HCl_M, elapsed_min] of [
      [4.4e-323, 2e-323],
      [4.4e-323, 1e-9],
      [9, Number.MIN_VALUE],
    ] as const) {
      const scenario = sampleCase(HCl_M, { Co: 3 }, { 'bed.plates': 4, 'bed.lanes': 5 });
      const run = runWhole(scenario, [{ do: 'refill-from-below', liquid: 'acid', volume_mL: 6 }, until({ elapsed_min })]);
      expect(lowest(run)).toBeGreaterThanOrEqual(0);
    }
  });

  it('stay above zero where there is next to no acid', () => {
    for (const HCl_M of [1.9637293357323245e-13, 3.708476971196526e-14, 2e-12]) {
      const scenario = sampleCase(HCl_M, { Co: 3 }, { 'bed.plates': 14, 'bed.lanes': 1 });
      const run = runWhole(scenario, [{ do: 'refill-from-below', liquid: 'acid', volume_mL: 6 }, clamp(100), pour('sample', 1), until({ liquid_mm: 0 })]);
      expect(lowest(run)).toBeGreaterThanOrEqual(0);
    }
  });

  it('stay above zero below the bed where a step passes several of its stages and the acid ends at once', () => {
    const scenario = sampleCase(0, { Co: 1e-12 }, { 'column.tip_plates': 10, 'bench.start_HCl_M': 1e-13 });
    const { run, least } = watched(scenario, [clamp(100), until({ elapsed_min: 0.5 })]);
    expect(run.bed.scalar[AT.delivered]).toBeGreaterThan(0);
    expect(least).toBe(0);
  });

  it('stay above zero where rounding takes the last trace of acid out of the beads', () => {
    const log = [
      clamp(100),
      until({ more_mL: 1 }),
      until({ elapsed_min: 0.5 }),
      pour('acid', 1e-3),
      until({ elapsed_min: 5 }),
      pour('acid', 0.1),
      until({ more_mL: 0.1 }),
    ];
    expect(watched(sampleCase(9, { Co: 1e-12 }, { 'bed.bead_um': 100 }), log).least).toBe(0);
  });

  it('stay above zero where a step passes more acid than a cell holds twice', () => {
    const scenario = sampleCase(0, { Co: 1e-12 }, { 'bed.length_cm': 2, 'bed.bead_um': 30, 'bench.start_HCl_M': 1e-3 });
    expect(watched(scenario, [clamp(100), until({ elapsed_min: 60 }), pour('acid', 3), until({ more_mL: 3 })]).least).toBe(0);
  });

  it('stay above zero where a step passes more of a metal than a cell holds twice', () => {
    const log = [clamp(100), pour('sample', 1e-6), until({ more_mL: 6 }), pour('acid', 3), until({ elapsed_min: 0.5 })];
    expect(watched(sampleCase(0, { Co: 0.1 }, { 'bed.length_cm': 2 }), log).least).toBe(0);
  });

  it('stay above zero where the level falls in a step and the lanes share the flow otherwise at the middle of it', () => {
    const values = { 'numerics.courant': 2, 'bed.length_cm': 5, 'bed.bead_um': 1200, 'bed.core_share': 0.05, 'column.open_cm_per_mL_min': 20 };
    const scenario = { ...sampleCase(9, { Co: 3, Ni: 3 }, values), seed: 730 };
    const down = until({ liquid_mm: 0 });
    expect(watched(scenario, [clamp(100), down, pour('sample', 2), down, pour('acid', 2), down]).least).toBe(0);
  });

  it('stay above zero where metals are solved together in a step that passes a cell many times', () => {
    const values = {
      'bed.plates': 8,
      'bed.length_cm': 0.5,
      'bed.bead_um': 100,
      'bed.core_share': 0.95,
      'bed.wall_factor': 0.2,
      'bench.start_head_mm': 0,
      'column.outlet_cm': 0,
      'numerics.courant': 2,
      'numerics.frame_mL': 5,
      'resin.shrinkage': 0.1,
    };
    const scenario = { ...sampleCase(6, { Co: 0.1, Ni: 0.1 }, values), seed: 2298 };
    const { least, open } = watched(scenario, [clamp(100), pour('sample', 2), until({ more_mL: 4 }), pour('acid', 2), until({ liquid_mm: 2 })]);
    expect(least).toBe(0);
    expect(open).toBeLessThan(1e-9);
  });

  it('stay above zero where the last of the liquid above the bed goes in: rounding leaves nothing behind', () => {
    for (const volume of [0.9, 1.7, 2.9, 3]) {
      const values = { 'bed.plates': 4, 'bed.lanes': 1, 'bench.start_head_mm': 0, 'bench.hand': 0 };
      const { run, least } = watched(caseOf(values), [clamp(100), pour('sample', volume), until({ liquid_mm: 0 })]);
      expect(run.bed.scalar[AT.headVolume]).toBe(0);
      expect(least).toBe(0);
    }
  });

  it('stay above zero and numbers when spreading meets an empty cell beside a full one', () => {
    const run = runOf(caseOf({ 'bed.packing': 60 }));
    const { bed, column } = run;
    bed.velocity.fill(1);
    for (let j = 0; j < bed.plates; j++) bed.pore[j] = j % 3 === 0 ? 9 : j % 3 === 1 ? 1e-17 : 0;
    bed.pouredAmount[0] = 0;
    for (let pass = 0; pass < 50; pass++) {
      bed.scalar[AT.mixingDue] = pass % 2 === 0 ? 1e-9 : 1e-3;
      mix(bed, column);
    }
    expect(Math.min(...bed.pore)).toBeGreaterThanOrEqual(0);
  });
});

describe('the ledger', () => {
  it('closes to 1e-9 where little is poured and its tail is thinner than a cell keeps', () => {
    const run = runWhole(sampleCase(9, { Co: 1e-6, Ni: 1e-6 }), separation);
    expect(Math.max(run.bed.scalar[AT.worstLedger], ledgerError(run.bed, run.column))).toBeLessThan(1e-9);
  });

  it('closes to 1e-9 after so little acid that its cells are set to zero', () => {
    expect(watched(sampleCase(0.1, { Co: 1e-12 }), [clamp(100), pour('acid', 1e-9), until({ liquid_mm: 0 })]).open).toBeLessThan(1e-9);
  });

  it('closes to 1e-9 after so little of a metal that its cells are set to zero', () => {
    const log = [clamp(100), pour('sample', 0.1), pour('acid', 1e-9), until({ elapsed_min: 0.5 })];
    expect(watched(sampleCase(0, { Co: 1e-12 }, { 'bed.plates': 4, 'column.tip_mL': 0.02 }), log).open).toBeLessThan(1e-9);
  });

  it('closes to 1e-9 after so little of a metal that no cell keeps any: numbers too small to be told are nowhere in the bed', () => {
    const { run, open } = watched(sampleCase(9, { Co: 1e-12 }), [clamp(100), pour('sample', 1e-6), pour('acid', 1), until({ more_mL: 1 })]);
    expect(run.bed.pouredAmount[1]).toBeGreaterThan(0);
    const cells = run.bed.lanes * run.bed.plates;
    expect(Math.max(...run.bed.pore.subarray(cells), ...run.bed.sorbed.subarray(cells))).toBe(0);
    expect(open).toBeLessThan(1e-9);
  });

  it('closes to 1e-9 behind a strong band whose traces are set to zero', () => {
    const log = [clamp(100), pour('acid', 3), until({ liquid_mm: 0 }), pour('sample', 6), until({ liquid_mm: 0 }), until({ elapsed_min: 0.5 })];
    expect(watched(sampleCase(12, { Co: 1 }, { 'bed.bead_um': 30 }), log).open).toBeLessThan(1e-9);
  });

  it('closes to 1e-9 after next to nothing was let in from below under a bed with gas in it', () => {
    const dried = { ...sampleCase(0, { Co: 3 }, { 'bed.plates': 4, 'bed.lanes': 1, 'column.bore_cm': 5 }), faults: [{ kind: 'dried-bed' as const }] };
    for (const volume_mL of [Number.MIN_VALUE, 1e-15, 1e-3]) {
      expect(watched(dried, [{ do: 'refill-from-below', liquid: 'sample', volume_mL }]).open).toBeLessThan(1e-9);
    }
  });

  it('closes to 1e-9 along 800 cells at rest in acid', () => {
    const run = runWhole(caseOf({ 'bed.plates': 800, 'bed.lanes': 1, 'bench.start_HCl_M': 8.9 }), [
      clamp(100),
      pour('acid', 5, { hold_level: true }),
      until({ more_mL: 5 }),
      pour('acid', 30, { hold_level: true }),
      until({ more_mL: 29 }),
    ]);
    expect(Math.max(run.bed.scalar[AT.worstLedger], ledgerError(run.bed, run.column))).toBeLessThan(1e-9);
  });

  it('after gas was filled from below to the last cell: what was left over to rise was -1e-20 mL', () => {
    const trace = 1.1641532182693481e-8;
    const read = readScenario(
      {
        title: 'random',
        purpose: 'a case that random runs found',
        ions: ['Co'],
        liquids: {
          acid: { label: 'acid', HCl_M: trace },
          sample: { label: 'sample', HCl_M: trace, ions: { Co: 3e-12 } },
          water: { label: 'water', HCl_M: 0 },
        },
        faults: [{ kind: 'dried-bed', severity: 0.9201106773689389 }, { kind: 'loose-top' }],
        seed: 0,
        bed: { plates: 4, lanes: 1 },
      },
      'random',
    );
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    const { least, open } = watched(read.scenario, [{ do: 'refill-from-below', liquid: 'acid', volume_mL: 0.2226593066006899 }]);
    expect(least).toBeGreaterThanOrEqual(0);
    expect(open).toBeLessThan(1e-9);
  });
});
