import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../store/session.ts';
import { undoOf } from '../ui/keys.ts';

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
    const turn = undoOf(event);
    if (!turn) return;
    const target = event.composedPath()[0];
    if (target instanceof HTMLInputElement && target.type === 'text') return;
    event.preventDefault();
    void store?.[turn]();
  };
}
