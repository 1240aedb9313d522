// The table of readings as it was typed, so that a reload loses nothing. A storage that refuses costs only the memory.

const KEY = 'bandfall.lab.readings';

export function keptReadings(storage: Storage | undefined): string {
  try {
    return storage?.getItem(KEY) ?? '';
  } catch {
    return '';
  }
}

export function keepReadings(storage: Storage | undefined, text: string): void {
  try {
    if (text === '') storage?.removeItem(KEY);
    else storage?.setItem(KEY, text);
  } catch {
    // Full or closed: the table stands on the page.
  }
}
