import { readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import ts from 'typescript';

const TOP = join(import.meta.dirname, '..', '..');
/** A worker is named by its address, which is no import. */
const WORKER = /new URL\(\s*'(\.[^']+\.ts)'/g;

/** Packages that a file of the project needs, itself or through others; threads of its own count, files that are no code do not. */
export function packagesFrom(entry: string): Set<string> {
  const seen = new Set<string>();
  const packages = new Set<string>();
  const waiting = [entry];
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (seen.has(path)) continue;
    seen.add(path);
    for (const target of targetsOf(readFileSync(join(TOP, path), 'utf8'))) {
      if (!target.startsWith('.')) packages.add(packageOf(target));
      else if (target.endsWith('.ts')) waiting.push(posix.join(posix.dirname(path), target));
    }
  }
  return packages;
}

function targetsOf(text: string): string[] {
  const imported = ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => fileName);
  return [...imported, ...[...text.matchAll(WORKER)].map(([, target = '']) => target)];
}

function packageOf(target: string): string {
  return target
    .split('/')
    .slice(0, target.startsWith('@') ? 2 : 1)
    .join('/');
}
