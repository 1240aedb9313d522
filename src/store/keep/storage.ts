import { readSaved, type Outcome, type SavedRun } from './saved.ts';

// The run kept in this browser, so that closing the tab loses nothing.

const RUN_KEY = 'bandfall.run';
const KEPT_VERSION = 1;

export interface Autosave {
  /** Keeps the run. Not ok when the browser refuses: private mode, full, switched off. */
  save(run: SavedRun): Outcome<undefined>;
  /** The run kept last; `value` undefined when there is none. Not ok when it cannot be read: then it is left aside. */
  load(): Outcome<SavedRun | undefined>;
  clear(): void;
}

/** Storage of the page, undefined where the browser denies it; merely asking can throw. */
export function localStorageOf(page: { readonly localStorage: Storage }): Storage | undefined {
  try {
    return page.localStorage;
  } catch {
    return undefined;
  }
}

/** `tab` names this tab, so that a tab can tell its own writing from that of another. */
export function openAutosave(storage: Storage | undefined, tab: string): Autosave {
  return {
    save(run) {
      try {
        if (!storage) return { ok: false, message: 'autosave: this browser keeps nothing; save the run as a file' };
        storage.setItem(RUN_KEY, JSON.stringify({ version: KEPT_VERSION, tab, run }));
        return { ok: true, value: undefined };
      } catch {
        return { ok: false, message: 'autosave: the storage of this browser is full or closed; save the run as a file' };
      }
    },
    load() {
      try {
        return readKept(storage?.getItem(RUN_KEY) ?? undefined);
      } catch {
        return { ok: true, value: undefined };
      }
    },
    clear() {
      try {
        storage?.removeItem(RUN_KEY);
      } catch {
        // Nothing can be removed from a storage that is closed.
      }
    },
  };
}

/** Calls `taken` when another tab has kept its run over that of this one: the last writer wins, and it is said. Returns the stop. */
export function watchOtherTabs(page: EventTarget, tab: string, taken: (message: string) => void): () => void {
  const heard = (event: Event) => {
    const { key, newValue } = event as StorageEvent;
    if (key === RUN_KEY && newValue !== null && writerOf(newValue) !== tab) {
      taken('autosave: another tab now keeps its own run; the run in this tab goes on, but only the tab that acted last is resumed');
    }
  };
  page.addEventListener('storage', heard);
  return () => page.removeEventListener('storage', heard);
}

function readKept(text: string | undefined): Outcome<SavedRun | undefined> {
  if (text === undefined) return { ok: true, value: undefined };
  const kept = parsed(text);
  const reading = readSaved(kept?.run);
  if (kept?.version === KEPT_VERSION && reading.ok) return reading;
  return { ok: false, message: 'autosave: the run kept in this browser could not be read and was left aside' };
}

function writerOf(text: string): unknown {
  return parsed(text)?.tab;
}

function parsed(text: string): { version?: unknown; tab?: unknown; run?: unknown } | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? value : undefined;
  } catch {
    return undefined;
  }
}
