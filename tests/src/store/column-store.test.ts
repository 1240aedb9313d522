import { beforeEach, describe, expect, test } from 'vitest';
import { runWhole } from '../../../sim/run/run.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { ColumnStore } from '../../../src/store/column-store.ts';
import { sayRefusal } from '../../../src/bench/words.ts';
import { handlesOf, movedEluent } from '../../../sim/history/index.ts';
import { directThread, small } from './rig.ts';

const SCENARIO = small();

describe('the column store', () => {
  let store: ColumnStore;
  beforeEach(async () => {
    store = new ColumnStore(directThread());
    await store.open(SCENARIO);
  });

  test('holds an empty run after opening', () => {
    expect(store.log).toEqual([]);
    expect(store.moment?.delivered_mL).toBe(0);
    expect(store.canUndo).toBe(false);
  });

  test('adds actions at the moment shown', async () => {
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.seek(1);
    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 3 });
    expect(store.log.map(({ do: what }) => what)).toEqual(['clamp', 'pour']);
    expect(store.log[1]?.at_min).toBe(store.moment?.time_min);
    expect(store.moment?.headVolume).toBeCloseTo(3, 9);
  });

  test('takes actions that come at once one after the other', async () => {
    await Promise.all([
      store.act({ do: 'clamp', open_percent: 100 }),
      store.act({ do: 'receiver', label: 'nickel' }),
      store.act({ do: 'pour', liquid: 'acid', volume_mL: 2 }),
    ]);
    expect(store.log.map(({ do: what }) => what)).toEqual(['clamp', 'receiver', 'pour']);
  });

  test('keeps a refused action out of the log, with its reason, and keeps what could be redone', async () => {
    await store.act({ do: 'clamp', open_percent: 50 });
    await store.undo();
    const refusal = await store.act({ do: 'pour', liquid: 'acid', volume_mL: 500 });
    expect(refusal?.refused?.received).toBe('500 mL');
    expect(store.refusals).toHaveLength(1);
    expect(store.log).toEqual([]);
    expect(store.canUndo).toBe(false);
    expect(store.canRedo).toBe(true);
  });

  test('comes back at once to a run that was shown, with what could be undone in it, and the model follows', async () => {
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.seek(1);
    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 3 });
    const bookmark = store.bookmark();
    if (!bookmark) throw new Error('expected a run');
    await store.replace([{ do: 'pour', liquid: 'acid', volume_mL: 1 }], 0.5);
    await store.undo();
    const tried = store.replace([{ do: 'pour', liquid: 'acid', volume_mL: 2 }], 2);
    void store.tryOut([{ do: 'pour', liquid: 'acid', volume_mL: 4 }]);
    const back = store.comeBack(bookmark);
    expect([store.plan, store.moment, store.now]).toEqual([bookmark.plan, bookmark.moment, bookmark.now]);
    await Promise.all([tried, back]);
    expect(store.plan).toBe(bookmark.plan);
    expect([store.preview, store.busy, store.failure]).toEqual([undefined, false, '']);
    await store.seek(1);
    expect(store.moment).toEqual(bookmark.moment);
    await store.undo();
    expect(store.log).toHaveLength(1);
    await store.undo();
    expect([store.log, store.canUndo]).toEqual([[], false]);
  });

  test('goes back and forth between the logs it had', async () => {
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 3 });
    await store.undo();
    expect(store.log).toHaveLength(1);
    await store.redo();
    expect(store.log).toHaveLength(2);
    await store.undo();
    await store.act({ do: 'receiver', label: 'cobalt' });
    expect(store.canRedo).toBe(false);
  });

  test('steps back to the moment before the last action', async () => {
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.seek(2);
    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 3 });
    const at = store.moment?.time_min;
    await store.seek(5);
    await store.stepBack();
    expect(store.log).toHaveLength(1);
    expect(store.moment?.time_min).toBe(at);
  });

  test('plays the procedure in a try that counts as long as nothing was done in it; later it says why not', async () => {
    const procedure = [{ do: 'clamp', open_percent: 100 }] as const;
    await store.open({ ...SCENARIO, procedure });
    store.fixed = true;
    await store.playProcedure();
    expect(store.log).toEqual(procedure);
    await store.seek(1);
    await store.playProcedure();
    expect(store.now).toBe(1);
    expect(store.refusal && sayRefusal(store.refusal, 0)).toBe('This try counts: what was done in it cannot be undone or changed.');
  });

  test('steps back over pours that were left out to the last that was done', async () => {
    const open = [
      { do: 'clamp', open_percent: 100 },
      { do: 'pour', liquid: 'sample', volume_mL: 1 },
    ] as const;
    const waits = { do: 'wait', until: { liquid_mm: 1 } } as const;
    const idle = { do: 'pour', liquid: 'acid', volume_mL: 1, unless: { ion: 'Ni', above_bottom_mm: 60 } } as const;
    await store.replace([{ do: 'pour', liquid: 'acid', volume_mL: 2 }, ...open, waits, idle, idle], 0);
    await store.seek((store.plan?.logEnd.time_min ?? 0) + 0.5);
    expect(store.moment?.events.filter(({ entry, action }) => entry >= 0 && !action)).toHaveLength(2);
    await store.stepBack();
    expect(store.log).toHaveLength(2);
  });

  test('previews another log without touching the run, and keeps it only when told to', async () => {
    await store.replace(SCENARIO.procedure, 0);
    const { plan } = store;
    const water = handlesOf(plan?.log ?? [], plan?.events ?? []).find(({ label }) => label === 'water');
    const log = movedEluent(plan?.log ?? [], plan?.events ?? [], water?.entry ?? 0, (water?.delivered_mL ?? 0) + 2);
    await store.tryOut(log);
    expect(store.preview?.log).toEqual(log);
    expect(store.log).toEqual(SCENARIO.procedure);
    await store.dropPreview();
    expect(store.preview).toBeUndefined();
    await store.tryOut(log);
    await store.replace(log, 0);
    expect(store.preview).toBeUndefined();
    expect(store.plan?.results).toEqual(resultsOf(runWhole(SCENARIO, log)));
    await store.undo();
    expect(store.log).toEqual(SCENARIO.procedure);
  });

  test('shows only the newest of many previews asked for at once', async () => {
    const asked = [1, 2, 3, 4].map((volume_mL) => store.tryOut([{ do: 'pour', liquid: 'acid', volume_mL }]));
    await Promise.all(asked);
    expect(store.preview?.log).toEqual([{ do: 'pour', liquid: 'acid', volume_mL: 4 }]);
  });

  test('drops a preview that arrives after the handle was let go', async () => {
    const trial = store.tryOut([{ do: 'pour', liquid: 'acid', volume_mL: 1 }]);
    await store.replace([{ do: 'pour', liquid: 'acid', volume_mL: 2 }], 0);
    await trial;
    expect(store.preview).toBeUndefined();
    expect(store.plan?.log).toEqual([{ do: 'pour', liquid: 'acid', volume_mL: 2 }]);
  });

  test('plays model time at its speed and stops by itself', async () => {
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.runUntil({ elapsed_min: 1 });
    const { stopAt } = store;
    store.setSpeed(20);
    await store.tick(0.1);
    expect(store.now).toBeCloseTo((0.1 * 20) / 60, 9);
    for (let i = 0; i < 100 && store.playing; i++) await store.tick(0.1);
    expect(store.playing).toBe(false);
    expect(store.now).toBe(stopAt);
  });

  test('reaches the same state however it was played', async () => {
    await store.replace(SCENARIO.procedure, 0);
    store.play();
    for (const elapsed of [0.02, 0.1, 0.25, 0.03, 0.2]) await store.tick(elapsed);
    const { moment, now } = store;
    await store.seek(0);
    await store.seek(now);
    expect(store.moment?.sorbed).toEqual(moment?.sorbed);
  });

  test('counts real time while the model answers, up to a bound', async () => {
    store.play();
    const first = store.tick(0.02);
    await store.tick(0.05);
    await first;
    await store.tick(0.01);
    expect(store.now).toBeCloseTo((0.08 * store.speed) / 60, 9);
  });

  test('works out anew when to stop after an action taken on the way', async () => {
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.runUntil({ liquid_mm: 1 });
    const before = store.stopAt;
    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 2 });
    expect(store.playing).toBe(true);
    expect(store.stopAt).toBeGreaterThan(before + 0.8);
  });

  test('plays to the very millimetre that was asked for, from a standing and a running clock, and on after an action on the way', async () => {
    const low = async (): Promise<number> => {
      for (let i = 0; i < 400 && store.playing; i++) await store.tick(0.1);
      return store.moment?.level_cm ?? Number.NaN;
    };
    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 5 });
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.runUntil({ liquid_mm: 1 });
    expect(await low()).toBeCloseTo(0.1, 9);

    await store.act({ do: 'pour', liquid: 'acid', volume_mL: 5 });
    store.play();
    await store.tick(0.3);
    await store.runUntil({ liquid_mm: 1 });
    await store.tick(0.3);
    await store.act({ do: 'receiver', label: 'cobalt' });
    expect(await low()).toBeCloseTo(0.1, 9);

    await store.actAll([
      { do: 'receiver', label: 'nickel' },
      { do: 'pour', liquid: 'acid', volume_mL: 2 },
    ]);
    store.play();
    await store.act({ do: 'clamp', open_percent: 50 });
    expect(store.stopAt).toBe(Number.POSITIVE_INFINITY);
  });

  test('says what went wrong in the model and stops', async () => {
    const broken = new ColumnStore({ ...directThread(), open: () => Promise.reject(new Error('no memory')) });
    await broken.open(SCENARIO);
    expect(broken.failure).toBe('no memory');
    expect(broken.playing).toBe(false);
  });
});
