import { fingerprint } from '../../../sim/math/fingerprint.ts';

const LEAST = 1000;
const MOST = 9999;

/**
 * "column 4821": what a column is called on the page. Seeds of up to four digits are their own name; a longer one gives four digits
 * worked out from it, so that the same seed always has the same name. Two seeds may share a name: the seed alone is exact.
 */
export function columnName(seed: number): string {
  const digits = seed <= MOST ? seed : LEAST + ((fingerprint(String(seed)) >>> 0) % (MOST + 1 - LEAST));
  return `column\u00a0${digits}`;
}
