import { posix } from 'node:path';
import ts from 'typescript';
import { at, type Source } from './tree.ts';

// Which part of the project may import which. A part is sim, scenarios, or a folder of src; the tests may import all.

const MODEL = ['sim', 'scenarios'];
const BUILT_ON: Readonly<Record<string, readonly string[]>> = {
  sim: [],
  'src/store': MODEL,
  'src/ui': [...MODEL, 'src/store'],
  'src/plot': [...MODEL, 'src/store', 'src/ui'],
  'src/headless': [...MODEL, 'src/ui', 'src/lab'],
  'src/main.ts': ['src/app', 'src/store', 'src/ui'],
};
/** A folder of src that is not named above shows something, and does not know of the others. */
const SHOWS_SOMETHING = [...MODEL, 'src/store', 'src/ui', 'src/plot'];
const NEVER_FOR_APP = ['src/main.ts', 'src/headless'];
const WORKER_ADDRESS = /new URL\(\s*(['"])(\..*?)\1/g;

/** "file:line: part imports what", a line an import that points the wrong way. */
export function wrongArrows(source: Source): string[] {
  const part = partOf(source.path);
  if (part === undefined || !source.path.endsWith('.ts')) return [];
  return imports(source.text).flatMap(({ target, offset }) => (allows(part, source.path, target) ? [] : [`${at(source, offset)}: ${part} imports ${target}`]));
}

function allows(part: string, path: string, target: string): boolean {
  if (!target.startsWith('.')) return part !== 'sim';
  const reached = partOf(posix.join(posix.dirname(path), target));
  if (reached === undefined || reached === part) return reached === part;
  if (part === 'src/app') return !NEVER_FOR_APP.includes(reached);
  return (BUILT_ON[part] ?? SHOWS_SOMETHING).includes(reached);
}

function partOf(path: string): string | undefined {
  const [top, second] = path.split('/');
  if (top === 'sim' || top === 'scenarios') return top;
  return top === 'src' ? `src/${second}` : undefined;
}

function imports(text: string): { target: string; offset: number }[] {
  const found = ts.preProcessFile(text, true, true).importedFiles.map(({ fileName, pos }) => ({ target: fileName, offset: pos }));
  const workers = [...text.matchAll(WORKER_ADDRESS)].map((match) => ({ target: match[2], offset: match.index }));
  return [...found, ...workers];
}
