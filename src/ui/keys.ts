import type { ReactiveController, ReactiveControllerHost } from 'lit';

// Keys of the page. Each element registers its own keys; the list of keys is made from the same entries.

export interface KeyEntry {
  /** `KeyboardEvent.key`; one letter means that letter without Ctrl, Alt or Meta. */
  readonly key: string;
  /** How the key is named in the list, if not by `key`. */
  readonly shown?: string;
  readonly does: string;
  /** Left out for keys that a focused control handles itself and that are only listed. */
  readonly run?: (event: KeyboardEvent) => void;
}

export interface KeyGroup {
  readonly heading: string;
  readonly entries: readonly KeyEntry[];
}

const OFF_KEY = 'bandfall.keys-off';

const groups = new Set<KeyGroup>();
let singleKeys = true;

/** Adds keys to the page; the returned function takes them away again. */
export function addKeys(group: KeyGroup): () => void {
  groups.add(group);
  return () => groups.delete(group);
}

export function listedKeys(): readonly KeyGroup[] {
  return [...groups];
}

/** Whether single keys act anywhere on the page (WCAG 2.2, 2.1.4: they must be possible to turn off). */
export function singleKeysOn(): boolean {
  return singleKeys;
}

export function setSingleKeys(on: boolean, storage?: Storage): void {
  singleKeys = on;
  try {
    storage?.setItem(OFF_KEY, on ? 'no' : 'yes');
  } catch {
    // The choice is then not remembered.
  }
}

export function rememberSingleKeys(storage?: Storage): void {
  try {
    singleKeys = storage?.getItem(OFF_KEY) !== 'yes';
  } catch {
    singleKeys = true;
  }
}

/** Runs the entry that answers to the event. Keys typed into a field, or with a modifier, are left alone. */
export function handleKey(event: KeyboardEvent): void {
  if (!singleKeys || event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
  const target = event.composedPath()[0];
  if (takesText(target) || (event.key === ' ' && takesSpace(target))) return;
  const entry = [...groups]
    .reverse()
    .flatMap((group) => group.entries)
    .find(({ key, run }) => run && key === event.key);
  if (!entry?.run) return;
  event.preventDefault();
  entry.run(event);
}

/** Keys that live as long as the element is on the page. */
export class KeysController implements ReactiveController {
  private readonly group: KeyGroup;
  private remove: (() => void) | undefined;

  constructor(host: ReactiveControllerHost, group: KeyGroup) {
    this.group = group;
    host.addController(this);
  }

  hostConnected(): void {
    this.remove = addKeys(this.group);
  }

  hostDisconnected(): void {
    this.remove?.();
  }
}

function takesText(target: EventTarget | undefined): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.closest('dialog')) return true;
  return target.isContentEditable || target.matches('select, textarea, input:not([type="range"], [type="checkbox"], [type="radio"])');
}

/** Space presses these; it must not do something else as well. */
function takesSpace(target: EventTarget | undefined): boolean {
  return target instanceof HTMLElement && target.matches('button, summary, a[href], input, [role="button"]');
}

/** Undo for Ctrl Z, redo for Ctrl Y and Ctrl Shift Z; on a Mac with the command key. */
export function undoOf({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent): 'undo' | 'redo' | undefined {
  const letter = key.toLowerCase();
  if (!(ctrlKey || metaKey) || altKey || (letter !== 'z' && letter !== 'y')) return undefined;
  return letter === 'y' || shiftKey ? 'redo' : 'undo';
}
