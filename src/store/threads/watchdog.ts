// A thread that hangs or ends tells nobody: what can be noticed is that no word comes while one is awaited.

const TICK_MS = 1000;
/** Ticks without a word, while an answer is awaited, after which a thread counts as lost. A computer that slept counts one. */
const SILENT_TICKS = 6;
/** Real time between the signs of life of a thread at work, ms. */
const ALIVE_EVERY_MS = 500;

/** Calls `lost` once no word has come for six seconds. */
export class Watchdog {
  private readonly lost: () => void;
  private timer: ReturnType<typeof setInterval> | undefined;
  private silent = 0;

  constructor(lost: () => void) {
    this.lost = lost;
  }

  /** An answer is awaited from now on. */
  await(): void {
    if (this.timer !== undefined) return;
    this.silent = 0;
    this.timer = setInterval(() => this.tick(), TICK_MS);
  }

  /** A word has come. */
  heard(): void {
    this.silent = 0;
  }

  /** Nothing is awaited any more. */
  rest(): void {
    clearInterval(this.timer);
    this.timer = undefined;
  }

  private tick(): void {
    this.silent += 1;
    if (this.silent < SILENT_TICKS) return;
    this.rest();
    this.lost();
  }
}

/** For a thread at work: call it often, and `say` is called now and then. */
export function signOfLife(say: () => void): () => void {
  let last = performance.now();
  return () => {
    const now = performance.now();
    if (now - last < ALIVE_EVERY_MS) return;
    last = now;
    say();
  };
}
