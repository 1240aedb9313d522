import { describe, expect, test } from 'vitest';
import { checklistOf, offerFor, type Role } from '../../../sim/teach/index.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { ColumnStore } from '../../../src/store/column-store.ts';
import { isOver } from '../../../src/store/over.ts';
import { directThread, small } from './rig.ts';

const SCENARIO = small();
const SHUT: Action = { do: 'clamp', open_percent: 0 };
const { procedure } = SCENARIO;
const FIRST_WATER = procedure.findIndex((action) => action.do === 'pour' && action.liquid === 'water');
const CHANGE = procedure.findLastIndex(({ do: kind }) => kind === 'receiver');

/** The store at the end of a log. */
async function at(log: Log): Promise<ColumnStore> {
  const store = new ColumnStore(directThread());
  await store.open(SCENARIO, log);
  await store.seek(store.plan?.logEnd.time_min ?? 0);
  return store;
}

function offered({ moment }: ColumnStore, role: Role): Log | undefined {
  const step = moment && checklistOf(SCENARIO, moment.events).find((one) => one.role === role);
  return step && moment && offerFor(SCENARIO, moment, step)?.actions;
}

describe('a run', () => {
  test('that has its whole procedure behind it is over with the clamp shut, and not before', async () => {
    expect(isOver(await at(procedure))).toBe(true);
    expect(isOver(await at(procedure.slice(0, -1)))).toBe(false);
  });

  test.each([
    ['the sample is washed', FIRST_WATER],
    ['the first water has run', CHANGE],
    ['the receiver is under the tip', CHANGE + 1],
    ['the water poured first is all in', CHANGE + 2],
  ])('goes on after the clamp was shut to think when %s, and ends where that is pressed', async (_, entries) => {
    const store = await at([...procedure.slice(0, entries), SHUT]);
    expect(isOver(store)).toBe(false);
    await store.act({ do: 'clamp', open_percent: 100 });
    await store.act(SHUT);
    expect(isOver(store)).toBe(false);
    await store.actAll(offered(store, 'stop') ?? []);
    expect(isOver(store)).toBe(true);
    expect(checklistOf(SCENARIO, store.moment?.events ?? [], true).at(-1)?.state).toBe('done');
    await store.undo();
    expect(isOver(store)).toBe(false);
  });

  test('ends by the press of the list that says so, with the receiver still to be changed', async () => {
    const store = await at(procedure.slice(0, CHANGE));
    await store.actAll(offered(store, 'stop') ?? []);
    expect(isOver(store)).toBe(true);
  });

  test('is over by a shut clamp where nothing is left to release, though no receiver was changed', async () => {
    expect(isOver(await at(procedure.filter((_, i) => i !== CHANGE)))).toBe(true);
  });

  test('cannot be ended before the sample is in', async () => {
    const store = await at([...procedure.slice(0, 5), SHUT]);
    expect(isOver(store)).toBe(false);
    expect(offered(store, 'stop')).toBeUndefined();
  });
});
