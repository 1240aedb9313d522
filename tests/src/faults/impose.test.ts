import { drawn } from '../../../sim/column/drawn.ts';
import { describe, expect, test } from 'vitest';
import { canComeNow, imposedOn, imposeFromStart, imposeNow, takeAllAway, takeAtOnce, takeAway } from '../../../src/faults/imposed/impose.ts';
import { shortSession } from './rig.ts';

describe('imposeFromStart(...)', () => {
  test('lists the fault in the scenario and keeps the procedure as the log', async () => {
    const session = await shortSession();
    expect(await imposeFromStart(session, { kind: 'tilted-bed', severity: 0.5, side_deg: 90 })).toBe(true);
    expect(session.faults).toEqual([{ kind: 'tilted-bed', severity: 0.5, side_deg: 90 }]);
    expect(session.store.log).toEqual(session.store.scenario?.procedure);
    expect(imposedOn(session).map(({ fault, from }) => [fault.kind, from])).toEqual([['tilted-bed', 'start']]);
  });

  test('changes the log for careless hands, and taking it away gives the careful log back', async () => {
    const session = await shortSession();
    const careful = session.store.scenario?.procedure ?? [];
    const water = (): number => session.store.log.reduce((sum, action) => sum + (action.do === 'pour' && action.liquid === 'water' ? action.volume_mL : 0), 0);
    await imposeFromStart(session, { kind: 'stopped-early', severity: 0.5 });
    // The scenario pours 5 times 6 mL of water; half of it is left out.
    expect(water()).toBeCloseTo(15, 9);
    const [one] = imposedOn(session);
    if (one) await takeAway(session, one);
    expect(session.store.log).toEqual(careful);
    expect(water()).toBeCloseTo(30, 9);
  });

  test('changes the receiver late on a lab day, whose pours may be left out', async () => {
    const session = await shortSession('lab-day');
    const third = (): number => Number(session.store.plan?.results.receivers.find(({ label }) => label === 'cobalt 3')?.Co_mmol);
    await session.store.replace(session.store.scenario?.procedure ?? [], 1);
    const careful = third();
    await imposeFromStart(session, { kind: 'receiver-late', severity: 1 });
    expect(third()).toBeLessThan(0.7 * careful);
  });

  test('shows the bed that is there: half the length has half the plates', async () => {
    const session = await shortSession();
    await imposeFromStart(session, { kind: 'short-bed', severity: 1 });
    const whole = session.written ? drawn(session.written).values['bed.length_cm'] : Number.NaN;
    expect(session.store.scenario?.values['bed.length_cm']).toBeCloseTo(whole / 2, 9);
    expect(session.store.plan?.plates).toBe(10);
  });

  test('is refused with the path of what is wrong, and changes nothing', async () => {
    const session = await shortSession();
    expect(await imposeFromStart(session, { kind: 'channel', severity: 2 })).toBe(false);
    expect(session.issues.map(({ path }) => path)).toEqual(['faults[0].severity']);
    expect(session.faults).toEqual([]);
  });
});

describe('imposeNow(...)', () => {
  test('leaves what the run still has ahead, and the past as it was', async () => {
    const session = await shortSession();
    const { store } = session;
    await store.replace(store.scenario?.procedure ?? [], 12);
    const before = store.moment;
    const actions = store.log.length;
    await imposeNow(store, { kind: 'channel', severity: 0.8, side_deg: 0 });
    expect(store.log.length).toBe(actions + 1);
    expect(store.moment?.delivered_mL).toBeCloseTo(before?.delivered_mL ?? 0, 9);
    // At the end of the step that reaches 12 min; a step lasts 0.1 min at most.
    expect(Math.abs((imposedOn(session)[0]?.time_min ?? 0) - 12)).toBeLessThan(0.11);
    await takeAllAway(session);
    expect(imposedOn(session)).toEqual([]);
    expect(store.log).toEqual(store.scenario?.procedure);
  });

  test('is not offered for what is wrong from the start', () => {
    expect(canComeNow({ kind: 'channel' })).toBe(true);
    expect(canComeNow({ kind: 'carry-over' })).toBe(false);
    expect(canComeNow({ kind: 'weak-acid' })).toBe(false);
  });
});

test('takeAtOnce(...) takes back everything when one action is refused', async () => {
  const { store } = await shortSession();
  await store.replace(store.scenario?.procedure ?? [], 12);
  const { log } = store;
  // A sound bed has no hollow to fill.
  const refused = await takeAtOnce(store, [
    { do: 'clamp', open_percent: 0 },
    { do: 'top-up', resin_mL: 0.5 },
  ]);
  expect(refused?.path).toBe('do');
  expect(store.log).toEqual(log);
});
