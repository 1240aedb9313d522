import type { ReactiveControllerHost } from 'lit';
import { Sideways } from './sideways.ts';

/** Px of a drag from shut to fully open. */
const TRAVEL = 70;
/** Steps of a drag and of an arrow key, %. */
const STEP = 5;
const KEY_STEP = 10;

/** Turns the clamp, taken at so many per cent: to the right to open it, or with arrow keys; a press alone opens or shuts it. */
export class Squeezing extends Sideways<number> {
  private readonly turn: (open_percent: number | undefined) => void;

  /** `turn`: to so many per cent, or over when none are given. */
  constructor(host: ReactiveControllerHost, turn: (open_percent: number | undefined) => void) {
    super(host);
    this.turn = turn;
  }

  /** Where a drag has it, %; undefined while nobody drags. */
  get percent(): number | undefined {
    const { dragged } = this;
    return dragged && within(Math.round((dragged.taken + (100 * dragged.by) / TRAVEL) / STEP) * STEP);
  }

  readonly press = (): void => {
    if (this.isPress()) this.turn(undefined);
  };

  readonly letGo = (): void => {
    const { percent } = this;
    this.drop();
    if (percent !== undefined) this.turn(percent);
  };

  key(event: KeyboardEvent, open: number): void {
    const side = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (side === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    this.turn(within(Math.round(100 * open) + side * KEY_STEP));
  }
}

function within(percent: number): number {
  return Math.min(100, Math.max(0, percent));
}
