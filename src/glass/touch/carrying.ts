import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Layout } from '../layout.ts';

/** Movement, px, from which a press is a drag. */
const SLACK = 5;

/** Carries a receiver with the pointer: put down near the tip it is meant to stand under it. */
export class Carrying implements ReactiveController {
  /** The receiver that is carried and how far to the right, px. */
  dragged: { readonly slot: number; readonly by: number } | undefined;
  private from: { readonly slot: number; readonly x: number } | undefined;
  private moved = false;
  private readonly host: ReactiveControllerHost;
  private readonly put: (label: string) => void;

  constructor(host: ReactiveControllerHost, put: (label: string) => void) {
    this.host = host;
    this.put = put;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.drop();
  }

  /** A press with pointer or keys; the click that ends a drag is none. */
  press(label: string): void {
    const { moved } = this;
    this.moved = false;
    if (!moved) this.put(label);
  }

  take(event: PointerEvent, slot: number): void {
    if (event.button !== 0 || !(event.currentTarget instanceof HTMLElement)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    this.from = { slot, x: event.clientX };
    this.moved = false;
  }

  readonly move = (event: PointerEvent): void => {
    const { from } = this;
    if (!from) return;
    const by = event.clientX - from.x;
    if (!this.moved && Math.abs(by) < SLACK) return;
    this.moved = true;
    this.dragged = { slot: from.slot, by };
    this.host.requestUpdate();
  };

  letGo(event: PointerEvent, label: string, layout: Layout): void {
    const { moved } = this;
    const box = event.currentTarget instanceof HTMLElement ? event.currentTarget.parentElement?.getBoundingClientRect() : undefined;
    this.drop();
    if (moved && box && Math.abs(event.clientX - box.left - layout.centre) < layout.receiver.radius + SLACK) this.put(label);
  }

  readonly drop = (): void => {
    this.from = undefined;
    if (!this.dragged) return;
    this.dragged = undefined;
    this.host.requestUpdate();
  };
}
