import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { ClassReply, ClassRequest } from '../../../src/class/class-worker.ts';
import { type ClassThread, workThrough } from '../../../src/class/pool.ts';
import { small } from '../store/rig.ts';

// Workers of a class that hang, end or fail: a stand-in does what a test tells it.

/** A worker that answers when it is told to. */
class Stand implements ClassThread {
  onmessage: ClassThread['onmessage'] = null;
  onerror: ClassThread['onerror'] = null;
  readonly asked: number[] = [];
  ended = false;

  postMessage(request: ClassRequest): void {
    if (request.do === 'group') this.asked.push(request.task.n);
  }

  terminate(): void {
    this.ended = true;
  }

  say(data: ClassReply | { alive: true }): void {
    this.onmessage?.({ data } as MessageEvent<ClassReply>);
  }

  fail(message: string): void {
    this.onerror?.({ message } as ErrorEvent);
  }
}

/** What comes of a piece does not matter here. */
const ANSWER: ClassReply = { ok: false, message: 'an answer' };

function working(pieces: number) {
  const stands: Stand[] = [];
  const done: string[] = [];
  const stop = new AbortController();
  const state = { over: false };
  const work = Array.from({ length: pieces }, (_, n): ClassRequest => ({ do: 'group', scenario: small(), task: { n } }));
  void workThrough(
    work,
    (piece, reply) => done.push(`${piece}: ${reply.ok ? '' : reply.message}`),
    stop.signal,
    () => {
      const stand = new Stand();
      stands.push(stand);
      return stand;
    },
  ).then(() => {
    state.over = true;
  });
  return { stands, done, stop, state };
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('navigator', { hardwareConcurrency: 1 });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test('a worker takes one piece after the other, and is ended after the last', async () => {
  const { stands, done, state } = working(2);
  stands[0].say(ANSWER);
  stands[0].say(ANSWER);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(stands.map(({ asked, ended }) => [asked, ended])).toEqual([[[0, 1], true]]);
  expect(done).toEqual(['0: an answer', '1: an answer']);
  expect(state.over).toBe(true);
});

test('one that hangs is replaced and its piece begun once more; the second time the piece has failed and the next is taken', async () => {
  const { stands, done } = working(2);
  await vi.advanceTimersByTimeAsync(7000);
  expect(stands.map(({ asked, ended }) => [asked, ended])).toEqual([
    [[0], true],
    [[0], false],
  ]);
  expect(done).toEqual([]);
  await vi.advanceTimersByTimeAsync(7000);
  expect(done).toEqual(['0: the computation stopped twice (gave no sign of life)']);
  expect(stands[2].asked).toEqual([1]);
});

test('one that fails is replaced at once, and what it says afterwards is not heard', () => {
  const { stands, done } = working(1);
  stands[0].fail('out of memory');
  expect(stands[1].asked).toEqual([0]);
  stands[0].say(ANSWER);
  stands[0].fail('late');
  expect([done, stands.length]).toEqual([[], 2]);
  stands[1].say(ANSWER);
  expect(done).toEqual(['0: an answer']);
});

test('one that gives signs of life is left alone', async () => {
  const { stands } = working(1);
  for (let i = 0; i < 20; i++) {
    await vi.advanceTimersByTimeAsync(3000);
    stands[0].say({ alive: true });
  }
  expect([stands.length, stands[0].ended]).toEqual([1, false]);
});

test('a stop ends every worker and is the end of the work', async () => {
  const { stands, done, stop, state } = working(3);
  stop.abort();
  stands[0].say(ANSWER);
  await vi.advanceTimersByTimeAsync(60_000);
  expect([stands.length, stands[0].ended, done, state.over]).toEqual([1, true, [], true]);
});
