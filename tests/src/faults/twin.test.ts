import { effect } from '@preact/signals-core';
import { expect, test, vi } from 'vitest';
import type { Plan } from '../../../sim/history/index.ts';
import { AIR_ENTERS } from '../../../sim/run/index.ts';
import type { Action, Scenario } from '../../../sim/terms/types.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { healthyTwin } from '../../../sim/faults/healthy.ts';
import { imposeFromStart, imposeNow } from '../../../src/faults/imposed/impose.ts';
import { patched } from '../../../src/store/keep/difference.ts';
import { Twin } from '../../../src/store/twin.ts';
import { directThread } from '../store/rig.ts';
import { shortSession } from './rig.ts';

async function caughtUp(twin: Twin): Promise<void> {
  await vi.waitUntil(() => twin.moment !== undefined && twin.behind_min === 0, { timeout: 60_000 });
}

test('the twin of a sound run is the run', async () => {
  const session = await shortSession();
  const twin = new Twin(session, directThread);
  await session.store.replace(session.store.scenario?.procedure ?? [], 20);
  twin.start();
  await caughtUp(twin);
  expect(twin.plan?.rows).toEqual(session.store.plan?.rows);
  expect(twin.moment?.sorbed).toEqual(session.store.moment?.sorbed);
  twin.stop();
});

test('the twin of a damaged bed is the same log run on a sound one', async () => {
  const session = await shortSession();
  await imposeFromStart(session, { kind: 'channel', severity: 0.8, side_deg: 0 });
  await session.store.seek(10);
  await imposeNow(session.store, { kind: 'tilted-bed', severity: 0.5, side_deg: 90 });
  const twin = new Twin(session, directThread);
  twin.start();
  await caughtUp(twin);
  const sound = session.written;
  if (!sound) throw new Error('scenario: expected one that can be read');
  const alone = resultsOf(runWhole({ ...sound, faults: [] }, sound.procedure));
  expect(twin.plan?.results.receivers).toEqual(alone.receivers);
  expect(twin.plan?.results.receivers).not.toEqual(session.store.plan?.results.receivers);
  expect(twin.moment?.time_min).not.toBeCloseTo(session.store.moment?.time_min ?? 0, 2);
  // Within a frame of 0.1 mL.
  expect(Math.abs((twin.moment?.delivered_mL ?? 0) - (session.store.moment?.delivered_mL ?? 0))).toBeLessThan(0.1);
  // A class that reads two figures for one moment asks why; a twin that stands elsewhere keeps its own.
  expect(twin.delivered_mL).toBe(session.store.moment?.delivered_mL);
  twin.stop();
  await session.store.seek(1);
  expect(twin.delivered_mL).toBe(twin.moment?.delivered_mL);
});

test('the twin of a run in which nobody poured for an hour is poured onto in time, and so is sound', async () => {
  const session = await shortSession();
  const written = session.store.scenario?.procedure ?? [];
  // The longest wash is late.
  const wash = written.findIndex((action) => action.do === 'pour' && action.liquid === 'acid' && action.volume_mL > 4);
  const log = written.flatMap((action, i): Action[] => (i === wash + 2 ? [{ do: 'wait', until: { elapsed_min: 60 } }, action] : [action]));
  await session.store.replace(log, 5);
  const twin = new Twin(session, directThread);
  twin.start();
  await caughtUp(twin);
  const dried = (plan: Plan | undefined) => plan?.events.filter(({ note }) => note?.startsWith(AIR_ENTERS)).length;
  expect(dried(session.store.plan)).toBe(1);
  expect(dried(twin.plan)).toBe(0);
  const alone = resultsOf(runWhole(session.store.scenario as Scenario, written));
  expect(twin.plan?.results.receivers.at(-1)?.['Co_mmol']).toBeCloseTo(Number(alone.receivers.at(-1)?.['Co_mmol']), 5);
  expect(twin.plan?.results.time_min).toBeCloseTo(alone.time_min, 0);
  twin.stop();
});

test('the twin follows the run to another moment, and rests when it is stopped', async () => {
  const session = await shortSession();
  await session.store.replace(session.store.scenario?.procedure ?? [], 5);
  const twin = new Twin(session, directThread);
  twin.start();
  await caughtUp(twin);
  await session.store.seek(15);
  await caughtUp(twin);
  expect(twin.moment?.time_min).toBeCloseTo(session.store.moment?.time_min ?? 0, 9);
  twin.stop();
  await session.store.seek(8);
  expect(twin.moment?.time_min).toBeGreaterThan(14);
});

test('the twin follows a run whose severity was changed to the volume that it has now', async () => {
  const session = await shortSession();
  await session.store.replace(session.store.scenario?.procedure ?? [], 0);
  await imposeFromStart(session, { kind: 'channel', severity: 1, side_deg: 90 });
  await session.store.seek(12);
  const twin = new Twin(session, directThread);
  twin.start();
  await caughtUp(twin);
  const before = session.store.moment?.delivered_mL ?? 0;
  expect(Math.abs((twin.moment?.delivered_mL ?? 0) - before)).toBeLessThan(0.1);
  const apart_mL: (number | undefined)[] = [];
  const unwatch = effect(() => {
    const { seen } = twin;
    apart_mL.push(seen && Math.abs(seen.moment.delivered_mL - (session.store.moment?.delivered_mL ?? Number.NaN)));
  });
  await imposeFromStart(session, { kind: 'channel', severity: 0.1, side_deg: 90 });
  const now = session.store.moment?.delivered_mL ?? 0;
  expect(Math.abs(now - before)).toBeGreaterThan(2);
  await vi.waitUntil(() => twin.seen !== undefined, { timeout: 60_000 });
  unwatch();
  expect(Math.abs((twin.seen?.moment.delivered_mL ?? 0) - now)).toBeLessThan(0.1);
  // Until the model had answered nothing was shown beside the run, and never another volume.
  expect(apart_mL).toContain(undefined);
  expect(apart_mL.filter((mL) => mL !== undefined && !(mL < 0.1))).toEqual([]);
  twin.stop();
});

test('a twin of another run is not shown beside this one, neither while its own is computed nor when it was stopped before', async () => {
  const session = await shortSession();
  await session.store.replace(session.store.scenario?.procedure ?? [], 5);
  const twin = new Twin(session, directThread);
  twin.start();
  await caughtUp(twin);
  expect(twin.ran?.plan).toBe(twin.plan);
  twin.stop();
  // The same run, looked at again: what is known of its twin is still true.
  expect(twin.seen?.moment).toBe(twin.moment);
  await session.change(patched(session.json, { bed: { length_cm: 5 } }), session.store.log, 5);
  expect([twin.ran, twin.seen]).toEqual([undefined, undefined]);
  twin.start();
  expect([twin.ran, twin.seen]).toEqual([undefined, undefined]);
  await vi.waitUntil(() => twin.seen !== undefined, { timeout: 60_000 });
  expect(twin.seen?.scenario.values['bed.length_cm']).toBe(session.store.scenario?.values['bed.length_cm']);
  twin.stop();
});

test('healthyTwin(...) gives careless hands the careful procedure, and keeps a log of one’s own', async () => {
  const session = await shortSession();
  await imposeFromStart(session, { kind: 'receiver-late', severity: 0.5 });
  const written = session.written;
  if (!written) throw new Error('scenario: expected one that can be read');
  expect(healthyTwin(written, session.store.log).log).toEqual(written.procedure);
  const own = [
    { do: 'clamp', open_percent: 50 },
    { do: 'fault', fault: { kind: 'channel' } },
  ] as const;
  expect(healthyTwin(written, own).log).toEqual([own[0]]);
});
