import { Buffer } from 'node:buffer';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { ACTIONS_MAX } from '../../../sim/input/log.ts';
import { RUN_MAX_MIN } from '../../../sim/terms/limits.ts';
import type { Action } from '../../../sim/terms/types.ts';
import { encodeLink } from '../../../src/store/keep/link.ts';
import { openAutosave } from '../../../src/store/keep/storage.ts';
import type { SavedRun } from '../../../src/store/keep/saved.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from './memory.ts';
import { directThread } from './rig.ts';

// Whatever is done or opened: what was kept can be read again or is still there as it was found.

const RUN_KEY = 'bandfall.run';
const small = { bed: { plates: 10, lanes: 1 } };
const shut: Action = { do: 'clamp', open_percent: 0 };

function runWith(log: readonly Action[], more: Partial<SavedRun> = {}): SavedRun {
  return { base: 'cathode-leach', differences: small, seed: 1, log, ...more };
}

async function opened(storage = memory(), shared?: string, tab = 'a'): Promise<Session> {
  const session = new Session(directThread(), storage, tab);
  await session.start(shared);
  return session;
}

async function having(run: SavedRun, storage = memory(), tab = 'a'): Promise<Session> {
  const session = await opened(storage, undefined, tab);
  expect(await session.openRun(run)).toBe(true);
  return session;
}

async function linkOf(run: SavedRun): Promise<string> {
  const link = await encodeLink(run);
  if (!link.ok) throw new Error(link.message);
  return link.value;
}

/** A link with another seed inside and the checksum it had before: everything but the checksum is in order. */
function changedInside(link: string): string {
  const [version, checksum, content = ''] = link.split('.');
  const text = inflateRawSync(Buffer.from(content, 'base64url')).toString();
  return [version, checksum, deflateRawSync(text.replace('"seed":1', '"seed":2')).toString('base64url')].join('.');
}

/** Whether a fresh tab reads the same run from this storage. */
async function comesBack(session: Session, storage: Storage): Promise<void> {
  session.keepNow();
  const next = await opened(storage, undefined, 'next');
  expect(next.notice).not.toMatch(/^autosave/);
  expect(next.saved()).toEqual(session.saved());
}

describe('every run that is written can be read again', () => {
  test('after a name with a tab character was tried for a receiver', async () => {
    const storage = memory();
    const session = await having(runWith([shut]), storage);
    expect(await session.store.act({ do: 'receiver', label: 'co\tbalt' })).toMatchObject({ refused: { path: 'label' } });
    await comesBack(session, storage);
  });

  test('after more actions than a log may have', async () => {
    const storage = memory();
    const session = await having(runWith(Array.from({ length: ACTIONS_MAX }, () => shut)), storage);
    expect(await session.store.act(shut)).toMatchObject({ refused: { path: 'log', expected: 'at most 500 actions in one run' } });
    await session.store.replace([...session.store.log, shut], 0);
    expect(session.store.failure).toBe('log: expected at most 500 actions in one run, received 501');
    expect(session.store.log).toHaveLength(ACTIONS_MAX);
    await comesBack(session, storage);
  });

  test('after an action beyond the longest run, and a run played further than that', async () => {
    const storage = memory();
    const session = await having(runWith([shut]), storage);
    await session.store.seek(RUN_MAX_MIN + 100);
    expect(session.store.now).toBe(RUN_MAX_MIN);
    await session.store.act({ do: 'receiver', label: 'late' });
    await comesBack(session, storage);
  });

  test('after more predictions than are kept', async () => {
    const storage = memory();
    const session = await having(runWith(Array.from({ length: 60 }, () => shut)), storage);
    for (let entry = 0; entry < 60; entry++) session.predict({ occasion: 'stop', entry, asked_mL: 0, choice: 'c', reason: 'r' });
    expect(session.validPredictions().length).toBeLessThanOrEqual(40);
    await comesBack(session, storage);
  });

  test('after more steps of a work-up than are kept', async () => {
    const storage = memory();
    const log: Action[] = [
      { do: 'clamp', open_percent: 100 },
      { do: 'pour', liquid: 'sample', volume_mL: 1 },
      { do: 'receiver', label: 'all' },
      { do: 'wait', until: { more_mL: 0.5 } },
    ];
    const session = await having(runWith(log), storage);
    await session.store.seek(session.store.plan?.logEnd.time_min ?? 0);
    await session.workUp.load();
    session.workUp.take('all');
    for (let i = 0; i < 510; i++) session.workUp.act({ do: 'swirl', min: 0.1 });
    expect(session.workUp.saved.log.length).toBeLessThanOrEqual(500);
    expect(session.workUp.refusal).toMatchObject({ refused: { path: 'workup' } });
    await comesBack(session, storage);
  });

  test('by the storage itself, whatever it is handed', () => {
    const storage = memory();
    const autosave = openAutosave(storage, 'a');
    expect(autosave.save(runWith([shut])).ok).toBe(true);
    const before = storage.getItem(RUN_KEY);
    expect(autosave.save(runWith([{ do: 'receiver', label: '\t' }]))).toMatchObject({
      ok: false,
      message: expect.stringContaining('could not be read again') as string,
    });
    expect(storage.getItem(RUN_KEY)).toBe(before);
  });
});

describe('what cannot be read', () => {
  const deep = `{"version":1,"tab":"z","run":${'['.repeat(200_000)}${']'.repeat(200_000)}}`;
  const gone = JSON.stringify({ version: 1, tab: 'z', run: runWith([shut], { base: 'no-longer-shipped' }) });

  test.each([
    ['not JSON', '{'],
    ['nested without end', deep],
    ['of a scenario that is no longer shipped', gone],
    ['with an action nobody knows', JSON.stringify({ version: 1, run: { base: 'cathode-leach', seed: 1, log: [{ do: 'sing' }] } })],
  ])('is moved to a second place when it is %s, and offered with the reason', async (_, text) => {
    const storage = memory({ [RUN_KEY]: text });
    const session = await opened(storage);
    expect(session.store.scenario?.id).toBe('cathode-leach');
    expect(session.noticeKind).toBe('problem');
    await session.store.act(shut);
    expect(session.unread).toEqual([{ text, reason: expect.stringMatching(/expected/) as string }]);
    const later = await opened(storage);
    expect(later.unread).toEqual(session.unread);
    expect(later.store.log).toHaveLength(1);
  });

  test('is never written over: five are kept, and the sixth stays where it is', async () => {
    const storage = memory();
    for (let i = 0; i < 7; i++) {
      storage.setItem(RUN_KEY, `{ broken ${i}`);
      await opened(storage);
    }
    const session = await opened(storage);
    await session.store.act(shut);
    expect(session.unread.map(({ text }) => text)).toEqual([0, 1, 2, 3, 4].map((i) => `{ broken ${i}`));
    expect(storage.getItem(RUN_KEY)).toBe('{ broken 6');
  });

  test('stays when there is no room to move it', async () => {
    const text = `{ broken ${'x'.repeat(1000)}`;
    const storage = memory({ [RUN_KEY]: text }, 1030);
    await (await opened(storage)).store.act(shut);
    expect(storage.getItem(RUN_KEY)).toBe(text);
  });
});

describe('a link', () => {
  test('that is good opens beside the kept run, which is one press away, also after a reload', async () => {
    const storage = memory();
    const own = await having(runWith([shut, { do: 'receiver', label: 'mine' }]), storage);
    own.keepNow();
    const log = own.store.log;
    const shared = await opened(storage, await linkOf(runWith([{ do: 'receiver', label: 'theirs' }])), 'b');
    expect(shared.store.log).toMatchObject([{ label: 'theirs' }]);
    expect(shared.hasBeside).toBe(true);
    await shared.store.act(shut);
    const later = await opened(storage, undefined, 'c');
    expect(later.hasBeside).toBe(true);
    await later.goBack();
    expect(later.store.log).toEqual(log);
    await later.goBack();
    expect(later.store.log).toMatchObject([{ label: 'theirs' }, { do: 'clamp' }]);
  });

  test.each([
    ['damaged', async () => `${await linkOf(runWith([shut]))}x`],
    ['changed into another run that could be opened', async () => changedInside(await linkOf(runWith([shut])))],
    ['of actions that do not fit', () => linkOf(runWith([{ do: 'pour', liquid: 'tea', volume_mL: 1 }]))],
    ['of a scenario that is not there', () => linkOf(runWith([shut], { base: 'elsewhere' }))],
  ])('that is %s leaves the kept run as it was, and says where it fails', async (_, link) => {
    const storage = memory();
    const own = await having(runWith([shut, { do: 'receiver', label: 'mine' }]), storage);
    own.keepNow();
    const text = storage.getItem(RUN_KEY);
    const later = await opened(storage, await link(), 'b');
    expect(later.store.log).toEqual(own.store.log);
    expect(later.notice).toMatch(/^link.*The run kept in this browser is open instead\.$/);
    expect(JSON.parse(storage.getItem(RUN_KEY) ?? '').run).toEqual(JSON.parse(text ?? '').run);
    await own.start(await link());
    expect(own.store.log).toEqual(later.store.log);
    expect(own.notice).toMatch(/The run on the page was not changed\.$/);
  });

  test('with one fault twenty times is refused at once', async () => {
    const differences = { ...small, faults: Array.from({ length: 20 }, () => ({ kind: 'no-recondition' })) };
    const session = await opened(memory(), await linkOf(runWith([], { differences })));
    expect(session.notice).toMatch(/^link: faults\[1\]\.kind: expected each kind of fault once/);
  });
});

test('a run that would take for ever ends, the page says why, and another scenario opens', async () => {
  const session = await having(
    runWith([
      { do: 'clamp', open_percent: 0.1 },
      { do: 'pour', liquid: 'acid', volume_mL: 1 },
      { do: 'wait', until: { liquid_mm: 1 } },
    ]),
  );
  expect(session.notice).toMatch(/^run ended: 10000 min is the longest run/);
  expect(await session.openScenario('cathode-leach')).toBe(true);
});

describe('two tabs', () => {
  test('an idle one never writes over the newer run of the other, not on closing either', async () => {
    const storage = memory();
    const first = await having(runWith([shut]), storage, 'first');
    first.keepNow();
    const second = await opened(storage, undefined, 'second');
    await second.store.act({ do: 'receiver', label: 'newer' });
    first.keepNow();
    await first.store.seek(3);
    first.keepNow();
    expect(JSON.parse(storage.getItem(RUN_KEY) ?? '').run.log).toHaveLength(2);
  });

  test('one that acts later puts the run of the other aside, not away', async () => {
    const storage = memory();
    const first = await having(runWith([shut]), storage, 'first');
    first.keepNow();
    const second = await opened(storage, undefined, 'second');
    await second.store.act({ do: 'receiver', label: 'newer' });
    await first.store.act({ do: 'receiver', label: 'newest' });
    expect(JSON.parse(storage.getItem(RUN_KEY) ?? '').run.log).toMatchObject([{ do: 'clamp' }, { label: 'newest' }]);
    const later = await opened(storage, undefined, 'later');
    for (const tab of [first, later]) {
      expect(tab.hasBeside).toBe(true);
      await tab.goBack();
      expect(tab.store.log).toMatchObject([{ do: 'clamp' }, { label: 'newer' }]);
    }
  });
});
