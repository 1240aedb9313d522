import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Source {
  /** From the top of the project, with slashes. */
  readonly path: string;
  readonly text: string;
}

const TOP = join(import.meta.dirname, '..', '..');
const NOT_OURS = new Set(['.git', 'node_modules', 'dist', 'coverage', '.cache']);
const NOT_TEXT = /\.(png|jpg|woff2|ico)$/;

/** Files that git tracks or would track; without git, all but the folders that tools fill. */
export function paths(): string[] {
  const git = spawnSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], { cwd: TOP, encoding: 'utf8' });
  const listed = git.status === 0 ? git.stdout.split('\0').filter((path) => path !== '' && existsSync(join(TOP, path))) : [];
  return (listed.length > 0 ? listed : walked('')).sort();
}

export function textFiles(): Source[] {
  return paths().flatMap((path) => (NOT_TEXT.test(path) ? [] : [{ path, text: readFileSync(join(TOP, path), 'utf8') }]));
}

/** Row and file of a place in the text, as editors open it. */
export function at({ path, text }: Source, offset: number): string {
  return `${path}:${text.slice(0, offset).split('\n').length}`;
}

function walked(folder: string): string[] {
  return readdirSync(join(TOP, folder), { withFileTypes: true }).flatMap((entry) => {
    if (NOT_OURS.has(entry.name)) return [];
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    return entry.isDirectory() ? walked(path) : [path];
  });
}
