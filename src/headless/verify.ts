import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Taken, takenIn } from '../../sim/handed/index.ts';
import { parseJson } from '../../sim/input/index.ts';
import type { Issue } from '../../sim/terms/types.ts';

/** Computes handed-in runs again, file by file; one that cannot be read does not stop the rest. */
export async function verified(files: readonly string[]): Promise<Taken[]> {
  const taken: Taken[] = [];
  for (const file of files) {
    const source = textOf(file);
    taken.push(typeof source === 'string' ? await takenIn(file, source, shipped) : { file, verdict: 'damaged', issues: [source] });
  }
  return taken;
}

/** All that keeps a file from agreeing, the file named in the path. */
export function objections(taken: readonly Taken[]): Issue[] {
  return taken.flatMap(({ file, verdict, issues }) => issues.map((issue) => ({ ...issue, path: `${file} (${verdict}): ${issue.path}` })));
}

function textOf(file: string): string | Issue {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    return { path: 'file', expected: 'a file that can be read', received: error instanceof Error ? error.message : String(error) };
  }
}

/** JSON of a scenario that comes with the project. */
async function shipped(id: string): Promise<unknown> {
  if (!/^[a-z0-9-]+$/.test(id)) return undefined;
  const source = textOf(fileURLToPath(new URL(`../../scenarios/${id}.json`, import.meta.url)));
  const parsed = typeof source === 'string' ? parseJson(source, 'scenario') : undefined;
  return parsed?.ok ? parsed.json : undefined;
}
