import { tracked } from './tracked.ts';

// The place of the run that the reader points at. Bench and explanations both write it, so that a depth chosen in one is the
// depth shown in the other.

export interface Place {
  /** Depth below the bed top, cm. */
  readonly depth_cm?: number;
  /** Delivered volume, mL. */
  readonly delivered_mL?: number;
}

export class Pointing {
  @tracked depth_cm: number | undefined;
  @tracked delivered_mL: number | undefined;
  /** A place that the reader asked about; without a volume, at the moment shown. */
  @tracked asked: Place | undefined;

  /** Points at a depth, a volume or both; the other stays. */
  point({ depth_cm = this.depth_cm, delivered_mL = this.delivered_mL }: Place): void {
    this.depth_cm = depth_cm;
    this.delivered_mL = delivered_mL;
  }

  /** Points at nothing. */
  forget(): void {
    this.depth_cm = this.delivered_mL = undefined;
  }

  ask(place: Place): void {
    this.asked = place;
  }

  /** Asks no more. */
  leave(): void {
    this.asked = undefined;
  }
}

/** Follows what the reader points at in the glass (`bf-depth`) and the figure (`bf-point`), wherever below `root` they are. */
export function hearPointing(root: EventTarget, target: Pointing): void {
  const hear = (event: Event): void => {
    // Both kinds of event carry a place, or nothing when the pointer has left.
    const place = (event as CustomEvent<Place | undefined>).detail;
    if (place?.depth_cm !== undefined) target.point(place);
  };
  root.addEventListener('bf-depth', hear);
  root.addEventListener('bf-point', hear);
}
