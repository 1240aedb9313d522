import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Redraws its host whenever what it follows (the store, the session) says `change`. */
export class Watch implements ReactiveController {
  private readonly host: ReactiveControllerHost;
  private followed: EventTarget | undefined;
  private readonly redraw = (): void => this.host.requestUpdate();

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  /** Follows this from now on; call it from the host's `willUpdate`. */
  follow(target: EventTarget | undefined): void {
    if (target === this.followed) return;
    this.followed?.removeEventListener('change', this.redraw);
    this.followed = target;
    target?.addEventListener('change', this.redraw);
  }

  hostConnected(): void {
    this.followed?.addEventListener('change', this.redraw);
  }

  hostDisconnected(): void {
    this.followed?.removeEventListener('change', this.redraw);
  }
}
