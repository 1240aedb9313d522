import { FRAME, type RunRecord } from './record.ts';

// A run is kept as frames, numbered from 0. An instant between two frames is a number too: 12.25 is a quarter of the way from
// frame 12 to frame 13.

/** What is known of each frame but the profiles. */
export type Frames = Readonly<Pick<RunRecord, 'rows' | 'stride' | 'count'>>;

export function framesOf({ rows, stride, count }: Frames): Frames {
  return { rows, stride, count };
}

/** Model time of a frame, min. */
export function timeOf({ rows, stride }: Frames, frame: number): number {
  return rows[frame * stride + FRAME.time];
}

/** Volume that has left the tip by a frame, mL. */
export function deliveredOf({ rows, stride }: Frames, frame: number): number {
  return rows[frame * stride + FRAME.delivered];
}

/** Height of the liquid above the bed, cm. */
export function levelOf({ rows, stride }: Frames, frame: number): number {
  return rows[frame * stride + FRAME.level];
}

/** Height of the resin, cm: it shrinks in acid and swells in water, while depths are counted along the bed as it was packed. */
export function bedHeightOf({ rows, stride }: Frames, frame: number): number {
  return rows[frame * stride + FRAME.bed];
}

// Cells keep their place along the bed as it was packed, and the record counts depths along it. The bed itself shrinks in acid and
// swells in water on its support, and a reader sees it beside a ruler that does not move: 0 where the top stood as packed.

/** What the ruler reads, cm, at a depth along the packed bed, for a bed that is `bed_cm` high now. */
export function readingAt(length_cm: number, bed_cm: number, depth_cm: number): number {
  return length_cm - ((length_cm - depth_cm) * bed_cm) / length_cm;
}

export type Ruled = Frames & { readonly length_cm: number };

/** `readingAt` in a frame. */
export function onRuler(frames: Ruled, frame: number, depth_cm: number): number {
  return readingAt(frames.length_cm, bedHeightOf(frames, frame), depth_cm);
}

/** mL/min. */
export function flowOf({ rows, stride }: Frames, frame: number): number {
  return rows[frame * stride + FRAME.flow];
}

/** Place among the receivers of the one under the tip. */
export function receiverOf({ rows, stride }: Frames, frame: number): number {
  return rows[frame * stride + FRAME.receiver];
}

/** Delivered volume of the last frame, mL; 0 for a run without frames. */
export function deliveredAtEnd(frames: Frames): number {
  return frames.count === 0 ? 0 : deliveredOf(frames, frames.count - 1);
}

/** The last frame at or before a delivered volume; frame 0 before the first. */
export function frameAt(frames: Frames, delivered_mL: number): number {
  return lastFrame(frames, FRAME.delivered, delivered_mL);
}

/** The last frame at or before a model time; frame 0 before the first. */
export function frameAtTime(frames: Frames, time_min: number): number {
  return lastFrame(frames, FRAME.time, time_min);
}

/** The instant at which a volume has been delivered, within the run. */
export function instantAt(frames: Frames, delivered_mL: number): number {
  return instant(frames, FRAME.delivered, delivered_mL);
}

/** The instant at a model time, within the run. */
export function instantAtTime(frames: Frames, time_min: number): number {
  return instant(frames, FRAME.time, time_min);
}

/** Model time at which a volume has been delivered, min. */
export function timeAt(frames: Frames, delivered_mL: number): number {
  return valueAt(frames, FRAME.time, instantAt(frames, delivered_mL));
}

/** Volume delivered by a model time, mL. */
export function deliveredBy(frames: Frames, time_min: number): number {
  return valueAt(frames, FRAME.delivered, instantAtTime(frames, time_min));
}

/** Frames at least so many mL apart, and the last of the run; of those between which nothing was delivered the last counts. */
export function framesApart(frames: Frames, apart_mL: number): number[] {
  const kept: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let frame = 0; frame < frames.count; frame++) {
    const delivered = deliveredOf(frames, frame);
    if (delivered === last) kept[kept.length - 1] = frame;
    else if (delivered >= last + apart_mL || frame === frames.count - 1) {
      kept.push(frame);
      last = delivered;
    }
  }
  return kept;
}

/** Minutes between two model times in which nothing was delivered. */
export function idleBetween(frames: Frames, from_min: number, to_min: number): number {
  let idle = 0;
  for (let frame = 1; frame < frames.count; frame++) {
    const [start, end] = [timeOf(frames, frame - 1), timeOf(frames, frame)];
    if (end <= from_min || start >= to_min) continue;
    const still = deliveredOf(frames, frame) - deliveredOf(frames, frame - 1) < 1e-9;
    if (still) idle += Math.min(end, to_min) - Math.max(start, from_min);
  }
  return idle;
}

/** A quantity that every frame has, by its column, at an instant. */
export function valueAt({ rows, stride, count }: Frames, column: number, at: number): number {
  const frame = Math.floor(at);
  const here = rows[frame * stride + column];
  return frame + 1 < count ? here + (at - frame) * (rows[(frame + 1) * stride + column] - here) : here;
}

/** The last frame at which a quantity that never falls is at most a value; frame 0 before the first. */
export function lastFrame({ rows, stride, count }: Frames, column: number, value: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (rows[middle * stride + column] <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

function instant(frames: Frames, column: number, value: number): number {
  const frame = lastFrame(frames, column, value);
  if (frame + 1 >= frames.count) return frame;
  const from = frames.rows[frame * frames.stride + column];
  const to = frames.rows[(frame + 1) * frames.stride + column];
  return frame + Math.min(1, Math.max(0, (value - from) / (to - from)));
}
