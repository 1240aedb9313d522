import { isRecord, own, parseJson, TEXT_MAX } from '../../../sim/input/index.ts';
import { fingerprint } from '../../../sim/math/fingerprint.ts';
import { type Outcome, readSaved, type SavedRun } from './saved.ts';

// Runs that were kept by hand, or put aside when another was opened. They stay until the reader deletes them.

const SHELF_KEY = 'bandfall.beside';
/** Most runs that are kept; beyond it the oldest without a name is dropped. A choice. */
export const SHELF_MAX = 100;
export const NAME_MAX = 80;

export interface KeptRun {
  /** The same for runs in which the same was done on the same column. */
  readonly id: string;
  /** Name given by the reader; empty for a run that was only put aside. */
  readonly name: string;
  readonly run: SavedRun;
}

export interface Shelf {
  /** Oldest first. */
  readonly runs: () => readonly KeptRun[];
  /**
   * Puts a run last. It replaces the same run, and an earlier state of it that has no name. Not ok if the browser
   * stores no more: the run then stays for as long as the page is open.
   */
  put(run: SavedRun, name?: string): Outcome<undefined>;
  rename(id: string, name: string): void;
  remove(id: string): void;
}

/** Whether anything was done in a run, or to its scenario, that another column would not bring back. */
export function isWorthKeeping({ log, workup, differences }: SavedRun): boolean {
  const noted = workup !== undefined && (workup.log.length > 0 || workup.kept.length > 0 || workup.entries.length > 0 || workup.expected !== undefined);
  return log.length > 0 || noted || (isRecord(differences) && Object.keys(differences).some((key) => key !== 'seed'));
}

export function idOf({ base, differences, seed, log }: SavedRun): string {
  return (fingerprint(JSON.stringify([base, differences, seed, log], inOrder)) >>> 0).toString(16).padStart(8, '0');
}

/** A run that was read has its keys in another order than one that was just made. */
function inOrder(_key: string, value: unknown): unknown {
  return isRecord(value) ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))) : value;
}

export function openShelf(storage: Storage | undefined): Shelf {
  /** What the browser did not take. */
  let unstored: readonly KeptRun[] = [];
  const runs = (): readonly KeptRun[] => [...stored(storage), ...unstored];
  const write = (list: readonly KeptRun[]): boolean => {
    const ok = written(storage, list);
    unstored = ok ? [] : list.filter(({ id, name }) => !stored(storage).some((one) => one.id === id && one.name === name));
    return ok;
  };
  return {
    runs,
    put(run, name) {
      const { before, rest } = parted(runs(), run);
      const called = name ?? before?.name ?? '';
      if (write(within([...rest, { id: idOf(run), name: called.slice(0, NAME_MAX), run }]))) return { ok: true, value: undefined };
      return { ok: false, message: 'kept runs: this browser cannot store more; save the run as a file, or delete others' };
    },
    rename(id, name) {
      write(runs().map((one) => (one.id === id ? { ...one, name: name.slice(0, NAME_MAX) } : one)));
    },
    remove(id) {
      write(runs().filter((one) => one.id !== id));
    },
  };
}

/** The same run on the shelf, and all runs that stay; an earlier state of it stays only if it has a name. */
function parted(all: readonly KeptRun[], run: SavedRun): { readonly before: KeptRun | undefined; readonly rest: readonly KeptRun[] } {
  const id = idOf(run);
  const before = all.find((one) => one.id === id);
  return { before, rest: all.filter((one) => one.id !== id && (one.name !== '' || !isEarlier(one.run, run))) };
}

function isEarlier(one: SavedRun, run: SavedRun): boolean {
  if (one.log.length >= run.log.length) return false;
  return idOf(one) === idOf({ ...run, log: run.log.slice(0, one.log.length) });
}

function within(list: readonly KeptRun[]): readonly KeptRun[] {
  if (list.length <= SHELF_MAX) return list;
  const goes = list.find(({ name }) => name === '') ?? list[0];
  return list.filter((one) => one !== goes);
}

function stored(storage: Storage | undefined): KeptRun[] {
  const text = textAt(storage);
  const parsed = text === undefined || text.length > SHELF_MAX * TEXT_MAX ? undefined : parseJson(text, 'kept runs', SHELF_MAX * TEXT_MAX);
  if (!parsed?.ok || !Array.isArray(parsed.json)) return [];
  return parsed.json.flatMap((kept: unknown) => {
    const read = readSaved(kept);
    const name = own(kept, 'name');
    return read.ok ? [{ id: idOf(read.value), name: typeof name === 'string' ? name.slice(0, NAME_MAX) : '', run: read.value }] : [];
  });
}

function textAt(storage: Storage | undefined): string | undefined {
  try {
    return storage?.getItem(SHELF_KEY) ?? undefined;
  } catch {
    return undefined;
  }
}

function written(storage: Storage | undefined, list: readonly KeptRun[]): boolean {
  try {
    storage?.setItem(SHELF_KEY, JSON.stringify(list.map(({ name, run }) => ({ ...run, name }))));
    return storage !== undefined;
  } catch {
    return false;
  }
}
