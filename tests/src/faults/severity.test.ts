import { assert, constantFrom, double, property } from 'fast-check';
import { expect, test } from 'vitest';
import { FAULT_KINDS } from '../../../sim/terms/fault-kinds.ts';
import { FAULTS } from '../../../sim/faults/registry.ts';
import { amountOf, amountRange, severityOf } from '../../../sim/faults/index.ts';
import { faultWords } from '../../../src/faults/severity.ts';

test('severityOf(...) undoes amountOf(...), and no severity is the least amount', () => {
  assert(
    property(constantFrom(...FAULT_KINDS), double({ min: 0, max: 1, noNaN: true }), (kind, severity) => {
      expect(severityOf(kind, amountOf(kind, severity))).toBeCloseTo(severity, 9);
      expect(amountOf(kind, 0)).toBe(amountRange(kind).min);
      expect(amountOf(kind, 1)).toBeCloseTo(FAULTS[kind].most, 9);
    }),
    { seed: 20260825, numRuns: 200 },
  );
});

test('faultWords(...) says how much, on which side and how deep', () => {
  // Half a severity of a power of ten is its square root, 3.2.
  expect(faultWords({ kind: 'channel', severity: 0.5, side_deg: 90, depth_share: 0.5 }, 7).replaceAll('\u202f', ' ')).toBe(
    'channel, 3.2 times, at the left, down to 3.5 cm',
  );
  expect(faultWords({ kind: 'channel', severity: 1 }, 7)).toContain('in the core');
  expect(faultWords({ kind: 'tilted-bed', severity: 1, side_deg: 45 }, 7)).toContain('at the 45.0°');
});
