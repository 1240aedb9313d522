import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { ClassReply, ClassRequest } from '../../../src/class/class-worker.ts';
import { ClassRoom } from '../../../src/class/class-room.ts';

// Files that come while others are being computed: workers are stand-ins that answer when a test tells them to.

const stands: Stand[] = [];

class Stand {
  onmessage: ((event: MessageEvent<ClassReply>) => void) | null = null;
  onerror = null;
  asked = '';

  constructor() {
    stands.push(this);
  }

  postMessage(request: ClassRequest): void {
    if (request.do === 'take') this.asked = request.file;
  }

  terminate(): void {
    this.asked = '';
  }
}

/** Answers the file that is being computed. */
async function answer(): Promise<string> {
  const stand = await vi.waitUntil(() => stands.find(({ asked }) => asked !== ''));
  const file = stand.asked;
  stand.asked = '';
  stand.onmessage?.({ data: { ok: true, value: { file, verdict: 'foreign', issues: [] } } } as unknown as MessageEvent<ClassReply>);
  return file;
}

const files = (...names: readonly string[]) => names.map((name) => ({ name, text: `{"of": "${name}"}` }));
const names = (all: readonly { readonly file: string }[]) => all.map(({ file }) => file);

beforeEach(() => {
  stands.length = 0;
  vi.stubGlobal('Worker', Stand);
  vi.stubGlobal('navigator', { hardwareConcurrency: 1 });
});
afterEach(() => vi.unstubAllGlobals());

test('files that come while others are being computed wait behind them, and nothing is lost', async () => {
  const room = new ClassRoom();
  const taking = room.takeIn(files('a', 'b', 'c'));
  expect(await answer()).toBe('a');
  await room.takeIn(files('d', 'e'));
  expect(room.taking).toEqual({ done: 1, of: 5 });
  expect([await answer(), await answer(), await answer(), await answer()]).toEqual(['b', 'c', 'd', 'e']);
  await taking;
  expect(names(room.taken)).toEqual(['a', 'b', 'c', 'd', 'e']);
  expect([room.taking, room.waiting]).toEqual([undefined, []]);
});

test('what a cancel leaves is named, and is computed when it is asked for', async () => {
  const room = new ClassRoom();
  const taking = room.takeIn(files('a', 'b', 'c'));
  await answer();
  room.cancelTaking();
  await taking;
  expect(room.taking).toBeUndefined();
  expect([names(room.taken), room.waiting.map(({ name }) => name)]).toEqual([['a'], ['b', 'c']]);
  const rest = room.takeWaiting();
  expect([await answer(), await answer()]).toEqual(['b', 'c']);
  await rest;
  expect([names(room.taken), room.waiting]).toEqual([['a', 'b', 'c'], []]);
});

test('a clear forgets what waits as well', async () => {
  const room = new ClassRoom();
  const taking = room.takeIn(files('a', 'b'));
  await answer();
  room.clear();
  await taking;
  expect([room.taken, room.waiting, room.taking]).toEqual([[], [], undefined]);
});
