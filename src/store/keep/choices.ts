// What the reader has chosen to see and to be asked, remembered in this browser from one visit to the next.

/** The choice remembered under a key, or `otherwise` if there is none or the browser stores nothing. */
export function recalled<Choice extends string>(storage: Storage | undefined, key: string, choices: readonly Choice[], otherwise: Choice): Choice {
  try {
    const kept = storage?.getItem(key);
    return choices.find((choice) => choice === kept) ?? otherwise;
  } catch {
    return otherwise;
  }
}

export function remember(storage: Storage | undefined, key: string, choice: string): void {
  try {
    storage?.setItem(key, choice);
  } catch {
    // The choice is then not remembered.
  }
}
