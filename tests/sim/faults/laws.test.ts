import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { FAULT_KINDS } from '../../../sim/terms/fault-kinds.ts';
import { ledgerError, liquidError } from '../../../sim/column/ledger.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { advance, runOf, runWhole } from '../../../sim/run/run.ts';
import type { Action, Fault, Log, Scenario } from '../../../sim/terms/types.ts';
import { leach, lowest, resinVolume, spaceError } from './bench.ts';
import { evenly } from '../../exact/even.ts';

// Laws that hold whatever is wrong with the column and whatever is done to it.
const RUNS = { seed: 20240307, numRuns: 60 };

const fault: fc.Arbitrary<Fault> = fc.record({
  kind: fc.constantFrom(...FAULT_KINDS),
  severity: evenly(0, 1),
  side_deg: evenly(0, 360),
  depth_share: evenly(0, 1),
});
const liquid = fc.constantFrom('acid', 'sample', 'water');

const action: fc.Arbitrary<Action> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('pour' as const),
      liquid,
      volume_mL: evenly(0.05, 5),
      how: fc.constantFrom('wall' as const, 'bed' as const),
      hold_level: fc.boolean(),
    }),
  },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('clamp' as const), open_percent: fc.constantFrom(0, 40, 100) }) },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('wait' as const),
      until: fc.oneof(fc.record({ elapsed_min: evenly(0, 40) }), fc.record({ more_mL: evenly(0, 4) }), fc.record({ liquid_mm: evenly(0, 10) })),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('receiver' as const), label: fc.constantFrom('a', 'b') }) },
  { weight: 1, arbitrary: fc.constant({ do: 'stir' as const }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('refill-from-below' as const), liquid, volume_mL: evenly(0.1, 4) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('top-up' as const), resin_mL: evenly(0.05, 1) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('spill' as const), share: evenly(0.01, 1) }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('fault' as const), fault }) },
);
const log: fc.Arbitrary<Log> = fc.array(action, { minLength: 4, maxLength: 16 });

const scenario: fc.Arbitrary<Scenario> = fc
  .record({
    values: fc.record({
      'bed.length_cm': evenly(2, 8),
      'bed.plates': fc.integer({ min: 5, max: 25 }),
      'bed.lanes': fc.constantFrom(1, 2, 4, 7),
      'bed.bead_um': evenly(100, 300),
      'column.outlet_cm': evenly(0, 25),
      'bed.air_entry_wall': evenly(0.02, 0.4),
      'bench.start_HCl_M': fc.constantFrom(0, 9),
      'numerics.frame_mL': fc.constant(1),
    }),
    faults: fc.array(fault, { maxLength: 3 }),
    seed: fc.integer({ min: 0, max: 999 }),
  })
  .map(({ values, faults, seed }) => leach(values, { faults, seed }));

describe('every run with faults, draining and repacking', () => {
  test('closes its ledger and its volumes to 1e-9, fills every cell, and holds nothing negative', () => {
    fc.assert(
      fc.property(scenario, log, (s, l) => {
        const run = runWhole(s, l);
        expect(resultsOf(run).ledger.worstRelativeError).toBeLessThan(1e-9);
        expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
        expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
        expect(spaceError(run.bed)).toBeLessThan(1e-9);
        expect(lowest(run)).toBeGreaterThanOrEqual(-1e-15);
        expect(run.bed.scalar.every(Number.isFinite)).toBe(true);
      }),
      RUNS,
    );
  });

  test('keeps its resin unless some is added', () => {
    fc.assert(
      fc.property(scenario, log, (s, l) => {
        const run = runOf(
          s,
          l.filter(({ do: name }) => name !== 'top-up'),
        );
        const resin = resinVolume(run);
        advance(run, { endOfLog: true });
        expect(Math.abs(resinVolume(run) - resin)).toBeLessThan(1e-9 * resin);
      }),
      RUNS,
    );
  });

  test('is the same at once and in pieces, bit for bit', () => {
    fc.assert(
      fc.property(scenario, log, fc.integer({ min: 1, max: 60 }), (s, l, steps) => {
        const [whole, cut] = [runOf(s, l), runOf(s, l)];
        advance(whole, { endOfLog: true });
        while (!advance(cut, { endOfLog: true, steps }));
        expect(new Uint8Array(cut.bed.buffer)).toEqual(new Uint8Array(whole.bed.buffer));
      }),
      { ...RUNS, numRuns: 30 },
    );
  });

  test('ends: no state makes steps that lead nowhere', () => {
    fc.assert(
      fc.property(scenario, log, (s, l) => {
        const run = runOf(s, l);
        expect(advance(run, { endOfLog: true, steps: 200_000 })).toBe(true);
        expect(run.bed.scalar[AT.entry]).toBe(l.length);
      }),
      { ...RUNS, numRuns: 30 },
    );
  });
});
