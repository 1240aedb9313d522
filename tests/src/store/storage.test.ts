import { expect, test } from 'vitest';
import { localStorageOf, openAutosave, watchOtherTabs } from '../../../src/store/keep/storage.ts';
import type { SavedRun } from '../../../src/store/keep/saved.ts';

const RUN: SavedRun = { base: 'cathode-leach', differences: {}, seed: 3, log: [{ do: 'clamp', open_percent: 50 }], view: 'bench' };

function memory(start: Record<string, string> = {}): Storage {
  const kept = new Map(Object.entries(start));
  // Only these three are used.
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => {
      kept.set(key, value);
    },
    removeItem: (key: string) => {
      kept.delete(key);
    },
  } as Storage;
}

function full(): Storage {
  const refuse = () => {
    throw new DOMException('full', 'QuotaExceededError');
  };
  return { getItem: refuse, setItem: refuse, removeItem: refuse } as unknown as Storage;
}

test('a run that was kept is there for the next tab', () => {
  const storage = memory();
  expect(openAutosave(storage, 'a').save(RUN).ok).toBe(true);
  expect(openAutosave(storage, 'b').load()).toEqual({ ok: true, value: RUN });
});

test('load() of an empty storage is no run and no complaint', () => {
  expect(openAutosave(memory(), 'a').load()).toEqual({ ok: true, value: undefined });
});

test.each([undefined, full()])('a storage that is missing or full is reported on saving and silent on loading', (storage) => {
  const autosave = openAutosave(storage, 'a');
  expect(autosave.save(RUN)).toMatchObject({ ok: false });
  expect(autosave.load()).toEqual({ ok: true, value: undefined });
  autosave.clear();
});

test.each([
  '',
  '{',
  'null',
  '[]',
  '{"version":1}',
  '{"version":9,"run":{"base":"x","seed":1,"log":[]}}',
  '{"version":1,"run":{"base":"x","seed":-1,"log":[]}}',
])('load() of %j leaves it aside with a message', (text) => {
  expect(openAutosave(memory({ 'bandfall.run': text }), 'a').load()).toMatchObject({ ok: false, message: expect.stringContaining('put aside') as string });
});

test("a text deeper than any run is nobody's, though it bears the name of this tab: it is left while idle, and put aside word for word", () => {
  const storage = memory();
  const autosave = openAutosave(storage, 'a');
  autosave.save(RUN);
  const deep = `{"version":1,"tab":"a","run":${'['.repeat(1000)}${']'.repeat(1000)}}`;
  storage.setItem('bandfall.run', deep);
  expect(autosave.save(RUN, true).ok).toBe(true);
  expect(storage.getItem('bandfall.run')).toBe(deep);
  expect(autosave.save(RUN).ok).toBe(true);
  expect(autosave.unread().map(({ text }) => text)).toEqual([deep]);
  expect(autosave.load()).toEqual({ ok: true, value: RUN });
});

test('a run that another tab kept in a way this page cannot read is put aside before it is written over, and kept where there is no room', () => {
  const storage = memory();
  const autosave = openAutosave(storage, 'a');
  const texts = [1, 2, 3, 4, 5, 6].map((n) => `{"version":9,"tab":"b","run":${n}}`);
  for (const [n, text] of texts.entries()) {
    storage.setItem('bandfall.run', text);
    expect(autosave.save(RUN).ok).toBe(n < 5);
  }
  expect(autosave.unread().map(({ text }) => text)).toEqual(texts.slice(0, 5));
  expect(storage.getItem('bandfall.run')).toBe(texts[5]);
});

test('clear() forgets the run', () => {
  const autosave = openAutosave(memory(), 'a');
  autosave.save(RUN);
  autosave.clear();
  expect(autosave.load()).toEqual({ ok: true, value: undefined });
});

test('watchOtherTabs(...) speaks when another tab has written, not for its own writing or other keys', () => {
  const page = new EventTarget();
  const heard: string[] = [];
  const stop = watchOtherTabs(page, 'mine', (message) => heard.push(message));
  const write = (key: string, newValue: string | null) => page.dispatchEvent(Object.assign(new Event('storage'), { key, newValue }));
  write('other', '{}');
  write('bandfall.run', '{"tab":"mine"}');
  write('bandfall.run', null);
  expect(heard).toEqual([]);
  write('bandfall.run', '{"tab":"theirs"}');
  expect(heard).toHaveLength(1);
  stop();
  write('bandfall.run', '{"tab":"theirs"}');
  expect(heard).toHaveLength(1);
});

test('localStorageOf(...) of a page that denies it is undefined', () => {
  const page = {
    get localStorage(): Storage {
      throw new DOMException('denied', 'SecurityError');
    },
  };
  expect(localStorageOf(page)).toBeUndefined();
});
