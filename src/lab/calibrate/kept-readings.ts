// The table of readings as it was typed, so that a reload loses nothing. If the browser does not store it, only this copy is lost.

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
    // Storage is full or blocked: the table is still on the page.
  }
}
