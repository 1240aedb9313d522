import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { Fitting, type FitThread } from '../../../src/lab/calibrate/fitting.ts';
import type { FitReply } from '../../../src/lab/fit/fit-worker.ts';
import json from '../../../scenarios/cathode-leach.json';

const read = readScenario(json, 'lab');
if (!read.ok) throw new Error(JSON.stringify(read.issues));
const { scenario } = read;

/** A worker that answers when it is told to. */
class Stand implements FitThread {
  onmessage: FitThread['onmessage'] = null;
  onerror: FitThread['onerror'] = null;
  ended = false;
  postMessage() {}
  terminate() {
    this.ended = true;
  }
  say(data: FitReply | { alive: true }) {
    this.onmessage?.({ data } as MessageEvent<FitReply>);
  }
}

function started() {
  const stands: Stand[] = [];
  const fitting = new Fitting(() => {
    const stand = new Stand();
    stands.push(stand);
    return stand;
  });
  fitting.start(scenario, []);
  return { fitting, stands };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('a fit tells how far it is, and ends its worker when it is cancelled', () => {
  const { fitting, stands } = started();
  stands[0].say({ do: 'progress', progress: { runs: 3, runsMost: 425, chiSquare: 12 } });
  expect(fitting.progress).toEqual({ runs: 3, runsMost: 425, chiSquare: 12 });
  fitting.cancel();
  expect([fitting.progress, stands[0].ended]).toEqual([undefined, true]);
});

test('a second fit gives up the first', () => {
  const { fitting, stands } = started();
  fitting.start(scenario, []);
  expect(stands.map(({ ended }) => ended)).toEqual([true, false]);
});

test('a fit that fails says why, and can be started again', () => {
  const { fitting, stands } = started();
  stands[0].say({ do: 'failed', message: 'singular' });
  expect([fitting.failure, fitting.progress, stands[0].ended]).toEqual(['singular', undefined, true]);
  fitting.start(scenario, []);
  expect(fitting.failure).toBe('');
});

test('a fit whose worker hangs is begun once more, and that is said; the second time it is given up', async () => {
  const { fitting, stands } = started();
  await vi.advanceTimersByTimeAsync(7000);
  expect(stands.map(({ ended }) => ended)).toEqual([true, false]);
  expect([fitting.restarted, fitting.progress?.runs]).toEqual(['The fit stopped (gave no sign of life) and was started again.', 0]);
  await vi.advanceTimersByTimeAsync(7000);
  expect([fitting.failure, fitting.restarted, fitting.progress]).toEqual(['it stopped twice (gave no sign of life)', '', undefined]);
});

test('a fit that gives signs of life is left alone', async () => {
  const { fitting, stands } = started();
  for (let i = 0; i < 20; i++) {
    await vi.advanceTimersByTimeAsync(3000);
    stands[0].say({ alive: true });
  }
  expect([stands.length, fitting.restarted]).toEqual([1, '']);
});
