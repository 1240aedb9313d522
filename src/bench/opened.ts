import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Something that is opened over the bench and that Back closes: an entry in the history as long as it is open. */
export class Opened implements ReactiveController {
  open = false;
  private readonly host: ReactiveControllerHost;
  private readonly mark: string;

  constructor(host: ReactiveControllerHost, mark: string) {
    this.host = host;
    this.mark = mark;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('popstate', this.follow);
  }

  hostDisconnected(): void {
    removeEventListener('popstate', this.follow);
    this.open = false;
  }

  set(open: boolean): void {
    if (open === this.open) return;
    if (!open && this.marked()) return history.back();
    if (open) history.pushState({ bandfall: this.mark }, '');
    this.open = open;
    this.host.requestUpdate();
  }

  private readonly follow = (): void => {
    if (this.open === this.marked()) return;
    this.open = this.marked();
    this.host.requestUpdate();
  };

  private marked(): boolean {
    return (history.state as { bandfall?: unknown } | null)?.bandfall === this.mark;
  }
}
