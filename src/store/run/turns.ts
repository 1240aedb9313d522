import { derived, tracked } from '../tracked.ts';

/**
 * Changes of the run, one after another, so that none starts from a log that is about to be replaced. Work begun for a run that
 * is no longer open is dropped, and its answers are not shown.
 */
export class Turns {
  /** Why the model failed; empty while it answers. */
  @tracked failure = '';
  /** Changes that are not done yet. */
  @tracked private waiting = 0;
  /** Number of the run opened last. */
  private opened = 0;
  private line: Promise<unknown> = Promise.resolve();
  private readonly stop: () => void;

  /** `stop` is called when the model has failed. */
  constructor(stop: () => void) {
    this.stop = stop;
  }

  @derived get busy(): boolean {
    return this.waiting > 0;
  }

  /** Another run is opened, or the page is closed: waiting changes are dropped. */
  startOver(): void {
    this.opened += 1;
    this.line = Promise.resolve();
  }

  /** An answer of the model for the run that was open when it was asked. Rejects if another was opened meanwhile. */
  async ask<Answer>(question: Promise<Answer>): Promise<Answer> {
    const { opened } = this;
    const answer = await question;
    if (opened !== this.opened) throw new Error('model: another run was opened meanwhile');
    return answer;
  }

  /** Does the work once the changes before it are done, but not if another run was opened meanwhile. */
  take<Answer>(work: () => Promise<Answer>): Promise<Answer | undefined> {
    const { opened } = this;
    this.waiting += 1;
    const turn = this.line.then(async () => {
      const answer = opened === this.opened ? await this.guard(work) : undefined;
      this.waiting -= 1;
      return answer;
    });
    this.line = turn;
    return turn;
  }

  /** Does work that asks the model; a failure is shown, unless it belongs to a run that is no longer open. */
  async guard<Answer>(work: () => Promise<Answer>): Promise<Answer | undefined> {
    const { opened } = this;
    try {
      const answer = await work();
      this.failure = '';
      return answer;
    } catch (error) {
      if (opened === this.opened) this.fail(error);
      return undefined;
    }
  }

  private fail(error: unknown): void {
    this.failure = error instanceof Error ? error.message : String(error);
    this.stop();
  }
}
