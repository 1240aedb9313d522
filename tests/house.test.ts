import { describe, expect, test } from 'vitest';
import { wrongArrows } from './house/arrows.ts';
import { circles } from './house/circles.ts';
import { ownRanges } from './house/controls.ts';
import { impurities } from './house/purity.ts';
import { decodings } from './house/recorded.ts';
import { backDoors, crowdedRooms, ROOM_MAX } from './house/rooms.ts';
import { paths, textFiles } from './house/tree.ts';
import { unwantedWords } from './house/words.ts';

const TOP_LEVEL = [
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'package-lock.json',
  'package.json',
  'scenarios',
  'sim',
  'src',
  'tests',
  'tsconfig.json',
  'vite.config.ts',
];

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

  test('imports in no circle, not even for a type', () => {
    expect(circles(files.filter(({ path }) => /^(sim|src)\//.test(path)))).toEqual([]);
  });

  test('has no crowded room', () => {
    expect(crowdedRooms(files)).toEqual([]);
  });

  test('enters rooms that have a face through it', () => {
    expect(files.flatMap(backDoors)).toEqual([]);
  });

  test('needs no folder beside it and uses no unwanted word', () => {
    expect(files.flatMap(unwantedWords)).toEqual([]);
  });

  test('takes the ranges and units of its controls from tables', () => {
    expect(files.flatMap(ownRanges)).toEqual([]);
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

test('the check of circles finds files that reach one another, in code or in types', () => {
  const sources = [
    { path: 'sim/a.ts', text: `import type { B } from './b/b.ts';` },
    { path: 'sim/b/b.ts', text: `export { c } from '../c.ts';` },
    { path: 'sim/c.ts', text: `const a = () => import('./a.ts');` },
    { path: 'sim/d.ts', text: `import './a.ts';` },
  ];
  expect(circles(sources)).toEqual(['sim/a.ts <-> sim/b/b.ts <-> sim/c.ts']);
  expect(circles(sources.slice(1))).toEqual([]);
});

test('the check of rooms counts the files at one level', () => {
  const room = (count: number) => Array.from({ length: count }, (_, i) => ({ path: `src/a/${i}.ts`, text: '' }));
  expect(crowdedRooms([...room(ROOM_MAX), { path: 'src/a/b/c.ts', text: '' }])).toEqual([]);
  expect(crowdedRooms(room(ROOM_MAX + 1))).toEqual([`src/a: ${ROOM_MAX + 1} files`]);
});

test('the check of faces finds imports that pass by an index', () => {
  const past = { path: 'src/why/a.ts', text: `import { x } from '../../sim/colour/srgb.ts';` };
  expect(backDoors(past)).toEqual(['src/why/a.ts:1: colour/srgb.ts']);
  expect(backDoors({ path: 'sim/teach/a.ts', text: `import { x } from '../colour/srgb.ts';` })).toEqual(['sim/teach/a.ts:1: colour/srgb.ts']);
  expect(backDoors({ path: 'sim/colour/a.ts', text: `import { x } from './srgb.ts';` })).toEqual([]);
  expect(backDoors({ path: 'src/why/a.ts', text: `import { x } from '../../sim/colour/index.ts';` })).toEqual([]);
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

describe('the check of controls', () => {
  const bound = (name: string, value: string): string => `.${name}=\${${value}}`;
  const control = (range: string) => ({ path: 'src/plan/a.ts', text: `\nhtml\`<bf-number label="volume" ${range} ${bound('value', '7')}></bf-number>\`;` });

  test.each([bound('max', '20'), bound('min', '-0.5'), 'step="1"', 'unit="mL"'])('refuses %s', (range) => {
    expect(ownRanges(control(range))).toEqual([expect.stringMatching(/^src\/plan\/a\.ts:2: \.?(min|max|step|unit)=/)]);
  });

  test.each([bound('of', 'LIMITS.x'), bound('max', 'this.length'), bound('min', 'Math.max(row.min, -2)'), bound('unit', 'unit')])('accepts %s', (range) => {
    expect(ownRanges(control(range))).toEqual([]);
  });
});

test('the check of words names file, line and word', () => {
  const shared = ['..', 'shared'].join('/');
  expect(unwantedWords({ path: 'a.md', text: `first\nsee ${shared}/x\n` })).toEqual([`a.md:2: ${shared}`]);
});
