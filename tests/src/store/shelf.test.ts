import { describe, expect, test } from 'vitest';
import type { Action } from '../../../sim/terms/types.ts';
import type { SavedRun } from '../../../src/store/keep/saved.ts';
import { idOf, openShelf, SHELF_MAX } from '../../../src/store/keep/shelf.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from './memory.ts';
import { directThread } from './rig.ts';

// Kept runs: what was left for another is there until the reader throws it away.

const shut: Action = { do: 'clamp', open_percent: 0 };
const small = { bed: { plates: 10, lanes: 1 } };

function runOf(seed: number, ...labels: string[]): SavedRun {
  return { base: 'cathode-leach', differences: small, seed, log: labels.map((label): Action => ({ do: 'receiver', label })) };
}

describe('the shelf', () => {
  test('keeps a run under its name for the next tab, until it is deleted', () => {
    const storage = memory();
    const shelf = openShelf(storage);
    shelf.put(runOf(1, 'a'), 'the first try');
    const [kept] = openShelf(storage).runs();
    expect(kept).toMatchObject({ name: 'the first try', run: runOf(1, 'a') });
    shelf.rename(kept?.id ?? '', 'another name');
    expect(openShelf(storage).runs()).toMatchObject([{ name: 'another name' }]);
    shelf.remove(kept?.id ?? '');
    expect(openShelf(storage).runs()).toEqual([]);
  });

  test('holds a run once, and not an earlier state of it unless that has a name', () => {
    const shelf = openShelf(memory());
    shelf.put(runOf(1, 'a'));
    shelf.put(runOf(2, 'a'));
    shelf.put(runOf(1, 'a'));
    expect(shelf.runs().map(({ run }) => run.seed)).toEqual([2, 1]);
    shelf.put(runOf(1, 'a', 'b'));
    expect(shelf.runs().map(({ run }) => run.log.length)).toEqual([1, 2]);
    shelf.put(runOf(1, 'a', 'b'), 'before the water');
    shelf.put(runOf(1, 'a', 'b', 'c'));
    expect(shelf.runs().map(({ run }) => run.log.length)).toEqual([1, 2, 3]);
  });

  test('knows a run again whatever the order of its keys', () => {
    const one: Action = { do: 'receiver', label: 'a', at_min: 2 };
    const other = { at_min: 2, label: 'a', do: 'receiver' } as const;
    expect(idOf({ ...runOf(1), log: [one] })).toBe(idOf({ ...runOf(1), log: [other] }));
  });

  test('keeps a run for as long as the page is open where the browser takes no more, and says so', () => {
    const storage = memory({}, 400);
    const shelf = openShelf(storage);
    expect(shelf.put(runOf(1, 'a')).ok).toBe(true);
    expect(shelf.put(runOf(2, 'a', 'b', 'c', 'd', 'e', 'f'))).toMatchObject({ ok: false, message: expect.stringMatching(/cannot store more/) as string });
    expect(shelf.runs().map(({ run }) => run.seed)).toEqual([1, 2]);
    expect(openShelf(undefined).put(runOf(1, 'a')).ok).toBe(false);
  });

  test('that is full lets the oldest go that has no name', () => {
    const shelf = openShelf(memory());
    shelf.put(runOf(1, 'named'), 'mine');
    for (let seed = 2; seed <= SHELF_MAX + 1; seed++) shelf.put(runOf(seed, 'x'));
    const seeds = shelf.runs().map(({ run }) => run.seed);
    expect(seeds).toHaveLength(SHELF_MAX);
    expect(seeds.slice(0, 2)).toEqual([1, 3]);
  });
});

describe('no way out of a run throws it away', () => {
  async function worked(): Promise<Session> {
    const session = new Session(directThread(), memory(), 'a');
    await session.start(undefined);
    await session.openRun({ ...runOf(1), differences: small });
    await session.store.act(shut);
    session.workUp.write({ what: 'mass of the beaker', value: '51.3 g' });
    return session;
  }

  test.each<[string, (session: Session) => Promise<unknown>]>([
    ['another scenario', (session) => session.openScenario('demo-channel')],
    ['a run from a file', (session) => session.openRun(runOf(7, 'theirs'))],
    ['another column', (session) => session.freshColumn(99)],
    ['the next aliquot', (session) => session.nextAliquot(false)],
    ['a procedure that was found', (session) => session.beginOther(session.json)],
  ])('%s', async (_, leave) => {
    const session = await worked();
    const before = session.saved();
    await leave(session);
    expect(idOf(session.saved())).not.toBe(idOf(before));
    await session.goBack();
    expect(session.saved()).toEqual(before);
    expect(session.workUp.saved.entries).toEqual([{ what: 'mass of the beaker', value: '51.3 g' }]);
  });

  test('a column on which nothing was done is not kept', async () => {
    const session = new Session(directThread(), memory(), 'a');
    await session.start(undefined);
    for (const drawn of [5, 6, 7]) await session.freshColumn(drawn);
    expect(session.runs).toEqual([]);
    expect(session.hasBeside).toBe(false);
  });
});
