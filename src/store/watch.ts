import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { ColumnStore } from './column-store.ts';

/** Redraws its host whenever the store changes. */
export class WatchStore implements ReactiveController {
  private readonly host: ReactiveControllerHost;
  private store: ColumnStore | undefined;
  private readonly redraw = (): void => this.host.requestUpdate();

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  /** Follows this store from now on; call it from the host's `willUpdate`. */
  follow(store: ColumnStore | undefined): void {
    if (store === this.store) return;
    this.store?.removeEventListener('change', this.redraw);
    this.store = store;
    store?.addEventListener('change', this.redraw);
  }

  hostConnected(): void {
    this.store?.addEventListener('change', this.redraw);
  }

  hostDisconnected(): void {
    this.store?.removeEventListener('change', this.redraw);
  }
}
