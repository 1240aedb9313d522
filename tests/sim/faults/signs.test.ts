import { expect, test } from 'vitest';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { FAULTS } from '../../../sim/faults/registry.ts';
import type { FaultKind } from '../../../sim/terms/fault-kinds.ts';
import { leach } from './bench.ts';

// What the signs of a fault say, held to the run that shows it.

function cobalt(kind: FaultKind): { in: (label: string) => number; loaded: number } {
  const results = resultsOf(runWhole(leach({ 'bench.hand': 0 }, { faults: [{ kind, severity: 1 }] })));
  const held = (label: string) => Number(results.receivers.find((receiver) => receiver.label === label)?.Co_mmol ?? 0);
  return { in: held, loaded: 0.18 };
}

test('a second aliquot without acid before it runs ahead, is caught again, and little of it is lost', () => {
  const { in: held, loaded } = cobalt('no-recondition');
  expect(FAULTS['no-recondition'].signs).toContain('little is lost');
  expect(held('nickel, second') / loaded).toBeGreaterThan(held('nickel') / loaded);
  expect(held('nickel, second') / loaded).toBeLessThan(0.05);
  expect(held('cobalt, second') / loaded).toBeGreaterThan(0.9);
});

test('cobalt left by the run before leaves with the conditioning acid, not into the receiver', () => {
  const { in: held, loaded } = cobalt('carry-over');
  expect(FAULTS['carry-over'].signs).toContain('hardly more than was put on');
  expect(held('nickel') / loaded).toBeGreaterThan(0.1);
  expect(held('cobalt') / loaded).toBeLessThan(1.02);
});
