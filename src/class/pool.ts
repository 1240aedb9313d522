import type { Thread } from '../store/threads/thread.ts';
import type { ClassReply, ClassRequest } from './class-worker.ts';

// A few workers that share a list of work. Each takes the next piece when it is done with one.

/** Tests replace it by a plain object. */
export type ClassThread = Thread<ClassRequest, ClassReply>;

/** More would slow down the page itself. */
const THREADS_MOST = 4;

/**
 * Does all the work; `done` is called for every piece when it is finished, in any order. Resolves when nothing is left or the signal
 * aborts. A worker that breaks gives a failure for its piece and is replaced.
 */
export function workThrough(
  work: readonly ClassRequest[],
  done: (piece: number, reply: ClassReply) => void,
  signal: AbortSignal,
  makeThread: () => ClassThread = classWorker,
): Promise<void> {
  let next = 0;
  const threads = new Set<ClassThread>();
  const one = (): Promise<void> =>
    new Promise((resolve) => {
      let thread = makeThread();
      threads.add(thread);
      let piece = -1;
      const take = (): void => {
        if (signal.aborted || next >= work.length) {
          thread.terminate();
          return resolve();
        }
        piece = next++;
        thread.postMessage(work[piece]);
      };
      const listen = (): void => {
        thread.onmessage = ({ data }) => {
          if (signal.aborted) return;
          done(piece, data);
          take();
        };
        thread.onerror = ({ message }) => {
          if (signal.aborted) return;
          thread.terminate();
          done(piece, { ok: false, message });
          thread = makeThread();
          threads.add(thread);
          listen();
          take();
        };
      };
      signal.addEventListener('abort', () => {
        for (const each of threads) each.terminate();
        resolve();
      });
      listen();
      take();
    });
  const wanted = Math.min(work.length, THREADS_MOST, Math.max(1, navigator.hardwareConcurrency || 1));
  return Promise.all(Array.from({ length: wanted }, one)).then(() => undefined);
}

function classWorker(): ClassThread {
  return new Worker(new URL('./class-worker.ts', import.meta.url), { type: 'module' });
}
