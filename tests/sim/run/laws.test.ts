import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { ION_IDS, type IonId } from '../../../sim/terms/ions.ts';
import { ledgerError, liquidError } from '../../../sim/column/ledger.ts';
import { inReceivers } from '../../../sim/column/measure.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { advance, checkpointOf, restoreTo, type Run, runOf, runWhole } from '../../../sim/run/run.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';
import { evenly } from '../../exact/even.ts';

// Laws that hold for every valid scenario and log: conservation, positivity, and independence of how the run is cut up.
const SEED = 20240229;
/** Fewer where every one of many mutants has to go through them. */
const RUNS = { seed: SEED, numRuns: Number(process.env.LAW_RUNS ?? 100) };

const ions = fc.uniqueArray(fc.constantFrom<IonId>(...ION_IDS), { minLength: 1, maxLength: 4 });

const scenario: fc.Arbitrary<Scenario> = fc
  .record({
    ions,
    acid: evenly(0, 12),
    strength: evenly(0.001, 0.6),
    values: fc.record({
      'bed.length_cm': evenly(2, 10),
      'bed.plates': fc.integer({ min: 4, max: 40 }),
      'bed.lanes': fc.constantFrom(1, 2, 4, 6),
      'bed.spread': evenly(0, 0.5),
      'bed.bead_um': evenly(60, 300),
      'bed.packing': evenly(0, 30),
      'column.tip_mL': evenly(0.1, 1),
      'column.tip_plates': fc.integer({ min: 1, max: 6 }),
      'resin.capacity_eq_per_L': evenly(0.5, 2),
      'bench.start_HCl_M': evenly(0, 10),
      'bench.start_head_mm': evenly(0, 30),
      'numerics.courant': evenly(0.2, 2),
      'numerics.frame_mL': fc.constant(1),
    }),
    seed: fc.integer({ min: 0, max: 1000 }),
  })
  .map(({ ions: chosen, acid, strength, values, seed }) => ({
    id: 'random',
    title: 'random',
    purpose: '',
    notice: [],
    sources: [],
    ions: chosen,
    liquids: {
      acid: { label: 'acid', HCl_M: acid, ions: {} },
      sample: { label: 'sample', HCl_M: acid, ions: Object.fromEntries(chosen.map((ion) => [ion, strength])) },
      water: { label: 'water', HCl_M: 0, ions: {} },
    },
    values: { ...parameterDefaults(), 'column.tube_cm': 30, ...values },
    curves: {},
    faults: [],
    procedure: [],
    seed,
  }));

const action: fc.Arbitrary<Action> = fc.oneof(
  fc.record({ do: fc.constant('pour' as const), liquid: fc.constantFrom('acid', 'sample', 'water'), volume_mL: evenly(0.05, 6), hold_level: fc.boolean() }),
  fc.record({
    do: fc.constant('pour' as const),
    liquid: fc.constantFrom('acid', 'water'),
    volume_mL: evenly(0.05, 6),
    unless: fc.record({ ion: fc.constantFrom<IonId>(...ION_IDS), above_bottom_mm: evenly(0, 20) }),
  }),
  fc.record({ do: fc.constant('clamp' as const), open_percent: fc.constantFrom(0, 30, 60, 100, 120) }),
  fc.record({ do: fc.constant('receiver' as const), label: fc.constantFrom('a', 'b', 'c') }),
  fc.record({
    do: fc.constant('wait' as const),
    until: fc.oneof(fc.record({ elapsed_min: evenly(0, 8) }), fc.record({ more_mL: evenly(0, 4) }), fc.record({ liquid_mm: evenly(0, 10) })),
  }),
);
const log: fc.Arbitrary<Log> = fc.array(action, { minLength: 1, maxLength: 14 });

describe('every run', () => {
  it('closes its ledger to 1e-9 and holds nothing negative', () => {
    fc.assert(
      fc.property(scenario, log, (s, l) => {
        const run = runWhole(s, l);
        expect(resultsOf(run).ledger.worstRelativeError).toBeLessThan(1e-9);
        expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
        if (run.startedVolume + run.bed.scalar[AT.poured] > 0) expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
        expect(lowest(run)).toBeGreaterThanOrEqual(-1e-18);
        expect(run.bed.taken.every((share) => share >= 0 && share <= 1 + 1e-6)).toBe(true);
      }),
      RUNS,
    );
  });

  it('adds up: receivers hold what was delivered', () => {
    fc.assert(
      fc.property(scenario, log, (s, l) => {
        const run = runWhole(s, l);
        const results = resultsOf(run);
        const volume = results.receivers.reduce((sum, receiver) => sum + receiver.volume_mL, 0);
        expect(Math.abs(volume - results.delivered_mL)).toBeLessThan(1e-9 * Math.max(1, volume));
        const HCl = results.receivers.reduce((sum, receiver) => sum + receiver.HCl_mmol, 0);
        expect(Math.abs(HCl - inReceivers(run.bed, 0))).toBeLessThan(1e-9 * Math.max(1, HCl));
      }),
      RUNS,
    );
  });

  it('is the same at once and in arbitrary pieces, bit for bit', () => {
    fc.assert(
      fc.property(
        scenario,
        log,
        fc.array(fc.oneof(fc.record({ steps: fc.integer({ min: 0, max: 50 }) }), fc.record({ time_min: evenly(0, 30) })), { maxLength: 12 }),
        (s, l, pieces) => {
          const whole = runOf(s, l);
          advance(whole, { endOfLog: true });
          const cut = runOf(s, l);
          for (const piece of pieces) advance(cut, { ...piece, endOfLog: true });
          advance(cut, { endOfLog: true });
          expect(sameBits(whole.bed.buffer, cut.bed.buffer)).toBe(true);
          expect(cut.record.count).toBe(whole.record.count);
        },
      ),
      RUNS,
    );
  });

  it('goes on from a checkpoint as if nothing had happened', () => {
    fc.assert(
      fc.property(scenario, log, fc.integer({ min: 0, max: 200 }), (s, l, steps) => {
        const run = runOf(s, l);
        advance(run, { endOfLog: true, steps });
        const point = checkpointOf(run);
        advance(run, { endOfLog: true });
        const first = run.bed.buffer.slice(0);
        restoreTo(run, point);
        advance(run, { endOfLog: true });
        expect(sameBits(first, run.bed.buffer)).toBe(true);
      }),
      RUNS,
    );
  });
});

function lowest(run: Run): number {
  const { pore, sorbed, still, head, tip, receivers } = run.bed;
  let least = 0;
  for (const array of [pore, sorbed, still, head, tip, receivers]) {
    for (const value of array) {
      if (Number.isNaN(value)) return Number.NaN;
      if (value < least) least = value;
    }
  }
  return least;
}

function sameBits(a: ArrayBuffer, b: ArrayBuffer): boolean {
  const [x, y] = [new Uint32Array(a), new Uint32Array(b)];
  return x.length === y.length && x.every((value, i) => value === y[i]);
}
