import type { Thread } from './thread.ts';
import { Watchdog } from './watchdog.ts';

/** What a thread says while it is at work. */
export interface Alive {
  readonly alive: true;
}

/** What comes of an errand. */
export interface Hearing<Told> {
  /** Anything but signs of life; when it is the last, end the errand or let it rest. */
  readonly heard: (told: Told) => void;
  /** The thread was lost (`why`) and the errand is begun once more. */
  readonly again: (why: string) => void;
  /** It was lost twice. */
  readonly failed: (why: string) => void;
}

/** One piece of work at a time in a thread of its own. A thread that hangs, ends or fails is replaced, and the work is begun once more; the second time it is given up. */
export class Errand<Asked, Told> {
  private readonly make: () => Thread<Asked, Told | Alive>;
  private readonly hearing: Hearing<Told>;
  private readonly watchdog = new Watchdog(() => this.lost('gave no sign of life'));
  private thread: Thread<Asked, Told | Alive> | undefined;
  private asked: { readonly what: Asked; readonly again: boolean } | undefined;

  constructor(make: () => Thread<Asked, Told | Alive>, hearing: Hearing<Told>) {
    this.make = make;
    this.hearing = hearing;
  }

  get going(): boolean {
    return this.asked !== undefined;
  }

  /** Begins it; one that is still going is given up. */
  begin(what: Asked): void {
    this.start(what, false);
  }

  end(): void {
    this.rest();
    this.thread?.terminate();
    this.thread = undefined;
  }

  /** The work is done; the thread is kept for the next. */
  rest(): void {
    this.watchdog.rest();
    this.asked = undefined;
  }

  private start(what: Asked, again: boolean): void {
    if (this.asked) this.end();
    this.asked = { what, again };
    this.thread ??= this.begun();
    this.thread.postMessage(what);
    this.watchdog.await();
  }

  private begun(): Thread<Asked, Told | Alive> {
    const thread = this.make();
    thread.onmessage = ({ data }) => {
      if (this.thread !== thread) return;
      this.watchdog.heard();
      if (!isAlive(data)) this.hearing.heard(data);
    };
    thread.onerror = (event) => {
      if (this.thread === thread) this.lost(event.message || 'ended');
    };
    return thread;
  }

  private lost(why: string): void {
    const { asked } = this;
    this.end();
    if (!asked || asked.again) return this.hearing.failed(why);
    this.start(asked.what, true);
    this.hearing.again(why);
  }
}

export function isAlive(told: unknown): told is Alive {
  return typeof told === 'object' && told !== null && 'alive' in told;
}
