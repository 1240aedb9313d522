import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../store/session.ts';

/** Escape from the explanation, then back to the present; Ctrl Z and Ctrl Y (on a Mac with the command key) for as long as the bench is on the page; a text field keeps its own. */
export class UndoKeys implements ReactiveController {
  private readonly session: () => Session | undefined;

  constructor(host: ReactiveControllerHost, session: () => Session | undefined) {
    this.session = session;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('keydown', this.hear);
  }

  hostDisconnected(): void {
    removeEventListener('keydown', this.hear);
  }

  private readonly hear = (event: KeyboardEvent): void => {
    const { store, pointing } = this.session() ?? {};
    if (event.key === 'Escape' && pointing?.asked) return pointing.leave();
    if (event.key === 'Escape' && store?.present !== undefined) return void store.lookBack(undefined);
    const key = event.key.toLowerCase();
    if (!(event.ctrlKey || event.metaKey) || event.altKey || (key !== 'z' && key !== 'y')) return;
    const target = event.composedPath()[0];
    if (target instanceof HTMLInputElement && target.type === 'text') return;
    event.preventDefault();
    if (key === 'y' || event.shiftKey) void store?.redo();
    else void store?.undo();
  };
}
