import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Movement, px, from which a press is a drag, and px of a drag from shut to fully open. */
const SLACK = 5;
const TRAVEL = 70;
/** Steps of a drag and of an arrow key, %. */
const STEP = 5;
const KEY_STEP = 10;

/** Turns the clamp with the pointer, to the right to open it, or with arrow keys; a press alone opens or shuts it. */
export class Squeezing implements ReactiveController {
  /** Where a drag has it, %; undefined while nobody drags. */
  percent: number | undefined;
  private from: { readonly percent: number; readonly x: number } | undefined;
  private moved = false;
  private readonly host: ReactiveControllerHost;
  private readonly turn: (open_percent: number | undefined) => void;

  /** `turn`: to so many per cent, or over when none are given. */
  constructor(host: ReactiveControllerHost, turn: (open_percent: number | undefined) => void) {
    this.host = host;
    this.turn = turn;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.drop();
  }

  /** A press with pointer or keys; the click that ends a drag is none. */
  readonly press = (): void => {
    const { moved } = this;
    this.moved = false;
    if (!moved) this.turn(undefined);
  };

  take(event: PointerEvent, open: number): void {
    if (event.button !== 0 || !(event.currentTarget instanceof HTMLElement)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    this.from = { percent: 100 * open, x: event.clientX };
    this.moved = false;
  }

  readonly move = (event: PointerEvent): void => {
    const { from } = this;
    if (!from) return;
    const by = event.clientX - from.x;
    if (!this.moved && Math.abs(by) < SLACK) return;
    this.moved = true;
    this.percent = within(Math.round((from.percent + (100 * by) / TRAVEL) / STEP) * STEP);
    this.host.requestUpdate();
  };

  readonly letGo = (): void => {
    const { percent } = this;
    this.drop();
    if (percent !== undefined) this.turn(percent);
  };

  readonly drop = (): void => {
    this.from = undefined;
    if (this.percent === undefined) return;
    this.percent = undefined;
    this.host.requestUpdate();
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
