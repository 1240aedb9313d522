import type { Log } from '../../../sim/terms/types.ts';
import { derived, tracked } from '../tracked.ts';

const UNDO_MAX = 200;

/** A log and how far it was played, min of model time. */
export interface Place {
  readonly log: Log;
  readonly now: number;
}

/** Where an undo or a redo leads, and what can be undone and redone from there. */
interface Journey {
  readonly to: Place;
  readonly past: readonly Place[];
  readonly future: readonly Place[];
}

/** The states that undo and redo lead to. */
export class UndoHistory {
  @tracked private past: readonly Place[] = [];
  @tracked private future: readonly Place[] = [];

  @derived get canUndo(): boolean {
    return this.past.length > 0;
  }

  @derived get canRedo(): boolean {
    return this.future.length > 0;
  }

  /** A change was made; undo leads back to the place before it. */
  remember(before: Place): void {
    this.past = [...this.past, before].slice(-UNDO_MAX);
    this.future = [];
  }

  /** Places that undo leads to, as they are now. */
  get places(): readonly Place[] {
    return this.past;
  }

  forget(): void {
    this.past = this.future = [];
  }

  back(here: Place): Journey | undefined {
    const to = this.past.at(-1);
    return to && { to, past: this.past.slice(0, -1), future: [...this.future, here] };
  }

  forth(here: Place): Journey | undefined {
    const to = this.future.at(-1);
    return to && { to, past: [...this.past, here], future: this.future.slice(0, -1) };
  }

  /** The journey is over: the page shows where it led. */
  arrive({ past, future }: Pick<Journey, 'past' | 'future'>): void {
    this.past = past;
    this.future = future;
  }
}
