/** The function with its latest results kept by key, the oldest given up first. Results are handed out again: nobody may change them. */
export function remembered<A extends readonly unknown[], T>(most: number, keyOf: (...given: A) => string, make: (...given: A) => T): (...given: A) => T {
  const kept = new Map<string, T>();
  return (...given) => {
    const key = keyOf(...given);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = make(...given);
    if (kept.size >= most) for (const oldest of [...kept.keys()].slice(0, kept.size - most + 1)) kept.delete(oldest);
    kept.set(key, made);
    return made;
  };
}
