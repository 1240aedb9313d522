import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

// Tests that the mutants of `npm run mutants` have to survive: those of the model that are done in a second or two each, so
// that a mutant costs seconds. Stored figures, whole scenarios and long comparisons are left out.
const SLOW = [
  'tests/sim/faults/{registry,laws,signs}.test.ts',
  'tests/sim/run/allocation.test.ts',
  'tests/sim/flow/{fronts,lanes,transport,reference}.test.ts',
];

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/sim/{chemistry,column,flow,faults,flaws,run}/**/*.test.ts'],
    exclude: SLOW,
    env: { LAW_RUNS: '5' },
    testTimeout: 900_000,
  },
});
