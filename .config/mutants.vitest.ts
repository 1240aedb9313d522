import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

// Tests that the mutants of `npm run mutants` have to survive: those of the model, without stored figures and whole scenarios.
export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/sim/{chemistry,column,flow,faults,flaws,run}/**/*.test.ts'],
    testTimeout: 120_000,
  },
});
