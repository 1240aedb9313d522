import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Movement, px, from which a press is a drag. */
export const SLACK = 5;

/** Drags something with the pointer to the right or the left that can be pressed as well. */
export class Sideways<Taken> implements ReactiveController {
  /** What is dragged and how far to the right, px; undefined while nobody drags. */
  dragged: { readonly taken: Taken; readonly by: number } | undefined;
  private from: { readonly taken: Taken; readonly x: number } | undefined;
  private moved = false;
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.drop();
  }

  take(event: PointerEvent, taken: Taken): void {
    if (event.button !== 0 || !(event.currentTarget instanceof HTMLElement)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    this.from = { taken, x: event.clientX };
    this.moved = false;
  }

  readonly move = (event: PointerEvent): void => {
    const { from } = this;
    if (!from) return;
    const by = event.clientX - from.x;
    if (!this.moved && Math.abs(by) < SLACK) return;
    this.moved = true;
    this.dragged = { taken: from.taken, by };
    this.host.requestUpdate();
  };

  readonly drop = (): void => {
    this.from = undefined;
    if (!this.dragged) return;
    this.dragged = undefined;
    this.host.requestUpdate();
  };

  /** Whether a click, by pointer or keys, is a press; the click that ends a drag is none. */
  protected isPress(): boolean {
    const { moved } = this;
    this.moved = false;
    return !moved;
  }
}
