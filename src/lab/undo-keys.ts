import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { LabDraft } from './draft.ts';
import { undoOf } from '../ui/keys.ts';

/** Ctrl Z and Ctrl Y (on a Mac with the command key) for the lab that is being edited. While the reader types, the field has its own undo. */
export class UndoKeys implements ReactiveController {
  private readonly draft: () => LabDraft | undefined;
  /** A field with text that was not accepted yet. */
  private typing: EventTarget | undefined;

  constructor(host: ReactiveControllerHost, draft: () => LabDraft | undefined) {
    this.draft = draft;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('keydown', this.hear);
    addEventListener('input', this.type);
    addEventListener('focusout', this.settle);
    addEventListener('bf-change', this.settle);
  }

  hostDisconnected(): void {
    removeEventListener('keydown', this.hear);
    removeEventListener('input', this.type);
    removeEventListener('focusout', this.settle);
    removeEventListener('bf-change', this.settle);
  }

  private readonly type = (event: Event): void => {
    this.typing = event.composedPath()[0];
  };

  private readonly settle = (): void => {
    this.typing = undefined;
  };

  private readonly hear = (event: KeyboardEvent): void => {
    const turn = undoOf(event);
    if (!turn) return;
    if (this.typing !== undefined && event.composedPath()[0] === this.typing) return;
    event.preventDefault();
    this.draft()?.[turn]();
  };
}
