import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Knows how wide its host is, in whole px, and redraws it when that changes. */
export class Fit implements ReactiveController {
  width = 0;
  private readonly host: ReactiveControllerHost & Element;
  private observer: ResizeObserver | undefined;

  constructor(host: ReactiveControllerHost & Element) {
    this.host = host;
    host.addController(this);
  }

  hostConnected(): void {
    this.observer = new ResizeObserver(([entry]) => {
      const width = Math.floor(entry?.contentRect.width ?? 0);
      if (width === this.width) return;
      this.width = width;
      this.host.requestUpdate();
    });
    this.observer.observe(this.host);
  }

  hostDisconnected(): void {
    this.observer?.disconnect();
  }
}
