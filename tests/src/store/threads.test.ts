import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Reply, Request } from '../../../src/store/threads/column-worker.ts';
import { type Alive, Errand } from '../../../src/store/threads/errand.ts';
import { type LossThread, Losses } from '../../../src/store/threads/losses.ts';
import { type MessageThread, WorkerThread } from '../../../src/store/threads/model-thread.ts';
import type { Thread } from '../../../src/store/threads/thread.ts';
import { small } from './rig.ts';

// Threads that hang, end or leave out an answer: a stand-in does what a test tells it, and the page has to notice.

/** A worker whose answers are given by hand. */
class HandWorker implements MessageThread {
  onmessage: MessageThread['onmessage'] = null;
  onerror: MessageThread['onerror'] = null;
  onmessageerror: MessageThread['onmessageerror'] = null;
  readonly asked: Request[] = [];
  ended = false;

  postMessage(request: Request): void {
    this.asked.push(request);
  }

  terminate(): void {
    this.ended = true;
  }

  answer(reply: Reply): void {
    this.onmessage?.({ data: reply } as MessageEvent<Reply>);
  }
}

function rig() {
  const workers: HandWorker[] = [];
  const said: string[] = [];
  const thread = new WorkerThread(
    (text) => said.push(text),
    () => {
      const worker = new HandWorker();
      workers.push(worker);
      return worker;
    },
  );
  return { thread, workers, said, last: () => workers[workers.length - 1] };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const LOG = [{ do: 'clamp', open_percent: 50 }] as const;

async function openRun({ thread, last }: ReturnType<typeof rig>): Promise<void> {
  const plan = thread.open(small(), LOG);
  last().answer({ call: last().asked[0].call, ok: true, value: {} });
  await plan;
}

describe('the thread of the model', () => {
  test('that hangs is replaced within seconds, brought back to scenario and log, asked again, and it is said', async () => {
    const it = rig();
    await openRun(it);
    const moment = it.thread.moment(3);
    await vi.advanceTimersByTimeAsync(7000);
    expect(it.workers).toHaveLength(2);
    expect(it.workers[0].ended).toBe(true);
    expect(it.last().asked).toMatchObject([
      { do: 'open', log: LOG, call: 0 },
      { do: 'moment', time_min: 3 },
    ]);
    expect(it.said).toEqual(['The model stopped (gave no sign of life) and was restarted; the run continues from its log.']);
    it.last().answer({ call: 0, ok: true, value: {} });
    it.last().answer({ call: it.last().asked[1].call, ok: true, value: 'there' });
    expect(await moment).toBe('there');
  });

  test('that works for long but gives signs of life is left alone', async () => {
    const it = rig();
    await openRun(it);
    const moment = it.thread.moment(3);
    for (let i = 0; i < 20; i++) {
      await vi.advanceTimersByTimeAsync(3000);
      it.last().answer({ alive: true });
    }
    expect(it.workers).toHaveLength(1);
    it.last().answer({ call: it.last().asked[1].call, ok: true, value: 1 });
    await moment;
    await vi.advanceTimersByTimeAsync(60_000);
    expect(it.workers).toHaveLength(1);
  });

  test('that leaves out one answer is replaced as soon as the next comes', async () => {
    const it = rig();
    await openRun(it);
    const first = it.thread.moment(1);
    const second = it.thread.moment(2);
    const worker = it.last();
    worker.answer({ call: worker.asked[2].call, ok: true, value: 'second' });
    expect(await second).toBe('second');
    expect(it.last().asked).toMatchObject([{ do: 'open' }, { do: 'moment', time_min: 1 }]);
    it.last().answer({ call: it.last().asked[1].call, ok: true, value: 'first' });
    expect(await first).toBe('first');
  });

  test('that ends with an error is replaced; a question that ends it twice fails', async () => {
    const it = rig();
    await openRun(it);
    const plan = it.thread.plan([]);
    const failed = expect(plan).rejects.toThrow('model: it stopped twice on the same question (out of memory)');
    for (let i = 0; i < 2; i++) it.last().onerror?.({ message: 'out of memory' } as ErrorEvent);
    await failed;
    expect(it.workers).toHaveLength(3);
    const moment = it.thread.moment(0);
    it.last().answer({ call: it.last().asked[1].call, ok: true, value: 'on' });
    expect(await moment).toBe('on');
  });

  test('that is busy is given up when another run is opened', async () => {
    const it = rig();
    await openRun(it);
    const failed = expect(it.thread.plan([])).rejects.toThrow('another run was opened meanwhile');
    const next = it.thread.open(small(), []);
    await failed;
    expect(it.workers).toHaveLength(2);
    it.last().answer({ call: it.last().asked[0].call, ok: true, value: 'opened' });
    expect(await next).toBe('opened');
  });
});

describe('a thread with one errand', () => {
  class Stand implements Thread<string, string | Alive> {
    onmessage: Thread<string, string | Alive>['onmessage'] = null;
    onerror: Thread<string, string | Alive>['onerror'] = null;
    asked = '';
    ended = false;

    postMessage(asked: string): void {
      this.asked = asked;
    }

    terminate(): void {
      this.ended = true;
    }

    say(data: string | Alive): void {
      this.onmessage?.({ data } as MessageEvent<string | Alive>);
    }
  }

  function sent() {
    const stands: Stand[] = [];
    const heard: string[] = [];
    const errand = new Errand<string, string>(
      () => {
        const stand = new Stand();
        stands.push(stand);
        return stand;
      },
      { heard: (told) => heard.push(told), again: (why) => heard.push(`again: ${why}`), failed: (why) => heard.push(`failed: ${why}`) },
    );
    errand.begin('work');
    return { errand, stands, heard };
  }

  test('that hangs is ended and begun once more, and it is said; the second time it is given up', async () => {
    const { errand, stands, heard } = sent();
    await vi.advanceTimersByTimeAsync(7000);
    expect(stands.map(({ asked, ended }) => [asked, ended])).toEqual([
      ['work', true],
      ['work', false],
    ]);
    expect(heard).toEqual(['again: gave no sign of life']);
    await vi.advanceTimersByTimeAsync(7000);
    expect(heard[1]).toBe('failed: gave no sign of life');
    expect([errand.going, stands.length]).toEqual([false, 2]);
  });

  test('that ends with an error is begun once more at once', () => {
    const { stands, heard } = sent();
    stands[0].onerror?.({ message: 'out of memory' } as ErrorEvent);
    expect(heard).toEqual(['again: out of memory']);
    stands[1].onerror?.({ message: '' } as ErrorEvent);
    expect(heard[1]).toBe('failed: ended');
    expect(stands.every(({ ended }) => ended)).toBe(true);
  });

  test('whose last word is lost is noticed; one that gives signs of life is left alone', async () => {
    const { stands, heard } = sent();
    for (let i = 0; i < 10; i++) {
      await vi.advanceTimersByTimeAsync(3000);
      stands[0].say({ alive: true });
    }
    stands[0].say('half');
    expect([heard, stands.length]).toEqual([['half'], 1]);
    await vi.advanceTimersByTimeAsync(7000);
    expect([heard[1], stands.length]).toEqual(['again: gave no sign of life', 2]);
  });

  test('says nothing more once it is over or was begun anew', async () => {
    const { errand, stands, heard } = sent();
    errand.begin('other');
    stands[0].say('late');
    stands[0].onerror?.({ message: 'late' } as ErrorEvent);
    errand.end();
    stands[1].say('too late');
    await vi.advanceTimersByTimeAsync(60_000);
    expect([heard, stands.length]).toEqual([[], 2]);
  });
});

describe('the thread of the attribution', () => {
  test('that says nothing for long is ended and begun once more; the second time it is said', async () => {
    let ended = 0;
    const thread: LossThread = {
      onmessage: null,
      onerror: null,
      postMessage: () => undefined,
      terminate: () => {
        ended += 1;
      },
    };
    const losses = new Losses(() => thread);
    losses.begin(small(), []);
    await vi.advanceTimersByTimeAsync(7000);
    expect(ended).toBe(1);
    expect(losses.runs).toBe(0);
    expect(losses.restarted).toBe('The working out stopped (gave no sign of life) and was started again.');
    await vi.advanceTimersByTimeAsync(7000);
    expect(ended).toBe(2);
    expect(losses.runs).toBeUndefined();
    expect(losses.failure).toMatch(/stopped.*again/);
  });
});
