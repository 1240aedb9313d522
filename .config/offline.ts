import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, posix, sep } from 'node:path';
import type { Plugin } from 'vite';

const WORKER = 'service-worker.js';
const SOURCE = 'src/app/offline/service-worker.ts';

/**
 * Builds the service worker beside the page and writes the files of the release into it. Written out here: `workbox-build` does
 * the same with some three hundred packages of its own and 6 kB gzipped of run time, for what takes sixty lines.
 */
export function offline(root: string): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    buildStart() {
      this.emitFile({ type: 'chunk', id: join(root, SOURCE), fileName: WORKER });
    },
    writeBundle({ dir = '' }) {
      const files = filesIn(dir).filter((name) => name !== WORKER);
      const text = readFileSync(join(dir, WORKER), 'utf8');
      const release = { name: nameOf(dir, [...files, WORKER]), files };
      writeFileSync(join(dir, WORKER), `const RELEASE = ${JSON.stringify(release)};\n${text}`);
    },
  };
}

function filesIn(folder: string): string[] {
  const found = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return found
    .map(({ parentPath, name }) => join(parentPath, name).slice(folder.length + 1))
    .map((name) => name.split(sep).join(posix.sep))
    .sort();
}

/** A release is named after what is in it, so that the same files are the same release. */
function nameOf(folder: string, files: readonly string[]): string {
  const hash = createHash('sha256');
  for (const name of files) hash.update(name).update(readFileSync(join(folder, name)));
  return hash.digest('hex').slice(0, 16);
}
