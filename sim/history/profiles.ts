import { placeOf, type Solute, solutesOf } from './effluent.ts';
import type { Plan } from './plan.ts';

// What the bed held, against depth. A profile is a view of the record, one value for each plate, top first: HCl in mol/L between the beads,
// metals in mmol per mL of bed, beads and liquid together.

/** One solute against depth in a frame; empty for one that the run does not hold. */
export function profileOf(plan: Plan, solute: Solute, frame: number): Float32Array {
  return profileAtPlace(plan, placeOf(plan.ions, solute), frame);
}

/** Every solute against depth in a frame: HCl, then the ions. */
export function profilesOf(plan: Plan, frame: number): readonly Float32Array[] {
  return solutesOf(plan).map((_, place) => profileAtPlace(plan, place, frame));
}

/** Depth of the middle of a plate, counted from the top, cm. */
export function depthOf({ length_cm, plates }: Plan, plate: number): number {
  return ((plate + 0.5) / plates) * length_cm;
}

/** What the bed holds of a solute at an instant and depth, between frames and plates on a straight line. */
export function inBedAt(plan: Plan, solute: Solute, instant: number, depth_cm: number): number {
  const frame = Math.floor(instant);
  const here = atDepth(plan, profileOf(plan, solute, frame), depth_cm);
  if (frame + 1 >= plan.count) return here;
  return here + (instant - frame) * (atDepth(plan, profileOf(plan, solute, frame + 1), depth_cm) - here);
}

/** The most that any plate held of a solute at any time. */
export function highestInBed(plan: Plan, solute: Solute): number {
  let most = 0;
  for (let frame = 0; frame < plan.count; frame++) for (const held of profileOf(plan, solute, frame)) if (held > most) most = held;
  return most;
}

/** First frame in which two runs differ in what the bed holds. */
export function firstDifference(a: Plan, b: Plan): number {
  const size = a.plates * a.components;
  if (a.plates !== b.plates || a.components !== b.components) return 0;
  const frames = Math.min(a.count, b.count);
  for (let at = 0; at < frames * size; at++) if (a.profiles[at] !== b.profiles[at]) return Math.floor(at / size);
  return frames;
}

function atDepth({ plates, length_cm }: Plan, profile: Float32Array, depth_cm: number): number {
  const place = Math.min(plates - 1, Math.max(0, (depth_cm / length_cm) * plates - 0.5));
  const above = Math.min(plates - 2, Math.floor(place));
  return above < 0 ? profile[0] : profile[above] + (place - above) * (profile[above + 1] - profile[above]);
}

function profileAtPlace({ profiles, components, plates }: Plan, place: number, frame: number): Float32Array {
  const at = (frame * components + place) * plates;
  return profiles.subarray(at, at + plates);
}
