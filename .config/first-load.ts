import type { Rolldown } from 'vite';

// What the bench needs travels together: one file for the frame of the page, one for the bench with its figure. Left to itself
// the bundler cuts a file for every set of views that share something, and the first visit waits for sixty of them.

const FRAME = ['/src/main.ts'];
const BENCH = ['/src/bench/view.ts', '/src/figure/figure.ts'];

type Look = Pick<Rolldown.PluginContext, 'getModuleInfo'>;

/** Name of the file a module travels in; null where that is left to the bundler. */
export function fileOfModule(id: string, look: Look): string | null {
  const frame = reached(FRAME, id, look);
  return frame ? 'app' : reached(BENCH, id, look) ? 'bench' : null;
}

/** Whether one of the entries imports a module, at once or by way of others; what is imported on demand does not count. */
function reached(entries: readonly string[], id: string, look: Look): boolean {
  const seen = new Set<string>();
  const ways = [id];
  for (let at = ways.pop(); at !== undefined; at = ways.pop()) {
    if (seen.has(at)) continue;
    seen.add(at);
    if (entries.some((entry) => at?.endsWith(entry))) return true;
    ways.push(...(look.getModuleInfo(at)?.importers ?? []));
  }
  return false;
}
