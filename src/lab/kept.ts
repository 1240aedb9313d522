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

/** Writes the last of these labs, and a few before it. If the browser does not store them, only this copy is lost. */
export function keepLab(storage: Storage | undefined, labs: readonly Lab[]): void {
  try {
    storage?.setItem(KEY, JSON.stringify({ version: VERSION, labs: labs.slice(-STEPS_MAX).map(savedOf) }));
  } catch {
    // Storage is full or blocked: the lab can still be saved as a file.
  }
}

/** The kept labs, oldest first; an empty list if there are none. Data that cannot be read are put aside, not overwritten. */
export async function keptLab(storage: Storage | undefined): Promise<Outcome<readonly Lab[]>> {
  const text = read(storage);
  if (text === undefined) return { ok: true, value: [] };
  const parsed = parseJson(text, 'kept lab');
  if (!parsed.ok) return putAside(storage, text, inWords(parsed.issues));
  const listed = own(parsed.json, 'labs');
  if (own(parsed.json, 'version') !== VERSION || !Array.isArray(listed)) return putAside(storage, text, 'it was written by another version of the page');
  const labs: Lab[] = [];
  for (const one of listed) {
    const saved = readSaved(one);
    if (!saved.ok) return putAside(storage, text, inWords(saved.issues));
    const start = await scenarioJson(saved.value.base).catch(() => undefined);
    if (start === undefined) return putAside(storage, text, `its scenario ${saved.value.base} does not exist`);
    // A lab that is not valid is kept as it is: it was being edited.
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
    // It cannot be put aside either.
  }
  return { ok: false, message: `lab: the lab kept in this browser could not be read and was put aside (${why})` };
}
