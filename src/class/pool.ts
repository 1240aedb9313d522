import { type Alive, Errand } from '../store/threads/errand.ts';
import type { Thread } from '../store/threads/thread.ts';
import type { ClassReply, ClassRequest } from './class-worker.ts';

// A few workers that share a list of work. Each takes the next piece when it is done with one.

/** Tests replace it by a plain object. */
export type ClassThread = Thread<ClassRequest, ClassReply | Alive>;

/** A piece of work that is done: its place in the list, and what came of it. */
type Done = (piece: number, reply: ClassReply) => void;

/** More would slow down the page itself. */
const THREADS_MOST = 4;

/**
 * Does all the work; `done` hears of every piece as it is finished, in any order. Resolves when nothing is left or the signal
 * aborts. A worker that hangs, ends or fails is replaced and its piece begun once more; the second time the piece has failed.
 */
export async function workThrough(work: readonly ClassRequest[], done: Done, signal: AbortSignal, makeThread: () => ClassThread = classWorker): Promise<void> {
  const pieces = work.entries();
  const wanted = Math.min(work.length, THREADS_MOST, Math.max(1, navigator.hardwareConcurrency || 1));
  await Promise.all(Array.from({ length: wanted }, () => new Hand(pieces, done, makeThread).work(signal)));
}

/** One worker, and those that take its place. */
class Hand {
  private readonly pieces: Iterator<[number, ClassRequest]>;
  private readonly done: Done;
  private readonly errand: Errand<ClassRequest, ClassReply>;
  private piece: number | undefined;
  private finished: () => void = () => undefined;

  constructor(pieces: Iterator<[number, ClassRequest]>, done: Done, makeThread: () => ClassThread) {
    this.pieces = pieces;
    this.done = done;
    this.errand = new Errand(makeThread, {
      heard: (reply) => this.tell(reply),
      again: () => undefined,
      failed: (why) => this.tell({ ok: false, message: `the computation stopped twice (${why})` }),
    });
  }

  work(signal: AbortSignal): Promise<void> {
    return new Promise((resolve) => {
      this.finished = resolve;
      if (signal.aborted) return this.end();
      signal.addEventListener('abort', () => this.end());
      this.take();
    });
  }

  private take(): void {
    const next = this.pieces.next();
    if (next.done) return this.end();
    const [piece, request] = next.value;
    this.piece = piece;
    this.errand.begin(request);
  }

  private tell(reply: ClassReply): void {
    if (this.piece === undefined) return;
    this.errand.rest();
    this.done(this.piece, reply);
    this.take();
  }

  private end(): void {
    this.errand.end();
    this.piece = undefined;
    this.finished();
  }
}

function classWorker(): ClassThread {
  return new Worker(new URL('./class-worker.ts', import.meta.url), { type: 'module' });
}
