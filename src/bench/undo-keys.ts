import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { ColumnStore } from '../store/column-store.ts';

/** Escape back to the present, Ctrl Z and Ctrl Y (on a Mac with the command key) for as long as the bench is on the page; a text field keeps its own. */
export class UndoKeys implements ReactiveController {
  private readonly store: () => ColumnStore | undefined;

  constructor(host: ReactiveControllerHost, store: () => ColumnStore | undefined) {
    this.store = store;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('keydown', this.hear);
  }

  hostDisconnected(): void {
    removeEventListener('keydown', this.hear);
  }

  private readonly hear = (event: KeyboardEvent): void => {
    const store = this.store();
    if (event.key === 'Escape' && store?.present !== undefined) return void store.lookBack(undefined);
    const key = event.key.toLowerCase();
    if (!(event.ctrlKey || event.metaKey) || event.altKey || (key !== 'z' && key !== 'y')) return;
    const target = event.composedPath()[0];
    if (target instanceof HTMLInputElement && target.type === 'text') return;
    event.preventDefault();
    if (key === 'y' || event.shiftKey) void this.store()?.redo();
    else void this.store()?.undo();
  };
}
