import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { paced } from '../../../src/ui/announce.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

function listener() {
  const said: string[] = [];
  return { said, announce: paced((text) => said.push(text), 2000) };
}

test('paced(...) says the first line at once', () => {
  const { said, announce } = listener();
  announce('valve open');
  expect(said).toEqual(['valve open']);
});

test('paced(...) says only the last of the lines that came while waiting', () => {
  const { said, announce } = listener();
  for (const text of ['one', 'two', 'three', 'four']) announce(text);
  vi.advanceTimersByTime(1999);
  expect(said).toEqual(['one']);
  vi.advanceTimersByTime(1);
  expect(said).toEqual(['one', 'four']);
});

test('paced(...) never says two lines within the interval', () => {
  const { said, announce } = listener();
  for (let tick = 0; tick < 100; tick++) {
    announce(`line ${tick}`);
    vi.advanceTimersByTime(130);
  }
  expect(said.length).toBeGreaterThan(3);
  expect(said.length).toBeLessThanOrEqual(1 + Math.ceil(13_000 / 2000));
});

test('paced(...) says at once again after a silence', () => {
  const { said, announce } = listener();
  announce('one');
  vi.advanceTimersByTime(5000);
  announce('two');
  expect(said).toEqual(['one', 'two']);
});
