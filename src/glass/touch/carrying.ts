import type { ReactiveControllerHost } from 'lit';
import type { Layout } from '../layout.ts';
import { Sideways, SLACK } from './sideways.ts';

/** Carries a receiver, taken by its slot: put down near the tip it is meant to stand under it. */
export class Carrying extends Sideways<number> {
  private readonly put: (label: string) => void;

  constructor(host: ReactiveControllerHost, put: (label: string) => void) {
    super(host);
    this.put = put;
  }

  press(label: string): void {
    if (this.isPress()) this.put(label);
  }

  letGo(event: PointerEvent, label: string, layout: Layout): void {
    const { dragged } = this;
    const box = event.currentTarget instanceof HTMLElement ? event.currentTarget.parentElement?.getBoundingClientRect() : undefined;
    this.drop();
    if (dragged && box && Math.abs(event.clientX - box.left - layout.centre) < layout.receiver.radius + SLACK) this.put(label);
  }
}
