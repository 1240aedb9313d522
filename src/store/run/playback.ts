import { RUN_MAX_MIN } from '../../../sim/terms/limits.ts';
import type { Until } from '../../../sim/terms/types.ts';
import { tracked } from '../tracked.ts';

export const SPEEDS = [1, 5, 20, 60] as const;
/** Model minutes per real second at speed 1. */
const MIN_PER_S = 1 / 60;
/** Longest real time that one tick may count, s, so that a tab that slept does not jump ahead. */
const TICK_MAX_S = 1;

/** Whether the run is playing, how fast, and where it stops by itself. */
export class Playback {
  @tracked playing = false;
  @tracked speed: number = 20;
  /** Model time at which playing stops by itself, min. */
  @tracked stopAt = Number.POSITIVE_INFINITY;
  /** What playing stops at, if anything was chosen. */
  until: Until | undefined;
  /** Real time not yet played because the model was still answering, s. */
  private owed_s = 0;
  /** A tick waits for the model. */
  private ticking = false;

  playUntil(stopAt: number, until: Until | undefined): void {
    this.stopAt = stopAt;
    this.until = until;
    this.playing = true;
  }

  pause(): void {
    this.playing = false;
    this.until = undefined;
    this.stopAt = Number.POSITIVE_INFINITY;
  }

  /** Advances by a real time from `now` (min of model time); while the model is `busy`, time is saved up. */
  async tick(elapsed_s: number, now: number, busy: boolean, seek: (time_min: number) => Promise<void>): Promise<void> {
    this.owed_s = Math.min(this.owed_s + elapsed_s, TICK_MAX_S);
    if (busy || this.ticking) return;
    const next = now + this.owed_s * MIN_PER_S * this.speed;
    this.owed_s = 0;
    const end = Math.min(this.stopAt, RUN_MAX_MIN);
    const stop = next >= end;
    this.ticking = true;
    await seek(stop ? end : next);
    this.ticking = false;
    if (stop) this.pause();
  }
}
