import { describe, expect, test } from 'vitest';
import { wrongArrows } from './house/arrows.ts';
import { impurities } from './house/purity.ts';
import { decodings } from './house/recorded.ts';
import { paths, textFiles } from './house/tree.ts';
import { unwantedWords } from './house/words.ts';

const TOP_LEVEL = ['DEVELOPERS.md', 'README.md', 'package-lock.json', 'package.json', 'scenarios', 'sim', 'src', 'tests', 'tsconfig.json', 'vite.config.ts'];

const files = textFiles();
const model = files.filter(({ path }) => path.startsWith('sim/') && path.endsWith('.ts'));

describe('the project', () => {
  test('has nothing at its top but what belongs there, and dot-files', () => {
    const top = new Set(paths().map((path) => path.split('/')[0]));
    expect([...top].filter((name) => !name.startsWith('.') && !TOP_LEVEL.includes(name))).toEqual([]);
  });

  test('imports in one direction', () => {
    expect(files.flatMap(wrongArrows)).toEqual([]);
  });

  test('needs no folder beside it and uses no unwanted word', () => {
    expect(files.flatMap(unwantedWords)).toEqual([]);
  });

  test('has a model without page, clock or chance', () => {
    expect(model.length).toBeGreaterThan(20);
    expect(model.flatMap(impurities)).toEqual([]);
  });
});

describe('the record of a run', () => {
  test('is read in its own room alone', () => {
    expect(files.flatMap(decodings)).toEqual([]);
  });

  test.each(['plan.rows[3]', 'const { stride } = plan', 'const { profiles: p } = record', `import { FRAME } from '../../sim/history/record.ts'`])(
    'may not be read elsewhere by %s',
    (text) => {
      expect(decodings({ path: 'src/figure/a.ts', text: `\n${text};` })).toEqual([expect.stringMatching(/^src\/figure\/a\.ts:2: /)]);
      expect(decodings({ path: 'sim/history/a.ts', text })).toEqual([]);
    },
  );
});

describe('the check of imports', () => {
  test.each([
    ['sim/a.ts', `import { html } from 'lit';`],
    ['sim/a.ts', `import type { X } from '../src/store/x.ts';`],
    ['src/bench/a.ts', `import '../figure/figure.ts';`],
    ['src/glass/a.ts', `const view = () => import('../why/why.ts');`],
    ['src/glass/a.ts', `export { x } from '../app/shell.ts';`],
    ['src/store/a.ts', `new Worker(new URL('../why/worker.ts', import.meta.url));`],
    ['src/plot/a.ts', `import { x } from '../../tests/x.ts';`],
    ['src/app/a.ts', `import '../main.ts';`],
  ])('refuses, in %s, %s', (path, text) => {
    expect(wrongArrows({ path, text: `\n${text}` })).toEqual([expect.stringMatching(`^${path}:2: `)]);
  });

  test.each([
    ['sim/faults/a.ts', `import { x } from '../bed.ts';`],
    ['src/bench/a.ts', `import { html } from 'lit'; import '../ui/number.ts'; import '../plot/axis.ts'; import { x } from '../../sim/run.ts';`],
    ['src/app/a.ts', `import('../glass/glass.ts'); import '../store/session.ts';`],
    ['src/main.ts', `import './app/shell.ts';`],
    ['tests/a.test.ts', `import '../src/app/shell.ts';`],
  ])('accepts, in %s, %s', (path, text) => {
    expect(wrongArrows({ path, text })).toEqual([]);
  });
});

describe('the check of the model', () => {
  test.each([
    'Date.now()',
    'new Date()',
    'Math.random()',
    'Math.exp(1)',
    'Math.log10(2)',
    '2 ** 0.5',
    'document.title',
    'window.x',
    'performance.now()',
    'const o = { console }',
  ])('refuses %s', (text) => {
    expect(impurities({ path: 'sim/a.ts', text: `// why\n${text};` })).toEqual([expect.stringMatching(/^sim\/a\.ts:2: /)]);
  });

  test.each([
    '// the window of time, by the document',
    `const s = 'window';`,
    'o.window = { document: 1 };',
    'function f(window: number) { return window; }',
    'Math.floor(1)',
    'Math.sqrt(2)',
  ])('accepts %s', (text) => {
    expect(impurities({ path: 'sim/a.ts', text })).toEqual([]);
  });
});

test('the check of words names file, line and word', () => {
  const shared = ['..', 'shared'].join('/');
  expect(unwantedWords({ path: 'a.md', text: `first\nsee ${shared}/x\n` })).toEqual([`a.md:2: ${shared}`]);
});
