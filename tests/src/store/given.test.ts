import { describe, expect, test } from 'vitest';
import type { HandOut } from '../../../sim/handed/index.ts';
import { decodeHandOut, encodeHandOut } from '../../../src/store/given/hand-out-link.ts';
import { handedIn } from '../../../src/store/given/hand-in.ts';
import { openTries } from '../../../src/store/given/tries.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from './memory.ts';
import { directThread } from './rig.ts';

const HAND_OUT: HandOut = {
  base: 'cathode-leach',
  differences: { bed: { lanes: 1, plates: 10 } },
  seed: 5,
  column: 'fresh',
  seeing: 'eye',
  tries: 2,
  asked: ['first-out'],
  own: ['Why?'],
};

/** A lab of its own in most numbers, as an instructor would set one up. */
const ORDINARY = {
  title: 'Cobalt and nickel, spring term, section B',
  purpose: 'Part the cobalt of an invented alloy from its nickel, and find how much of it there is in a millilitre.',
  column: { bore_cm: 0.95, tip_mL: 0.4, tube_cm: 22 },
  bed: { length_cm: 7.4, bead_um: 212, porosity: 0.39, spread: 0.2 },
  resin: { grade: undefined, capacity_eq_per_L: 1.32, shrinkage: 0.12, curve_scale: 0.31, Ds_exchange_cm2_s: 1.7e-7 },
  differ: { bead: 0.06, porosity: 0.012, length_cm: 0.25, spread: 0.4, acid_M: 0.25 },
  bench: { temperature_C: 22, NaOH_M: 5, start_head_mm: 12 },
  liquids: {
    acid: { label: '8.8 M HCl', HCl_M: 8.8 },
    sample: { label: 'alloy in 8.8 M HCl', HCl_M: 8.8, ions: { Co: 0.11, Ni: 0.13 } },
    water: { label: 'water', HCl_M: 0 },
  },
};

describe('the link of a hand-out', () => {
  test('is read back', async () => {
    const link = await encodeHandOut(HAND_OUT);
    expect(link.ok && (await decodeHandOut(link.value))).toEqual({ ok: true, value: HAND_OUT });
  });

  test('of an ordinary lab with questions stays under 2,000 characters, its address included', async () => {
    const own = [
      'What would you do otherwise next time?',
      'Where did the cobalt go that is not in your beaker?',
      'Which bottle would you check first, and why?',
    ];
    const differences = JSON.parse(JSON.stringify(ORDINARY)) as object;
    const link = await encodeHandOut({ ...HAND_OUT, differences, asked: ['first-out', 'meaning', 'weaker', 'pushing', 'two-switches'], own });
    expect(link.ok).toBe(true);
    const address = `https://chemistry.university.example/teaching/analytical/bandfall/index.html#bench?task=${link.ok ? link.value : ''}`;
    expect(address.length).toBeLessThan(2000);
    expect(address.length).toBeGreaterThan(600);
  });

  test('with faults to be found is sealed, and damaged ones are named', async () => {
    const link = await encodeHandOut({ ...HAND_OUT, differences: { faults: [{ kind: 'channel', severity: 0.5 }] } });
    expect(link.ok && link.value).toMatch(/^1s\./);
    expect(await decodeHandOut('1.00000000.abc')).toMatchObject({ ok: false, message: expect.stringContaining('damaged') });
  });
});

test('tries are counted in the browser, and on the page where it keeps nothing', () => {
  const storage = memory();
  openTries(storage).begin('aaaaaaaa', 2);
  expect([openTries(storage).begun('aaaaaaaa'), openTries(storage).begun('bbbbbbbb')]).toEqual([2, 0]);
  const page = openTries(undefined);
  page.begin('aaaaaaaa', 1);
  expect(page.begun('aaaaaaaa')).toBe(1);
  storage.setItem('bandfall.tries', '{"aaaaaaaa": "many", "bbbbbbbb": 1}');
  expect([openTries(storage).begun('aaaaaaaa'), openTries(storage).begun('bbbbbbbb')]).toEqual([0, 1]);
});

describe('a student', () => {
  const open = async (storage = memory()): Promise<{ session: Session; storage: Storage }> => {
    const session = new Session(directThread(), storage, 'tab');
    await session.start(undefined);
    return { session, storage };
  };
  const pour = { do: 'pour', liquid: 'acid', volume_mL: 2 } as const;

  test('gets what was handed out, with own work put aside, and what was done stays done until the end', async () => {
    const { session } = await open();
    await session.store.act(pour);
    expect(await session.task.open(HAND_OUT)).toBeUndefined();
    expect(session.given).toMatchObject({ attempt: 1 });
    expect(session.hasBeside).toBe(true);
    expect(session.store.scenario?.values['bed.plates']).toBe(10);
    session.setSeeing('forecast');
    expect(session.sees).toBe('eye');
    await session.store.act(pour);
    await session.store.undo();
    await session.store.playProcedure();
    await session.store.stepBack();
    await session.store.replace([], 0);
    expect([session.store.log.length, session.store.canUndo]).toEqual([1, false]);
    expect(session.store.refusal?.refused?.expected).toContain('this try counts');
    expect(await session.change({ ...(session.json as object), seed: 9 })).toBe(false);
    expect(session.issues[0].path).toBe('hand-out');
    session.task.end();
    expect([session.sees, session.store.canUndo]).toEqual(['forecast', true]);
  });

  test('finds the lab of what was handed out closed until the tries are over, unless the forecast is allowed', async () => {
    const { session } = await open();
    expect(session.labClosed).toBe(false);
    await session.task.open(HAND_OUT);
    expect(session.labClosed).toBe(true);
    await session.store.act(pour);
    session.task.end();
    // The next try is of the same lab.
    expect(session.labClosed).toBe(true);
    await session.task.next();
    await session.store.act(pour);
    expect(session.labClosed).toBe(true);
    session.task.end();
    expect(session.labClosed).toBe(false);
    await session.task.open({ ...HAND_OUT, seeing: 'forecast' });
    expect(session.labClosed).toBe(false);
  });

  test('hands in the run as it was when the try ended, whatever is tried with it afterwards', async () => {
    const { session } = await open();
    await session.task.open(HAND_OUT);
    await session.store.act(pour);
    session.task.end();
    await session.store.act({ do: 'pour', liquid: 'water', volume_mL: 1 });
    const run = handedIn(session, ' code 5 ');
    expect(run).toMatchObject({ ok: true, value: { who: 'code 5', log: [{ do: 'pour', liquid: 'acid' }], under: { attempt: 1, tries: 2, seeing: 'eye' } } });
    expect(handedIn(session, '\u202ecode')).toMatchObject({ ok: false, message: expect.stringContaining('every sign of it visible') });
  });

  test('keeps faults that are to be found hidden in every try, until one is named, and seals them in the link of the run', async () => {
    const { session } = await open();
    const faults = [{ kind: 'crater', severity: 0.5 }];
    await session.task.open({ ...HAND_OUT, differences: { bed: { lanes: 1, plates: 10 }, faults }, faults: 'hidden' });
    expect([session.faults.map(({ kind }) => kind), session.mystery]).toEqual([['crater'], {}]);
    await session.store.act(pour);
    expect(await session.link()).toMatchObject({ ok: true, value: expect.stringMatching(/^1s\./) });
    session.task.end();
    expect(session.mystery).toEqual({});
    expect(await session.task.next()).toBe(true);
    expect(session.mystery).toEqual({});
    session.diagnose({ kind: 'crater', reason: 'a hollow', time_min: 0 });
    expect(session.mystery?.answer?.kind).toBe('crater');
  });

  test('has so many tries on fresh columns and no more; coming back goes on with the one that was begun', async () => {
    const { session, storage } = await open();
    await session.task.open(HAND_OUT);
    await session.store.act(pour);
    const first = session.store.scenario?.seed;
    session.keepNow();
    const { session: later } = await open(storage);
    expect(await later.task.open(HAND_OUT)).toBeUndefined();
    expect([later.given?.attempt, later.store.scenario?.seed, later.store.log.length]).toEqual([1, first, 1]);
    expect(await later.task.next()).toBe(true);
    await later.store.act(pour);
    expect([later.given?.attempt, later.task.left(later.given ?? { handOut: HAND_OUT, attempt: 2, answers: [] })]).toEqual([2, 0]);
    expect(later.store.scenario?.seed).not.toBe(first);
    expect(await later.task.next()).toBe(false);
    await later.openScenario('theory-one-lane');
    later.keepNow();
    for (const { id } of later.runs) later.dropKept(id);
    expect(await later.task.open(HAND_OUT)).toContain('expected at most 2 tries');
    expect(later.store.scenario?.id).toBe('theory-one-lane');
  });
});
