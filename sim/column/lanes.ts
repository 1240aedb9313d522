// Cross-section of the bed: one core lane and a ring of wall sectors, how easily each lets liquid through, and which touch.
import { sectionOf } from '../terms/geometry.ts';
import { permeabilities } from './unevenness.ts';
import type { Parameters } from '../terms/types.ts';

/** Two lanes in contact. `shape` is contact width over centre distance (both cm). */
export interface LaneEdge {
  readonly a: number;
  readonly b: number;
  readonly shape: number;
}

/** Where the lanes are: lane 0 is the core. */
export interface Sectors {
  /** cm² of tube cross-section. */
  readonly area: Float64Array;
  /** Degrees round the bed of the middle of each sector, 0 at the front; the core has 0. */
  readonly angleDeg: Float64Array;
}

export interface Lanes extends Sectors {
  readonly count: number;
  /** Permeability over that of the ideal packing. */
  readonly permeability: Float64Array;
  readonly edges: readonly LaneEdge[];
}

/** Lanes of a scenario. To draw how they are packed takes far longer than to say where they are. */
export function lanesOf(values: Parameters, seed: number): Lanes {
  const count = values['bed.lanes'];
  const sectors = sectorsOf(values);
  return { count, ...sectors, permeability: permeabilities(values, seed, sectors.area), edges: edgesOf(values, count) };
}

export function sectorsOf(values: Parameters): Sectors {
  const count = values['bed.lanes'];
  const section = sectionOf(values);
  const core = count === 1 ? 1 : values['bed.core_share'];
  const area = new Float64Array(count).fill((section * (1 - core)) / Math.max(1, count - 1));
  area[0] = section * core;
  const angleDeg = new Float64Array(count);
  for (let i = 1; i < count; i++) angleDeg[i] = ((i - 1) * 360) / (count - 1);
  return { area, angleDeg };
}

function edgesOf(values: Parameters, count: number): LaneEdge[] {
  const sectors = count - 1;
  if (sectors < 1) return [];
  const outer = values['column.bore_cm'] / 2;
  const inner = outer * Math.sqrt(values['bed.core_share']);
  const middle = (inner + outer) / 2;
  const edges: LaneEdge[] = [];
  // Centre of the core is taken at two thirds of its radius: the mean distance of its liquid from the axis.
  for (let i = 1; i <= sectors; i++) edges.push({ a: 0, b: i, shape: (2 * Math.PI * inner) / sectors / (middle - (2 / 3) * inner) });
  if (sectors < 2) return edges;
  const apart = (2 * Math.PI * middle) / sectors;
  const around = sectors === 2 ? 1 : sectors;
  for (let i = 0; i < around; i++) edges.push({ a: 1 + i, b: 1 + ((i + 1) % sectors), shape: ((sectors === 2 ? 2 : 1) * (outer - inner)) / apart });
  return edges;
}
