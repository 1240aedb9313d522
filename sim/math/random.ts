// Seeded random numbers in integer arithmetic, so that a seed means the same packing on every machine.

/** Largest seed: the generator takes 32 bits. */
export const SEED_MAX = 4_294_967_295;
/** Seed of a scenario that names none. */
export const SEED_USUAL = 1;

/** Next state of a 32-bit generator (mulberry32, T. Ettinger, public domain, recalled) and its value in [0, 1). */
export function uniform(state: number): { state: number; value: number } {
  const next = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(next ^ (next >>> 15), 1 | next);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return { state: next, value: ((t ^ (t >>> 14)) >>> 0) / 4294967296 };
}

/** A stream of standard normal values (sum of twelve uniforms less six: no transcendental functions, |z| <= 6). */
export function normalStream(seed: number): () => number {
  let state = seed | 0;
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) {
      const next = uniform(state);
      state = next.state;
      sum += next.value;
    }
    return sum;
  };
}
