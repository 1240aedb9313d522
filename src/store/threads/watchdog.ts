// A thread that hangs or ends does not report it; all that can be noticed is that no message comes while one is awaited.

const TICK_MS = 1000;
/** Ticks without a message, while an answer is awaited, after which a thread counts as lost. A computer that slept counts one. */
const SILENT_TICKS = 6;
/** Real time between the signs of life of a working thread, ms. */
const ALIVE_EVERY_MS = 500;

/** Calls `lost` once no message has come for six seconds. */
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

  /** A message has come. */
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

/** For a working thread: call it often; it calls `say` now and then. */
export function signOfLife(say: () => void): () => void {
  let last = performance.now();
  return () => {
    const now = performance.now();
    if (now - last < ALIVE_EVERY_MS) return;
    last = now;
    say();
  };
}
