// Work shared between threads. Each takes the next pieces when it is done with some.
import { parentPort, Worker, workerData } from 'node:worker_threads';

/** Pieces handed out at a time: few enough that all threads end together. */
const PIECES = 8;

interface Batch<Piece> {
  readonly from: number;
  readonly pieces: readonly Piece[];
}

/** Answers in the order of the pieces. `shared` goes to every thread once; an error in a thread is the error of the whole. */
export async function inThreads<Piece, Answer>(module: URL, shared: unknown, pieces: readonly Piece[], threads: number): Promise<Answer[]> {
  const answers: Answer[] = [];
  let next = 0;
  const batch = (): Batch<Piece> | undefined => {
    const from = next;
    next += PIECES;
    return from < pieces.length ? { from, pieces: pieces.slice(from, next) } : undefined;
  };
  const one = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const thread = new Worker(started(module), { eval: true, execArgv: [], workerData: shared });
      const hand = (): void => {
        const given = batch();
        if (given) thread.postMessage(given);
        else void thread.terminate().then(() => resolve());
      };
      thread.on('error', reject);
      thread.on('message', ({ from, found }: { readonly from: number; readonly found: readonly Answer[] }) => {
        for (const [i, answer] of found.entries()) answers[from + i] = answer;
        hand();
      });
      hand();
    });
  await Promise.all(Array.from({ length: Math.max(1, Math.min(threads, Math.ceil(pieces.length / PIECES))) }, one));
  return answers;
}

/** A thread does not take over the loader of TypeScript from the process that starts it, so it begins by asking for its own. */
function started(module: URL): string {
  return `import('tsx/esm/api').then(({ register }) => { register(); return import(${JSON.stringify(module.href)}); })`;
}

/** What a thread does with every piece it is handed. */
export function answering<Shared, Piece, Answer>(work: (shared: Shared, piece: Piece) => Answer): void {
  parentPort?.on('message', ({ from, pieces }: Batch<Piece>) => {
    parentPort?.postMessage({ from, found: pieces.map((piece) => work(workerData as Shared, piece)) });
  });
}
