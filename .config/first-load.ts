import { posix } from 'node:path';
import type { Rolldown } from 'vite';

// What the bench needs travels together: one file for the frame of the page, one for the bench with its figure. Left to itself
// the bundler cuts a file for every set of views that share something, and the first visit waits for sixty of them.

const FRAME = 'src/main.ts';
const BENCH = ['src/bench/view.ts', 'src/figure/figure.ts'];
/** The public face of a room: each of its names leads on to one file, the others stay behind. */
const FACE = /\/sim\/[\w-]+\/index\.ts$/;
const FROM = /(?:^|[;}\n])\s*(?:import|export)\s*(?:([^"';]*?)\s*from\s*)?["']([^"']+)["']/g;

type Look = Pick<Rolldown.PluginContext, 'getModuleInfo'>;

/** For the bundler: the name of the file a module travels in; null where that is left to it. `root` holds `src` and ends in a slash. */
export function firstLoad(root: string): (id: string, look: Look) => string | null {
  const read = (look: Look) => ({
    frame: reached([root + FRAME], look),
    bench: reached(
      BENCH.map((entry) => root + entry),
      look,
    ),
  });
  let files: ReturnType<typeof read> | undefined;
  return (id, look) => {
    files ??= read(look);
    return files.frame.has(id) ? 'app' : files.bench.has(id) ? 'bench' : null;
  };
}

/** Every module that these import, at once or by way of others; what is imported on demand does not count. */
function reached(entries: readonly string[], look: Look): Set<string> {
  const found = new Set<string>();
  const ways = [...entries];
  for (let id = ways.pop(); id !== undefined; id = ways.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    ways.push(...importsOf(id, look));
  }
  return found;
}

function importsOf(id: string, look: Look): string[] {
  const { code, importedIds } = look.getModuleInfo(id) ?? { code: null, importedIds: [] };
  const faces = importedIds.filter((other) => FACE.test(other));
  const named = [...(code ?? '').matchAll(FROM)].flatMap(([, clause = '', way = '']) => {
    const face = posix.join(posix.dirname(id), way);
    return faces.includes(face) ? namesIn(clause).map((name) => behind(face, name, look)) : [];
  });
  return [...importedIds.filter((other) => !FACE.test(other)), ...named];
}

/** The file that a face has a name from; the face itself where it does not say. */
function behind(face: string, name: string, look: Look): string {
  const from = [...(look.getModuleInfo(face)?.code ?? '').matchAll(FROM)].find(([, clause = '']) => namesIn(clause, true).includes(name));
  return from?.[2] === undefined ? face : posix.join(posix.dirname(face), from[2]);
}

/** `{ a, b as c }`: what is taken, a and b, or what it is called from here on, a and c. */
function namesIn(clause: string, outside = false): string[] {
  return clause
    .replace(/[{}]/g, '')
    .split(',')
    .map((part) => part.trim().split(/\s+as\s+/))
    .flatMap((words) => (outside ? words.at(-1) : words[0]) ?? [])
    .filter((name) => name !== '');
}
