import { describe, expect, test } from 'vitest';
import { FAULT_KINDS } from '../../../sim/terms/fault-kinds.ts';
import { FAULTS, goesWithBed } from '../../../sim/faults/index.ts';
import type { Fault } from '../../../sim/terms/types.ts';
import { emptyTube } from '../../../src/bench/packing/new-bed.ts';
import type { Session } from '../../../src/store/session.ts';
import { imposedOn, imposeFromStart } from '../../../src/faults/imposed/impose.ts';
import { shortSession } from '../faults/rig.ts';

const CHANNEL: Fault = { kind: 'channel', severity: 0.6, side_deg: 90 };
const WEAK: Fault = { kind: 'weak-acid', severity: 0.3 };

/** What a bed packed afresh has delivered after 0.2 min, mL, and what is imposed on it. */
async function packed(session: Session) {
  const refused = await session.store.carryOut([
    { do: 'pack', resin_mL: 3.6, pour: 'once', into: 'liquid', tapped: true },
    { do: 'wait', until: { elapsed_min: 5 } },
    { do: 'clamp', open_percent: 100 },
    { do: 'wait', until: { elapsed_min: 0.2 } },
  ]);
  expect(refused).toBeUndefined();
  await session.store.seek(session.store.plan?.logEnd.time_min ?? 0);
  return { delivered_mL: session.store.moment?.delivered_mL ?? Number.NaN, imposed: imposedOn(session).map(({ fault }) => fault.kind) };
}

describe('emptyTube(...)', () => {
  test('takes off the faults of the former bed and says so; the bed packed afresh runs as one without them', async () => {
    const session = await shortSession();
    await emptyTube(session);
    const sound = await packed(session);
    const other = await shortSession();
    await imposeFromStart(other, CHANNEL);
    await emptyTube(other);
    expect(other.notice).toBe('The former bed is out of the tube, and its fault with it: channel.');
    const { imposed, delivered_mL } = await packed(other);
    expect(imposed).toEqual([]);
    expect(sound.delivered_mL).toBeGreaterThan(0);
    expect(delivered_mL).toBe(sound.delivered_mL);
  });

  test('leaves faults of the bottles, and names them', async () => {
    const session = await shortSession();
    await imposeFromStart(session, WEAK);
    await imposeFromStart(session, CHANNEL);
    await emptyTube(session);
    expect(session.faults).toEqual([WEAK]);
    expect(session.notice).toContain('Still imposed, as not of that bed: weak acid.');
  });

  test('says nothing where the bed had no fault, and leaves hidden faults as they are', async () => {
    const session = await shortSession();
    await emptyTube(session);
    expect(session.notice).not.toContain('former bed');
    const hidden = await shortSession();
    await imposeFromStart(hidden, CHANNEL);
    hidden.mystery = {};
    await emptyTube(hidden);
    expect(hidden.faults).toEqual([CHANNEL]);
    expect(hidden.notice).not.toContain('former bed');
  });
});

test('goesWithBed(...) holds for what the board calls faults of the bed, not for bottles, hands and the resin itself', () => {
  const going = FAULT_KINDS.filter((kind) => goesWithBed({ kind }));
  expect(going).toEqual(['dried-bed', 'channel', 'crater', 'loose-top', 'tilted-bed', 'short-bed', 'fines', 'uneven-packing', 'carry-over']);
  expect(FAULT_KINDS.filter((kind) => FAULTS[kind].group <= 3).every((kind) => goesWithBed({ kind }))).toBe(true);
});
