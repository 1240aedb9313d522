/** A storage as a browser has it, in memory. `room`: characters it holds. */
export function memory(start: Readonly<Record<string, string>> = {}, room = Number.POSITIVE_INFINITY): Storage {
  const kept = new Map(Object.entries(start));
  // Only these three are used.
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => {
      const others = [...kept].filter(([other]) => other !== key).reduce((sum, [, text]) => sum + text.length, 0);
      if (others + value.length > room) throw new DOMException('full', 'QuotaExceededError');
      kept.set(key, value);
    },
    removeItem: (key: string) => {
      kept.delete(key);
    },
  } as Storage;
}
