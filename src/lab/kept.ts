import { inWords, own, parseJson } from '../../sim/input/index.ts';
import { patched } from '../store/keep/difference.ts';
import { type Outcome, readSaved } from '../store/keep/saved.ts';
import { scenarioJson } from '../store/shipped/catalog.ts';
import { type Lab, savedOf } from './lab.ts';

// The lab in the storage of the browser, with the last steps that led to it.

const KEY = 'bandfall.lab';
const UNREAD_KEY = 'bandfall.lab.unread';
const VERSION = 1;
/** Steps that survive a reload. */
const STEPS_MAX = 10;

/** Writes the last of these labs, and a few before it. A storage that refuses costs only the memory. */
export function keepLab(storage: Storage | undefined, labs: readonly Lab[]): void {
  try {
    storage?.setItem(KEY, JSON.stringify({ version: VERSION, labs: labs.slice(-STEPS_MAX).map(savedOf) }));
  } catch {
    // Full or closed: the lab can still be saved as a file.
  }
}

/** What was kept, oldest first; none where nothing was. What cannot be read is put aside, not written over. */
export async function keptLab(storage: Storage | undefined): Promise<Outcome<readonly Lab[]>> {
  const text = read(storage);
  if (text === undefined) return { ok: true, value: [] };
  const parsed = parseJson(text, 'kept lab');
  if (!parsed.ok) return putAside(storage, text, inWords(parsed.issues));
  const listed = own(parsed.json, 'labs');
  if (own(parsed.json, 'version') !== VERSION || !Array.isArray(listed)) return putAside(storage, text, 'it was written by another page');
  const labs: Lab[] = [];
  for (const one of listed) {
    const saved = readSaved(one);
    if (!saved.ok) return putAside(storage, text, inWords(saved.issues));
    const start = await scenarioJson(saved.value.base).catch(() => undefined);
    if (start === undefined) return putAside(storage, text, `its scenario ${saved.value.base} is not there`);
    // What does not fit is kept as it is: it was being worked on.
    labs.push({ base: saved.value.base, start, json: patched(start, saved.value.differences), hidden: saved.value.mystery !== undefined });
  }
  return { ok: true, value: labs };
}

function read(storage: Storage | undefined): string | undefined {
  try {
    return storage?.getItem(KEY) ?? undefined;
  } catch {
    return undefined;
  }
}

function putAside(storage: Storage | undefined, text: string, why: string): Outcome<never> {
  try {
    storage?.setItem(UNREAD_KEY, text);
  } catch {
    // Nothing more can be done for it.
  }
  return { ok: false, message: `lab: what was kept in this browser could not be read and was put aside (${why})` };
}
