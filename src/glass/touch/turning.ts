import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { depthUnder, type Layout } from '../layout.ts';
import { nearestTurn, SIDES, turned } from '../sides.ts';

/** Degrees per px of a drag and per key press. */
const DRAG_SIDE = 1.2;
const KEY_SIDE = 15;
/** cm by which a key moves the marked depth. */
const KEY_CM = 0.1;
/** Movement, px, from which a press is a drag. */
const SLACK = 4;

export interface Turned {
  /** The layout at hand, if the column is drawn. */
  readonly layout: () => Layout | undefined;
  /** cm. */
  readonly length: () => number;
  /** A depth is pointed at or pressed; undefined when it is left. */
  readonly point: (depth_cm: number | undefined, pressed: boolean) => void;
}

/** Turns the column and points at depths of its bed, with pointer and keys. */
export class Turning implements ReactiveController {
  /** Degrees; counted on, so that a turn goes the way it was asked. */
  side = 0;
  /** cm; the depth that is pointed at. */
  pointed: number | undefined;
  private dragged: { readonly x: number; readonly from: number } | undefined;
  private moved = false;
  private readonly host: ReactiveControllerHost & HTMLElement;
  private readonly owner: Turned;

  constructor(host: ReactiveControllerHost & HTMLElement, owner: Turned) {
    this.host = host;
    this.owner = owner;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.dragged = undefined;
  }

  get dragging(): boolean {
    return this.dragged !== undefined;
  }

  /** Looks from a side from now on. */
  lookFrom(deg: number): void {
    this.side = deg;
  }

  /** A quarter of a turn on. */
  readonly quarter = (): void => {
    const next = (SIDES.findIndex(({ deg }) => deg === 90 * Math.round(turned(this.side) / 90)) + 1) % SIDES.length;
    this.turnTo(SIDES[next].deg);
  };

  readonly take = (event: PointerEvent): void => {
    if (!(event.currentTarget instanceof HTMLElement)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    this.dragged = { x: event.clientX, from: this.side };
    this.moved = false;
    this.pointAt(this.depthOf(event), false);
  };

  readonly move = (event: PointerEvent): void => {
    const { dragged } = this;
    if (!dragged) return this.pointAt(this.depthOf(event), false);
    const by = event.clientX - dragged.x;
    this.moved ||= Math.abs(by) > SLACK;
    if (!this.moved) return;
    this.side = dragged.from + DRAG_SIDE * by;
    this.host.requestUpdate();
  };

  readonly letGo = (event: PointerEvent): void => {
    const pressed = this.dragged && !this.moved ? this.depthOf(event) : undefined;
    this.dragged = undefined;
    this.host.requestUpdate();
    if (pressed !== undefined) this.pointAt(pressed, true);
  };

  readonly leave = (): void => {
    if (this.pointed !== undefined) this.pointAt(undefined, false);
  };

  readonly key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const sides = { ArrowLeft: 1, ArrowRight: -1 }[event.key];
    const depths = { ArrowDown: 1, ArrowUp: -1, PageDown: 10, PageUp: -10 }[event.key];
    if (sides) this.turnTo(this.side + sides * KEY_SIDE);
    else if (depths) this.pointAt((this.pointed ?? 0) + depths * KEY_CM, false);
    else if (event.key === 'Enter' && this.pointed !== undefined) this.pointAt(this.pointed, true);
    else if (event.key === 'Home') this.turnTo(0);
    else if (event.key === 'Escape') this.leave();
    else return;
    event.preventDefault();
  };

  private turnTo(side: number): void {
    this.side = nearestTurn(this.side, side);
    this.host.requestUpdate();
  }

  private depthOf(event: PointerEvent): number | undefined {
    const layout = this.owner.layout();
    if (!layout || !(event.currentTarget instanceof HTMLElement)) return undefined;
    const box = event.currentTarget.getBoundingClientRect();
    // The drawing may be shown enlarged: the pointer is in px of the window, the layout in its own.
    const enlarged = box.height / layout.height;
    return depthUnder(layout, (event.clientX - box.left) / enlarged, (event.clientY - box.top) / enlarged);
  }

  private pointAt(depth: number | undefined, pressed: boolean): void {
    if (depth === undefined && this.pointed === undefined) return;
    this.pointed = depth === undefined ? undefined : Math.min(this.owner.length(), Math.max(0, depth));
    this.host.requestUpdate();
    this.owner.point(this.pointed, pressed);
  }
}
