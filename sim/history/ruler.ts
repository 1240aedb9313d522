// What the ruler beside the bed reads of bands, and the way back from a reading; apart from `frames.ts`, since the page needs these later.
import type { Band } from '../column/index.ts';
import type { IonId } from '../terms/types.ts';
import { bandAt, type Track } from './bands.ts';
import { bedHeightOf, instantAt, onRuler, type Ruled } from './frames.ts';
import type { Plan } from './plan.ts';

/** The depth along the packed bed, cm, that stands at a reading of the ruler; of a reading above the bed that of its top. */
export function depthAtReading(length_cm: number, bed_cm: number, read_cm: number): number {
  return bed_cm > 0 ? Math.max(0, length_cm - ((length_cm - read_cm) * length_cm) / bed_cm) : length_cm;
}

/** cm between a depth along the packed bed and the top of the bed as it is in a frame. */
export function belowTop(frames: Ruled, frame: number, depth_cm: number): number {
  return onRuler(frames, frame, depth_cm) - onRuler(frames, frame, 0);
}

/** An edge or the middle of a band at a delivered volume, cm below the top of the bed as it stands then, as a lab reads it; NaN without a band. */
export function belowTopAt(plan: Plan, ion: IonId, at_mL: number, edge: 'leading_cm' | 'trailing_cm' | 'centroid_cm'): number {
  return betweenFrames(plan, at_mL, (frame) => belowTop(plan, frame, bandAt(plan, ion, frame)?.[edge] ?? Number.NaN));
}

/** A value of the frames at a delivered volume, interpolated. */
export function betweenFrames(plan: Plan, at_mL: number, of: (frame: number) => number): number {
  const at = instantAt(plan, at_mL);
  const [low, high] = [Math.floor(at), Math.min(plan.count - 1, Math.ceil(at))];
  return low === high ? of(low) : of(low) + (at - low) * (of(high) - of(low));
}

/** The band of an ion in a frame as the ruler reads it; undefined while the bed holds no more than a trace of it. */
export function bandOnRuler(plan: Plan, ion: IonId, frame: number): Band | undefined {
  return bandAt(plan, ion, frame, bedHeightOf(plan, frame));
}

/** The bands of an ion through a run as the ruler reads them. */
export function trackOnRuler(plan: Plan, track: Track): Track {
  const read = (depths: Float32Array): Float32Array => depths.map((depth_cm, frame) => onRuler(plan, frame, depth_cm));
  return { ...track, leading_cm: read(track.leading_cm), trailing_cm: read(track.trailing_cm), middle_cm: read(track.middle_cm) };
}
