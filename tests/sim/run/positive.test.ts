import { describe, expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { ledgerError } from '../../../sim/column/ledger.ts';
import { mix } from '../../../sim/flow/mixing.ts';
import { runOf, runWhole } from '../../../sim/run/run.ts';
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
    const liquids = { acid: { label: 'acid', HCl_M: 0, ions: {} }, sample: { label: 'sample', HCl_M: 0, ions: { Co: 3 } } };
    for (const volume of [Number.MIN_VALUE, 1e-310, 1e-300]) {
      const scenario = caseOf({ 'bed.plates': 4, 'bed.lanes': 1 }, { ions: ['Co'], liquids });
      const run = runWhole(scenario, [clamp(100), pour('sample', volume), until({ elapsed_min: 1 })]);
      expect(lowest(run)).toBeGreaterThanOrEqual(0);
    }
  });

  it('stay above zero where there is next to no acid', () => {
    for (const HCl_M of [1.9637293357323245e-13, 3.708476971196526e-14, 2e-12]) {
      const liquids = {
        acid: { label: 'acid', HCl_M, ions: {} },
        sample: { label: 'sample', HCl_M, ions: { Co: 3 } },
        water: { label: 'water', HCl_M: 0, ions: {} },
      };
      const scenario = caseOf({ 'bed.plates': 14, 'bed.lanes': 1 }, { ions: ['Co'], liquids });
      const run = runWhole(scenario, [{ do: 'refill-from-below', liquid: 'acid', volume_mL: 6 }, clamp(100), pour('sample', 1), until({ liquid_mm: 0 })]);
      expect(lowest(run)).toBeGreaterThanOrEqual(0);
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
    const trace = caseOf(
      {},
      {
        liquids: {
          acid: { label: 'acid', HCl_M: 9, ions: {} },
          water: { label: 'water', HCl_M: 0, ions: {} },
          sample: { label: 'trace', HCl_M: 9, ions: { Co: 1e-6, Ni: 1e-6 } },
        },
      },
    );
    const run = runWhole(trace, separation);
    expect(Math.max(run.bed.scalar[AT.worstLedger], ledgerError(run.bed, run.column))).toBeLessThan(1e-9);
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
});
