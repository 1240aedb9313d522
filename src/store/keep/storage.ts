import { inWords, isRecord, own, parseJson, TEXT_MAX } from '../../../sim/input/index.ts';
import { readSaved, type Outcome, type Reading, type SavedRun } from './saved.ts';
import { openShelf } from './shelf.ts';

// What is kept in this browser, so that closing the tab loses nothing: the run, and texts that this page could not read. The
// latter are never overwritten.

const RUN_KEY = 'bandfall.run';
const UNREAD_KEY = 'bandfall.unread';
const KEPT_VERSION = 1;
/** Places for texts that could not be read. */
const UNREAD_MAX = 5;

/** A text that could not be read, as it was found, and why. */
export interface Unread {
  readonly reason: string;
  readonly text: string;
}

export interface Autosave {
  /**
   * Keeps the run. Not ok when the browser refuses (private mode, full, switched off), or when the run could not be read
   * again. An `idle` tab does not overwrite what another tab has kept meanwhile.
   */
  save(run: SavedRun, idle?: boolean): Outcome<undefined>;
  /** The run kept last; `value` undefined when there is none. Not ok when it cannot be read: then it is moved to the unread texts. */
  load(): Outcome<SavedRun | undefined>;
  /** Moves the kept run to the unread texts, because the page could not open it. */
  giveUp(reason: string): Outcome<undefined>;
  /** What could not be read, oldest first. */
  unread(): readonly Unread[];
  forgetUnread(): void;
  clear(): void;
}

/** Storage of the page, undefined if the browser denies it; asking for it can throw. */
export function localStorageOf(page: { readonly localStorage: Storage }): Storage | undefined {
  try {
    return page.localStorage;
  } catch {
    return undefined;
  }
}

/**
 * `tab` names this tab, so that it can tell its own run from that of another tab; a run of another tab that is overwritten
 * is put `aside`.
 */
export function openAutosave(storage: Storage | undefined, tab: string, aside: (run: SavedRun) => void = onShelf(storage)): Autosave {
  /** A text that could not be moved elsewhere is not overwritten. */
  let occupied = false;
  /** What this tab has last read or written. */
  let seen: string | undefined;
  const giveUp = (reason: string): Outcome<undefined> => {
    const moved = moveUnread(storage, reason);
    occupied = !moved.ok;
    return moved;
  };
  /** The run of another tab that this one is about to write over; a text that cannot be read is not lost either. */
  const leaveForeign = (text: string): Outcome<undefined> => {
    const kept = readKept(text);
    if (!kept.ok) return giveUp(inWords(kept.issues));
    if (kept.value.log.length > 0) aside(kept.value);
    return { ok: true, value: undefined };
  };
  return {
    save(run, idle = false) {
      if (!storage) return problem('this browser does not store anything; save the run as a file');
      if (occupied) return problem('the storage still holds a run that this page cannot read; save this run as a file');
      const before = textAt(storage, RUN_KEY);
      const foreign = before !== undefined && before !== seen && writerOf(before) !== tab;
      if (idle && foreign) return { ok: true, value: undefined };
      const text = JSON.stringify({ version: KEPT_VERSION, tab, run });
      const again = readKept(text);
      if (!again.ok) return problem(`this run could not be read again and was not kept: ${inWords(again.issues)}; save it as a file`);
      const left = foreign ? leaveForeign(before) : undefined;
      if (left?.ok === false) return left;
      seen = text;
      return write(storage, RUN_KEY, text);
    },
    load() {
      const text = storage && textAt(storage, RUN_KEY);
      if (text === undefined) return { ok: true, value: undefined };
      seen = text;
      const kept = readKept(text);
      if (kept.ok) return kept;
      giveUp(inWords(kept.issues));
      return problem('the run kept in this browser could not be read and was put aside; it can be saved as a file');
    },
    giveUp,
    unread: () => unreadIn(storage).map(({ found }) => found),
    forgetUnread() {
      for (const { key } of unreadIn(storage)) remove(storage, key);
    },
    clear: () => remove(storage, RUN_KEY),
  };
}

/** Calls `taken` when another tab has overwritten the run of this one: the last writer wins, and the reader is told. Returns a function that stops this. */
export function watchOtherTabs(page: EventTarget, tab: string, taken: (message: string) => void): () => void {
  const heard = (event: Event) => {
    const { key, newValue } = event as StorageEvent;
    if (key === RUN_KEY && newValue !== null && writerOf(newValue) !== tab) {
      taken('autosave: another tab now keeps its own run. The run in this tab goes on, but the browser reopens only the run of the tab that acted last');
    }
  };
  page.addEventListener('storage', heard);
  return () => page.removeEventListener('storage', heard);
}

function moveUnread(storage: Storage | undefined, reason: string): Outcome<undefined> {
  const text = storage && textAt(storage, RUN_KEY);
  if (!storage || text === undefined) return { ok: true, value: undefined };
  for (let place = 1; place <= UNREAD_MAX; place++) {
    const key = `${UNREAD_KEY}.${place}`;
    if (textAt(storage, key) !== undefined) continue;
    // The first is removed to make room, since both may be more than the browser allows. It is restored if the second is refused.
    remove(storage, RUN_KEY);
    const moved = write(storage, key, JSON.stringify({ reason, text }));
    if (!moved.ok) write(storage, RUN_KEY, text);
    return moved;
  }
  return problem(`${UNREAD_MAX} runs that could not be read are kept already`);
}

function unreadIn(storage: Storage | undefined): { key: string; found: Unread }[] {
  return Array.from({ length: UNREAD_MAX }, (_, i) => `${UNREAD_KEY}.${i + 1}`).flatMap((key) => {
    const kept = storage && textAt(storage, key);
    if (kept === undefined) return [];
    const found = plain(kept);
    const [reason, text] = [own(found, 'reason'), own(found, 'text')];
    return [
      {
        key,
        found: typeof reason === 'string' && typeof text === 'string' ? { reason, text } : { reason: 'written by another version of the page', text: kept },
      },
    ];
  });
}

function onShelf(storage: Storage | undefined): (run: SavedRun) => void {
  return (run) => openShelf(storage).put(run);
}

function readKept(text: string): Reading<SavedRun> {
  const parsed = parseJson(text, 'kept run');
  if (!parsed.ok) return parsed;
  const version = own(parsed.json, 'version');
  if (version !== KEPT_VERSION) return { ok: false, issues: [{ path: 'version', expected: String(KEPT_VERSION), received: inShort(version) }] };
  return readSaved(own(parsed.json, 'run'));
}

function writerOf(text: string): unknown {
  return own(plain(text), 'tab');
}

/** A text of bounded depth as JSON; undefined for any other. */
function plain(text: string): unknown {
  const parsed = text.length <= TEXT_MAX ? parseJson(text, 'storage') : undefined;
  return parsed?.ok && isRecord(parsed.json) ? parsed.json : undefined;
}

function textAt(storage: Storage, key: string): string | undefined {
  try {
    return storage.getItem(key) ?? undefined;
  } catch {
    return undefined;
  }
}

function write(storage: Storage, key: string, text: string): Outcome<undefined> {
  try {
    storage.setItem(key, text);
    return { ok: true, value: undefined };
  } catch {
    return problem('the storage of this browser is full or blocked; save the run as a file');
  }
}

function remove(storage: Storage | undefined, key: string): void {
  try {
    storage?.removeItem(key);
  } catch {
    // Nothing can be removed from a blocked storage.
  }
}

function inShort(value: unknown): string {
  return typeof value === 'number' ? String(value) : typeof value;
}

function problem(what: string): Outcome<never> {
  return { ok: false, message: `autosave: ${what}` };
}
