// Pixels per CSS pixel while the glass moves: fewer when frames come slowly.

/** Shares of the full resolution. */
const STEPS = [1, 0.75, 0.5] as const;
/** ms between frames above which a step down is taken, and below which one back up: 40 and 100 frames a second. */
const SLOW_MS = 25;
const QUICK_MS = 10;
/** Frames over which the mean runs, and between two changes of step. */
const FRAMES = 12;
/** A longer gap is a pause, not a slow frame, ms. */
const PAUSE_MS = 250;

export class Resolution {
  private step = 0;
  private mean_ms = 16;
  private since = 0;

  /** Notes the time since the frame before; whether the step changed. */
  note(ms: number): boolean {
    if (ms > PAUSE_MS) return false;
    this.mean_ms += (ms - this.mean_ms) / FRAMES;
    this.since++;
    const wanted = this.mean_ms > SLOW_MS ? this.step + 1 : this.mean_ms < QUICK_MS ? this.step - 1 : this.step;
    const step = Math.min(STEPS.length - 1, Math.max(0, wanted));
    if (this.since < FRAMES || step === this.step) return false;
    this.step = step;
    this.since = 0;
    this.mean_ms = 16;
    return true;
  }

  get share(): number {
    return STEPS[this.step];
  }
}
