import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { plainTemplates } from './.config/plain-templates.ts';
import { plainScales } from './.config/plain-scales.ts';
import { firstLoad } from './.config/first-load.ts';
import { licences } from './.config/licences.ts';
import { offline } from './.config/offline.ts';
import { scenarioTitles } from './.config/scenario-titles.ts';
import { wordless } from './.config/wordless.ts';

const ROOT = fileURLToPath(new URL('.', import.meta.url));
const notices = licences('licences.md');

// The runner leaves one core free; of two cores that is too much.
const WORKERS = Math.max(2, availableParallelism() - 1);

export default defineConfig({
  root: 'src',
  base: './',
  plugins: [plainTemplates(), plainScales(), scenarioTitles(`${ROOT}scenarios`), notices.page, offline(ROOT)],
  cacheDir: '../node_modules/.vite',
  server: { fs: { allow: [ROOT] } },
  worker: { format: 'es', plugins: () => [wordless(), notices.thread] },
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    modulePreload: { polyfill: false },
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: firstLoad(ROOT), debugName: 'first load', includeDependenciesRecursively: false }] } } },
  },
  test: {
    maxWorkers: WORKERS,
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          root: ROOT,
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/**/*.browser.test.ts'],
          testTimeout: 120_000,
          // The model keeps nothing between calls, so files may share one context: a third faster.
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          root: ROOT,
          environment: 'node',
          include: ['tests/**/*.browser.ts', 'tests/**/*.browser.test.ts'],
          testTimeout: 90_000,
          hookTimeout: 120_000,
          // One browser at a time: software WebGL alone fills two cores.
          fileParallelism: false,
        },
      },
    ],
  },
});
