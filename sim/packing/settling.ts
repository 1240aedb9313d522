// How fast beads sink: single beads after Stokes, beads in a slurry after Richardson and Zaki (Trans. Inst. Chem. Eng. 32 (1954) 35).
import { power } from '../math/elementary.ts';

/** cm/s². */
const GRAVITY = 980.665;
/** Wet bead over water, g/mL: beads of 1.08 to 1.09 g/mL (read for similar resins). */
const BEAD_DENSITY = 1.085;
const WATER_DENSITY = 0.998;
/** g/(cm s). */
const WATER_VISCOSITY = 0.01002;
/** Beads in a slurry that is half settled resin, half liquid, as a share of its volume: 0.62 / 2. */
const SLURRY_SOLIDS = 0.31;
const S_PER_MIN = 60;

/** Speed (cm/s) at which one bead of diameter `d` cm sinks in water: Stokes, with the drag of Schiller and Naumann 1935 (recalled) where it is fast. */
export function singleSpeed(d: number): number {
  const stokes = (d * d * GRAVITY * (BEAD_DENSITY - WATER_DENSITY)) / (18 * WATER_VISCOSITY);
  let speed = stokes;
  for (let n = 0; n < 40; n++) speed = (speed + stokes / (1 + 0.15 * power(reynolds(speed, d), 0.687))) / 2;
  return speed;
}

/** Speed of a bead in a slurry over its speed alone; beads fill a share `solids` of the volume: (1 - solids)^n. */
export function hindered(solids: number, n: number): number {
  return power(1 - solids, n);
}

/** n of Richardson and Zaki against the Reynolds number of one bead: 4.65 where Stokes holds (read), falling to 2.4 (recalled). */
export function richardsonZaki(re: number): number {
  if (re <= 0.2) return 4.65;
  if (re < 1) return 4.35 * power(re, -0.03);
  return re < 500 ? 4.45 * power(re, -0.1) : 2.39;
}

/** Minutes until a slurry of this height (cm) has settled. */
export function settlingTime(height_cm: number, d: number): number {
  const speed = singleSpeed(d);
  return height_cm / (speed * hindered(SLURRY_SOLIDS, richardsonZaki(reynolds(speed, d)))) / S_PER_MIN;
}

function reynolds(speed: number, d: number): number {
  return (WATER_DENSITY * speed * d) / WATER_VISCOSITY;
}
