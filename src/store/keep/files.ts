import { describe, isRecord, parseJson, TEXT_MAX } from '../../../sim/input/index.ts';
import { readSaved, type Reading, type SavedRun } from './saved.ts';

// A run as a file of our own: JSON, readable by people.

export const RUN_KIND = 'bandfall-run';
export const RUN_VERSION = 1;

/** Text of a run file. `extra` is for people, such as results; it is not read back. */
export function runFileText(run: SavedRun, extra: Readonly<Record<string, unknown>> = {}): string {
  return `${JSON.stringify({ ...extra, kind: RUN_KIND, version: RUN_VERSION, ...run }, undefined, 2)}\n`;
}

/** Reads a run file; all issues at once. */
export function readRunFile(text: string): Reading<SavedRun> {
  const parsed = parseJson(text, 'file');
  if (!parsed.ok) return parsed;
  const value = parsed.json;
  if (!isRecord(value)) return refused('file', 'an object', value);
  if (value['kind'] !== RUN_KIND) return refused('kind', `"${RUN_KIND}"`, value['kind']);
  if (value['version'] !== RUN_VERSION) return refused('version', `${RUN_VERSION}`, value['version']);
  return readSaved(value);
}

/** Reads a chosen file, refusing a large one before it is loaded. */
export async function openRunFile(file: Blob): Promise<Reading<SavedRun>> {
  if (file.size > TEXT_MAX) return refused('file', `at most ${TEXT_MAX} bytes`, file.size);
  return readRunFile(await file.text());
}

/** Offers text to be saved as a file. */
export function offerFile(page: Document, name: string, text: string, type = 'application/json'): void {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const anchor = page.createElement('a');
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  // The browser has taken the address by the next turn.
  setTimeout(() => URL.revokeObjectURL(address));
}

/** Asks for one file; undefined when the reader changes their mind. */
export function askForFile(page: Document, accept = '.json,application/json'): Promise<File | undefined> {
  const input = page.createElement('input');
  input.type = 'file';
  input.accept = accept;
  return new Promise((resolve) => {
    input.addEventListener('change', () => resolve(input.files?.[0]));
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}

/** File name from a title: lower case, only characters that every file system accepts. */
export function fileName(title: string, ending: string): string {
  const stem = title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60);
  return `${stem || 'run'}.${ending}`;
}

function refused(path: string, expected: string, received: unknown): Reading<SavedRun> {
  return { ok: false, issues: [{ path, expected, received: describe(received) }] };
}
