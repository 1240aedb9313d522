import { posix } from 'node:path';
import ts from 'typescript';
import type { Source } from './tree.ts';

// Files that import one another in a circle, even if only for a type: none of them can be read first.

/** One line for each group of files that reach one another by their imports. */
export function circles(sources: readonly Source[]): string[] {
  const code = sources.filter(({ path }) => path.endsWith('.ts'));
  const known = new Set(code.map(({ path }) => path));
  const imports = new Map(code.map((source) => [source.path, importsOf(source).filter((path) => known.has(path))]));
  const reached = new Map(code.map(({ path }) => [path, reachedFrom(path, imports)]));
  const meets = (a: string, b: string): boolean => reached.get(a)?.has(b) === true && reached.get(b)?.has(a) === true;
  const groups = code.map(({ path }) => code.map((other) => other.path).filter((other) => meets(path, other))).filter((group) => group.length > 0);
  return [...new Set(groups.map((group) => group.sort().join(' <-> ')))];
}

function importsOf({ path, text }: Source): string[] {
  const { importedFiles } = ts.preProcessFile(text, true, true);
  return importedFiles.filter(({ fileName }) => fileName.startsWith('.')).map(({ fileName }) => posix.join(posix.dirname(path), fileName));
}

function reachedFrom(path: string, imports: ReadonlyMap<string, readonly string[]>): Set<string> {
  const reached = new Set<string>();
  const waiting = [...(imports.get(path) ?? [])];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (reached.has(next)) continue;
    reached.add(next);
    waiting.push(...(imports.get(next) ?? []));
  }
  return reached;
}
