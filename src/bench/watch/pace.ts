/** Real time in which a watched run is over, s; and the least that each caption stays, s. Choices. */
export const WATCHED_S = 90;
const LEAST_S = 5;

/**
 * Model time over real time from each of these moments (min) to the next: short stretches are watched more slowly than long ones,
 * and none is over before its caption is read. One number fewer than moments.
 */
export function pacesOf(times_min: readonly number[]): number[] {
  const stretches = times_min.slice(1).map((time, i) => Math.max(0, time - times_min[i]));
  const roots = stretches.map(Math.sqrt);
  const all = roots.reduce((sum, root) => sum + root, 0);
  const free_s = Math.max(0, WATCHED_S - LEAST_S * stretches.length);
  return stretches.map((minutes, i) => Math.max(1, (minutes * 60) / (LEAST_S + (free_s * roots[i]) / (all || 1))));
}
