import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

// The notices of what is bundled. The bundler's own list knows the page alone; what a thread of it brings along is left out there.

const FOLDER = '/node_modules/';
const NOTICE = /^licen[cs]e(\.|$)/i;

interface Package {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
}

/** `thread` belongs into every bundle of a worker, `page` into that of the page, which is written last and holds the file. */
export function licences(fileName: string): { readonly page: Plugin; readonly thread: Plugin } {
  const folders = new Set<string>();
  const note = (bundle: Readonly<Record<string, { readonly type: string; readonly moduleIds?: readonly string[] }>>): void => {
    for (const { moduleIds = [] } of Object.values(bundle))
      for (const id of moduleIds) if (!id.startsWith('\0') && id.includes(FOLDER)) folders.add(folderOf(id));
  };
  return {
    thread: { name: 'licences of a thread', generateBundle: (_, bundle) => note(bundle) },
    page: {
      name: 'licences',
      apply: 'build',
      generateBundle(_, bundle) {
        note(bundle);
        this.emitFile({ type: 'asset', fileName, source: noticesOf([...folders]) });
      },
    },
  };
}

/** Folder of the package that a module is from. */
function folderOf(id: string): string {
  const at = id.lastIndexOf(FOLDER) + FOLDER.length;
  const [first = '', second = ''] = id.slice(at).split('/');
  return id.slice(0, at) + (first.startsWith('@') ? `${first}/${second}` : first);
}

function noticesOf(folders: readonly string[]): string {
  const notices = folders.map(noticeOf).sort();
  return `# Licences\n\nThe page bundles these packages:\n${[...new Set(notices)].join('')}`;
}

function noticeOf(folder: string): string {
  // Read from the package's own description.
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Package;
  const file = readdirSync(folder).find((entry) => NOTICE.test(entry));
  const text = file === undefined ? '' : `\n${readFileSync(join(folder, file), 'utf8').trim()}\n`;
  return `\n## ${name} - ${version}${license === undefined ? '' : ` (${license})`}\n${text}`;
}
