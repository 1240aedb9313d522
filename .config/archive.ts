import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { type Zippable, zipSync } from 'fflate';

/** Same files, same archive: every file has this time, which a zip keeps without a time zone. */
const TIME = new Date(2000, 0, 1);

/** A zip of a folder and of single files, all below one name. */
export function archiveOf(name: string, folder: string, singles: readonly string[]): Uint8Array {
  const files: Zippable = {};
  const below = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  for (const path of below) files[`${name}/page/${relative(folder, path).split(sep).join('/')}`] = readFileSync(path);
  for (const path of singles) files[`${name}/${path.split(/[\\/]/).at(-1)}`] = readFileSync(path);
  const sorted = Object.fromEntries(Object.entries(files).sort(([a], [b]) => (a < b ? -1 : 1)));
  return zipSync(sorted, { mtime: TIME, level: 9 });
}
