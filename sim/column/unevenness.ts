// How easily each lane lets liquid through: means over its cross-section of one seeded field of loose and tight places. The field
// belongs to the bed and not to the lanes, so drawing the same bed with more lanes shows the same loose and tight places, only finer.
import { cos, exp, sin } from '../math/elementary.ts';
import { normalStream, uniform } from '../math/random.ts';
import type { Parameters } from '../terms/types.ts';

/** Waves that make up the field (random Fourier features of a Gaussian covariance; Rahimi and Recht 2007, recalled). */
const WAVES = 32;
/** Places at which the field is taken: rings of equal area in core and wall, and directions. */
const RINGS = 3;
const DIRECTIONS = 72;

interface Wave {
  readonly x: number;
  readonly y: number;
  readonly phase: number;
}

/** Permeability of every lane over that of the bed as a whole: ln-normal from place to place; wall sectors times the wall factor. */
export function permeabilities(values: Parameters, seed: number, area: Float64Array): Float64Array {
  if (area.length === 1) return Float64Array.of(1);
  const sums = new Float64Array(area.length);
  const places = new Float64Array(area.length);
  const waves = wavesOf(seed, values['bed.correlation_cm']);
  const outer = values['column.bore_cm'] / 2;
  const core = values['bed.core_share'];
  for (let ring = 0; ring < 2 * RINGS; ring++) {
    const wall = ring >= RINGS;
    const share = wall ? core + ((1 - core) * (ring - RINGS + 0.5)) / RINGS : (core * (ring + 0.5)) / RINGS;
    const weight = (wall ? 1 - core : core) / RINGS;
    for (let n = 0; n < DIRECTIONS; n++) {
      const lane = wall ? 1 + (Math.round((n * (area.length - 1)) / DIRECTIONS) % (area.length - 1)) : 0;
      const easy = exp(values['bed.spread'] * fieldAt(waves, outer * Math.sqrt(share), (2 * Math.PI * n) / DIRECTIONS));
      sums[lane] += weight * easy;
      places[lane] += weight;
    }
  }
  const means = sums.map((sum, i) => sum / places[i]);
  const section = area.reduce((sum, part) => sum + part, 0);
  // The permeability that the scenario states is that of the whole section.
  const whole = means.reduce((sum, mean, i) => sum + mean * (area[i] / section), 0);
  return means.map((mean, i) => (mean / whole) * (i === 0 ? 1 : values['bed.wall_factor']));
}

function wavesOf(seed: number, correlation_cm: number): Wave[] {
  const normal = normalStream(seed);
  return Array.from({ length: WAVES }, (_, n) => ({
    x: normal() / correlation_cm,
    y: normal() / correlation_cm,
    phase: 2 * Math.PI * uniform(seed + 7907 * (n + 1)).value,
  }));
}

/** Standard normal at every place, alike over the correlation length: exp(-r²/(2 l²)). */
function fieldAt(waves: readonly Wave[], radius: number, angle: number): number {
  const [x, y] = [radius * cos(angle), radius * sin(angle)];
  return waves.reduce((sum, wave) => sum + cos(wave.x * x + wave.y * y + wave.phase), 0) * Math.sqrt(2 / WAVES);
}
