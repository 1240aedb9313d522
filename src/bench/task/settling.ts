/** A touch so soon, ms, after the press under it has become another thing was meant for the one before: time to see and read new words. A choice. */
const SETTLES_MS = 700;

/** Tells the second tap of a finger that was meant for what has just gone from a press that is meant. */
export class Settling {
  /** What each press has been for, and since when. */
  private readonly known = new WeakMap<object, { readonly means: string; readonly since: number }>();
  private down = { touch: false, at: 0 };
  /** The press before was a finger's. */
  private touched = false;

  /** A finger, a pen or a mouse comes down. */
  readonly take = ({ pointerType, timeStamp }: PointerEvent) => {
    this.down = { touch: pointerType === 'touch', at: timeStamp };
  };

  /** After each drawing: each press, and in words what it is for. */
  drawn(presses: Iterable<readonly [press: object, means: string]>, now = performance.now()) {
    for (const [press, means] of presses) if (this.known.get(press)?.means !== means) this.known.set(press, { means, since: now });
  }

  /** Whether a press was not meant. `busy`: the one before is still being answered. Keys and screen readers count no clicks. */
  hasty({ detail, currentTarget }: Pick<MouseEvent, 'detail' | 'currentTarget'>, busy: boolean): boolean {
    const again = this.touched;
    this.touched = detail > 0 && this.down.touch;
    const since = this.known.get(currentTarget ?? this)?.since ?? 0;
    return detail > 1 || (again && this.touched && (busy || this.down.at < since + SETTLES_MS));
  }
}
