// The place of the run that the reader points at. Bench and explanations both write it, so that a depth chosen in one is the
// depth shown in the other.

export interface Place {
  /** Depth below the bed top, cm. */
  readonly depth_cm?: number;
  /** Delivered volume, mL. */
  readonly delivered_mL?: number;
}

/** Tells listeners (`change`) when the reader points elsewhere. */
export class Pointing extends EventTarget {
  depth_cm: number | undefined;
  delivered_mL: number | undefined;

  /** Points at a depth, a volume or both; what is not named stays. */
  point(place: Place): void {
    const { depth_cm = this.depth_cm, delivered_mL = this.delivered_mL } = place;
    if (depth_cm === this.depth_cm && delivered_mL === this.delivered_mL) return;
    this.depth_cm = depth_cm;
    this.delivered_mL = delivered_mL;
    this.dispatchEvent(new Event('change'));
  }
}

export const pointing = new Pointing();
