import { fingerprint } from './fingerprint.ts';
import { normalStream, uniform } from './random.ts';

// Chance of a bench: a seed and a name give one value, so no order of use can change another.

/** -1 to 1 with a peak at 0 (triangular); standard deviation 1 / sqrt(6). */
export function triangular(seed: number, name: string): number {
  const first = uniform((seed | 0) ^ fingerprint(name));
  const second = uniform(first.state);
  return first.value + second.value - 1;
}

/** 0 to 1, all alike. */
export function evenly(seed: number, name: string): number {
  return uniform((seed | 0) ^ fingerprint(name)).value;
}

/** Standard normal. */
export function normal(seed: number, name: string): number {
  return normalStream((seed | 0) ^ fingerprint(name))();
}
