import { describe, expect, test } from 'vitest';
import { encodeLink } from '../../../src/store/keep/link.ts';
import type { Prediction } from '../../../sim/handed/predictions.ts';
import { readSaved } from '../../../src/store/keep/saved.ts';
import { imposedOn, imposeFromStart } from '../../../src/faults/imposed/impose.ts';
import { Session } from '../../../src/store/session.ts';
import { directThread } from './rig.ts';

const PREDICTION: Prediction = { occasion: 'receiver', entry: 1, asked_mL: 3, choice: 'acid', reason: 'a guess' };

function memory(): Storage {
  const kept = new Map<string, string>();
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

async function opened(storage = memory(), shared?: string): Promise<Session> {
  const session = new Session(directThread(), storage, 'a');
  await session.start(shared);
  return session;
}

async function withRun(storage = memory()): Promise<Session> {
  const session = await opened(storage);
  await session.store.act({ do: 'clamp', open_percent: 100 });
  await session.store.seek(0.5);
  await session.store.act({ do: 'receiver', label: 'cobalt' });
  await session.store.seek(0.7);
  return session;
}

describe('a session', () => {
  test('begins with the first scenario and nothing done', async () => {
    const session = await opened();
    expect(session.store.scenario?.id).toBe('cathode-leach');
    expect(session.store.log).toEqual([]);
    expect(session.notice).toBe('');
  });

  test('goes on in the next tab at the same state', async () => {
    const storage = memory();
    const first = await withRun(storage);
    first.predict(PREDICTION);
    first.keepNow();
    const next = await opened(storage);
    expect(next.saved()).toEqual(first.saved());
    expect(next.store.now).toBe(first.store.now);
    expect(next.store.moment?.sorbed).toEqual(first.store.moment?.sorbed);
    expect(next.validPredictions()).toMatchObject([PREDICTION]);
  });

  test('begins on a column drawn anew where nothing was kept, and goes on with that column afterwards', async () => {
    const storage = memory();
    const session = new Session(directThread(), storage, 'a');
    await session.start(undefined, () => 4711);
    expect(session.store.scenario?.seed).toBe(4711);
    expect(session.sees).toBe('eye');
    await session.store.act({ do: 'clamp', open_percent: 100 });
    const next = new Session(directThread(), storage, 'a');
    await next.start(undefined, () => 4712);
    expect(next.store.scenario?.seed).toBe(4711);
  });

  test('keeps predictions made by eye with the run they were made in, and has none on a new column', async () => {
    const storage = memory();
    const first = await withRun(storage);
    first.markByEye({ mL: 12, depth_cm: 3 });
    first.markByEye({ mL: 30 });
    first.markByEye({ mL: 14, depth_cm: 4 });
    expect(first.eyeMarks).toMatchObject([{ mL: 30 }, { mL: 14, depth_cm: 4 }]);
    first.keepNow();
    const next = await opened(storage);
    expect(next.eyeMarks).toEqual(first.eyeMarks);
    await next.store.undo();
    expect(first.eyeMarks).toHaveLength(2);
    await first.store.stepBack();
    expect(first.eyeMarks).toHaveLength(0);
    await first.store.undo();
    expect(first.eyeMarks).toHaveLength(2);
    await first.freshColumn(99);
    expect(first.eyeMarks).toEqual([]);
    expect(first.saved().marks).toBeUndefined();
  });

  test('opens what its own link says, without the predictions', async () => {
    const first = await withRun();
    first.predict(PREDICTION);
    const link = await first.link();
    const next = await opened(memory(), link.ok ? link.value : '');
    expect(next.store.log).toEqual(first.store.log);
    expect(next.predictions).toEqual([]);
  });

  test.each([
    ['damaged', async () => `${await text()}x`],
    ['too long', () => Promise.resolve('A'.repeat(70_000))],
    ['newer', async () => (await text()).replace(/^1\./, '2.')],
    ['empty', () => Promise.resolve('')],
    ['of a scenario it does not have', () => text('not-there')],
  ])('opens the untouched default and says why for a link that is %s', async (_, link) => {
    const session = await opened(memory(), await link());
    expect(session.store.scenario?.id).toBe('cathode-leach');
    expect(session.store.log).toEqual([]);
    expect(session.notice).toMatch(/^link.*The default scenario is open instead\.$/);
    expect(session.noticeKind).toBe('problem');
  });

  test('leaves the run alone when a file holds an action the bench does not know', async () => {
    const session = await withRun();
    const before = session.store.log;
    expect(await session.openRun({ base: 'cathode-leach', differences: {}, seed: 1, log: [{ do: 'pour', liquid: 'tea', volume_mL: 1 }] })).toBe(false);
    expect(session.issues).toHaveLength(1);
    expect(session.store.log).toBe(before);
  });

  test('remembers how much coaching was wanted', async () => {
    const storage = memory();
    (await opened(storage)).setCoach('guide');
    expect((await opened(storage)).coach).toBe('guide');
  });

  test('hides a prediction whose action was undone, and brings it back on redo', async () => {
    const session = await withRun();
    session.predict(PREDICTION);
    await session.store.undo();
    expect(session.validPredictions()).toEqual([]);
    await session.store.redo();
    expect(session.validPredictions()).toMatchObject([PREDICTION]);
  });

  test('keeps a prediction out of a run that was changed before its action, and brings it back with the run', async () => {
    const session = await withRun();
    session.predict(PREDICTION);
    const [clamp, ...rest] = session.store.log;
    await session.store.replace([{ do: 'clamp', open_percent: 50 }, ...rest], session.store.now);
    expect(session.validPredictions()).toEqual([]);
    await session.store.replace([clamp, ...rest], session.store.now);
    expect(session.validPredictions()).toMatchObject([PREDICTION]);
    // What is done after the action belongs to the same run.
    await session.store.replace([clamp, ...rest, { do: 'clamp', open_percent: 0 }], session.store.now);
    expect(session.validPredictions()).toMatchObject([PREDICTION]);
  });
});

test.each([
  ['not a list', {}],
  ['too many', Array.from({ length: 41 }, () => PREDICTION)],
  ['no occasion', [{ ...PREDICTION, occasion: 'lunch' }]],
  ['a negative entry', [{ ...PREDICTION, entry: -1 }]],
  ['a volume that is text', [{ ...PREDICTION, volume_mL: '48' }]],
  ['a long reason', [{ ...PREDICTION, reason: 'x'.repeat(301) }]],
])('readSaved() refuses predictions that are %s', (_, predictions) => {
  expect(readSaved({ base: 'cathode-leach', differences: {}, seed: 1, log: [], predictions })).toMatchObject({
    ok: false,
    issues: [{ path: expect.stringMatching(/^predictions/) as string }],
  });
});

async function text(base = 'cathode-leach'): Promise<string> {
  const link = await encodeLink({ base, differences: {}, seed: 1, log: [{ do: 'clamp', open_percent: 50 }] });
  return link.ok ? link.value : '';
}

test('a run opened from a class is named as long as it is open', async () => {
  const session = new Session(directThread(), memory(), 'tab');
  await session.start(undefined);
  expect(session.exampleWords).toBe('');
  session.nameExample('group 1, receiver early');
  await session.store.act({ do: 'pour', liquid: 'acid', volume_mL: 1 });
  expect(session.exampleWords).toBe('group 1, receiver early');
  await session.openScenario('cathode-leach');
  expect(session.exampleWords).toBe('');
});

test('a run to watch is one without what was imposed on the column, and that is said; what a demonstration was written with stays', async () => {
  const session = await opened();
  await session.watchOne();
  const sound = session.store.plan?.results.receivers;
  expect(session.notice).not.toMatch(/taken away/);
  await session.store.replace([], 0);
  await imposeFromStart(session, { kind: 'channel', severity: 1, side_deg: 90 });
  await session.watchOne();
  expect([session.watching, imposedOn(session)]).toEqual([true, []]);
  expect(session.store.plan?.results.receivers).toEqual(sound);
  expect(session.notice).toMatch(/What was imposed on this column was taken away/);

  await session.openScenario('demo-channel');
  const written = session.faults;
  await imposeFromStart(session, { kind: 'crater', severity: 0.5 });
  await session.watchOne();
  expect(session.faults).toEqual(written);
  expect(written).not.toEqual([]);
}, 60_000);
