import { describe, expect, test } from 'vitest';
import { AT, checkpoint, RECEIVERS_MAX } from '../../../sim/column/bed.ts';
import { dropOf, fingeringVelocity } from '../../../sim/flow/index.ts';
import { act, advance, type Run, runOf } from '../../../sim/run/run.ts';
import type { Action } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { caseOf, clamp, pour, until } from './case.ts';

// What each action does to the bench, and who may act when.

const EXACT = { 'bench.hand': 0 } as const;
const pack: Action = { do: 'pack', resin_mL: 1 };
const receiver = (label: string): Action => ({ do: 'receiver', label });

/** Where an action is refused; undefined if it is done. */
function refusal(run: Run, action: Action): string | undefined {
  return act(run, action)?.refused?.path;
}

function notesOf(run: Run): string[] {
  return run.events.flatMap(({ note }) => note ?? []);
}

describe('an empty tube', () => {
  const empty = (): Run => runOf(caseOf({ 'bench.packed': 0 }), []);

  test.each<[Action]>([
    [clamp(50)],
    [pour('acid', 1)],
    [pour('acid', 1, { hold_level: true })],
    [{ do: 'stir' }],
    [{ do: 'top-up', resin_mL: 1 }],
    [{ do: 'spill', share: 0.5 }],
    [{ do: 'refill-from-below', liquid: 'acid', volume_mL: 1 }],
    [{ do: 'fault', fault: { kind: 'crater' } }],
  ])('needs resin before %j', (action) => {
    const run = empty();
    expect(act(run, action)?.refused).toEqual({ path: 'do', expected: 'resin in the tube first (pack)', received: 'an empty tube' });
    expect(run.bed.scalar[AT.clampOpen]).toBe(0);
  });

  test('takes a vessel below, a clamp that is shut, and resin; after that everything', () => {
    const run = empty();
    for (const action of [receiver('a'), clamp(0), pack, clamp(50), pour('acid', 1)]) expect(refusal(run, action), JSON.stringify(action)).toBeUndefined();
    expect(notesOf(run)[0]).toMatch(/^resin settles in \d+\.\d min: \d+\.\d cm of bed under \d+\.\d cm of liquid$/);
  });

  test('takes resin until the first liquid, and none where a bed was packed beforehand', () => {
    const run = empty();
    expect(refusal(run, pack)).toBeUndefined();
    expect(refusal(run, pack)).toBeUndefined();
    // A pour that was refused is none.
    expect(refusal(run, pour('acid', 1000))).toBe('volume_mL');
    expect(refusal(run, pack)).toBeUndefined();
    expect(refusal(run, pour('acid', 1))).toBeUndefined();
    expect(act(run, pack)?.refused?.received).toBe('a bed in use');
    expect(act(runOf(caseOf(), []), pack)?.refused?.received).toBe('a bed packed beforehand');
  });

  test('stays loose on top where liquid comes before the resin has settled, and not after', () => {
    const early = empty();
    act(early, pack);
    const settled_min = early.bed.scalar[AT.settledAt];
    advance(early, { time_min: settled_min / 2 });
    const left_min = settled_min - early.bed.scalar[AT.time];
    act(early, pour('acid', 1));
    expect(early.bed.scalar[AT.looseTop]).toBe(1);
    expect(early.bed.scalar[AT.settledAt]).toBe(0);
    expect(notesOf(early).at(-1)).toBe(`resin was still settling, ${left_min.toFixed(1)} min to go: the top 1 cm of the bed stays loose`);
    expect(left_min).toBeLessThan(0.9 * settled_min);
    const late = empty();
    act(late, pack);
    advance(late, { time_min: late.bed.scalar[AT.settledAt] });
    act(late, pour('acid', 1));
    expect(late.bed.scalar[AT.looseTop]).toBe(0);
  });
});

describe('a tube with more liquid than it holds, such as after a bed has swollen', () => {
  test.each<[Action]>([[clamp(50)], [receiver('b')], [{ do: 'spill', share: 0.5 }]])('does not forbid what moves nothing in it: %j', (action) => {
    const run = runOf(caseOf(), []);
    run.bed.scalar[AT.headVolume] = run.column.headMax + 1;
    run.bed.receivers[0] = 1;
    expect(refusal(run, action)).toBeUndefined();
  });
});

describe('a pour', () => {
  test('adds its volume and amounts, and is refused from the rim on', () => {
    const run = runOf(caseOf(EXACT), []);
    const { bed, column } = run;
    const [volume, acid] = [bed.scalar[AT.headVolume], bed.head[0]];
    const poured = bed.pouredAmount[0];
    act(run, pour('sample', 2));
    closeTo('volume', bed.scalar[AT.headVolume], volume + 2, { absolute: 1e-12 }, 'mL');
    expect(bed.scalar[AT.poured]).toBe(2);
    closeTo('acid', bed.head[0], acid + 18, { absolute: 1e-12 }, 'mmol');
    closeTo('acid poured', bed.pouredAmount[0], poured + 18, { absolute: 1e-12 }, 'mmol');
    closeTo('cobalt', bed.head[1], 0.2, { absolute: 1e-12 }, 'mmol');
    const room = column.headMax - bed.scalar[AT.headVolume];
    expect(refusal(run, pour('acid', room + 1e-6))).toBe('volume_mL');
    expect(refusal(run, pour('acid', room))).toBeUndefined();
  });

  test('of an aliquot has the error of a hand, another each time; eluents are poured as they are read', () => {
    const run = runOf(caseOf({ 'bench.hand': 1 }), []);
    const added = (action: Action): number => {
      const before = run.bed.scalar[AT.poured];
      act(run, action);
      return run.bed.scalar[AT.poured] - before;
    };
    expect(added(pour('acid', 1))).toBe(1);
    const first = added(pour('sample', 1));
    expect(added(pour('sample', 1000))).toBe(0);
    const second = added(pour('sample', 1));
    expect(first).not.toBe(1);
    expect(second).not.toBeCloseTo(first, 6);
    // Class A, 1 mL: 0.006 mL, and the hand beside it.
    for (const volume of [first, second]) closeTo('aliquot', volume, 1, { absolute: 0.03 }, 'mL');
    // Neither acid nor what was refused counts as a load: the same hand, the same loads.
    const other = runOf(caseOf({ 'bench.hand': 1 }), []);
    act(other, pour('sample', 1));
    act(other, pour('sample', 1));
    closeTo('both loads', other.bed.scalar[AT.poured], first + second, { absolute: 1e-12 }, 'mL');
  });

  test('of open acid has lost what fumed away; weak acid keeps what it has', () => {
    const run = runOf(caseOf({ 'bench.fuming_per_h': 1, 'bench.start_head_mm': 0 }), []);
    advance(run, { time_min: 60 });
    const time = run.bed.scalar[AT.time];
    act(run, pour('acid', 1));
    closeTo('acid', run.bed.head[0], 6.1 + (9 - 6.1) * Math.exp(-time / 60), { relative: 0.01 }, 'mol/L');
  });

  test.each([
    [6, true],
    [6.001, false],
    [12, false],
  ])('of acid of %d mol/L on a bed in 9 mol/L says how its front runs only where it is weaker by 3 mol/L: %s', (HCl_M, says) => {
    const liquids = { acid: { label: 'acid', HCl_M, ions: {} } };
    const run = runOf(caseOf({ 'bench.start_HCl_M': 9 }, { liquids }), []);
    act(run, pour('acid', 1));
    expect(notesOf(run).some((text) => text.startsWith('a weaker liquid runs into acid in fingers above'))).toBe(says);
  });

  test('says that water fingers above the speed at which its front stops being level, and stays level below', () => {
    for (const open of [100, 5]) {
      const run = runOf(caseOf({ 'bench.start_HCl_M': 9 }), []);
      act(run, clamp(open));
      act(run, pour('water', 1));
      const [, critical, speed, fate] = /above ([\d.]+) cm\/min; the bed runs at ([\d.]+): (.*)/.exec(notesOf(run)[0]) ?? [];
      closeTo('critical', Number(critical), fingeringVelocity(run.column, 9, 0), { absolute: 0.005 }, 'cm/min');
      expect(fate).toBe(Number(speed) > Number(critical) ? 'it fingers, and easy lanes run ahead' : 'its front stays level');
    }
  });

  test('onto the middle of a bare bed digs a crater; along the wall, softly, or under liquid it does not', () => {
    const struck = (values: Parameters<typeof caseOf>[0], volume: number, how: 'wall' | 'bed'): number => {
      const run = runOf(caseOf({ 'bench.start_head_mm': 0, ...values }), []);
      act(run, pour('water', volume, { how }));
      return run.bed.scalar[AT.strikes];
    };
    expect(struck({}, 3, 'bed')).toBe(1);
    expect(struck({}, 3, 'wall')).toBe(0);
    expect(struck({}, 0.05, 'bed')).toBe(0);
    expect(struck({ 'bench.start_head_mm': 40 }, 3, 'bed')).toBe(0);
  });
});

describe('a reservoir', () => {
  test('first brings the liquid to a centimetre, and keeps the rest', () => {
    const run = runOf(caseOf({ ...EXACT, 'bench.start_head_mm': 0 }), []);
    const { scalar } = run.bed;
    act(run, pour('acid', 4, { hold_level: true }));
    closeTo('level', scalar[AT.headVolume], run.column.section, { absolute: 1e-9 }, 'mL');
    closeTo('reservoir', scalar[AT.feedVolume], 4 - run.column.section, { absolute: 1e-9 }, 'mL');
    expect(run.liquids[scalar[AT.feedLiquid]]).toBe('acid');
  });

  test('of less than that is used up by it; above more it is only kept', () => {
    const little = runOf(caseOf({ 'bench.start_head_mm': 0 }), []);
    act(little, pour('acid', 0.1, { hold_level: true }));
    expect(little.bed.scalar[AT.feedLiquid]).toBe(-1);
    closeTo('level', little.bed.scalar[AT.headVolume], 0.1, { absolute: 1e-12 }, 'mL');
    const high = runOf(caseOf({ 'bench.start_head_mm': 30 }), []);
    const before = high.bed.scalar[AT.headVolume];
    act(high, pour('acid', 2, { hold_level: true }));
    expect(high.bed.scalar[AT.headVolume]).toBe(before);
    expect(high.bed.scalar[AT.feedVolume]).toBe(2);
  });

  test('is one at a time', () => {
    const run = runOf(caseOf(), []);
    act(run, pour('acid', 4, { hold_level: true }));
    expect(refusal(run, pour('water', 4, { hold_level: true }))).toBe('hold_level');
    expect(refusal(run, pour('water', 1))).toBeUndefined();
  });
});

describe('a vessel under the tip', () => {
  const open = (values: Parameters<typeof caseOf>[0] = {}): Run => runOf(caseOf(values), [clamp(100), pour('water', 3), until({ more_mL: 1 })]);
  const begun = (values: Parameters<typeof caseOf>[0] = {}): Run => {
    const run = open(values);
    advance(run, { endOfLog: true });
    return run;
  };

  test('that is named before anything drips is the first one; a later name is another, an old name the old one', () => {
    const run = open();
    run.log.length = 0;
    act(run, receiver('first'));
    expect([run.bed.scalar[AT.receiver], run.bed.scalar[AT.receivers]]).toEqual([0, 1]);
    const later = begun();
    for (const [label, slot, count] of [
      ['b', 1, 2],
      ['c', 2, 3],
      ['b', 1, 3],
      ['beaker', 0, 3],
    ] as const) {
      act(later, receiver(label));
      expect([later.bed.scalar[AT.receiver], later.bed.scalar[AT.receivers]], label).toEqual([slot, count]);
    }
  });

  test('takes the drop that hangs at the tip, with what stands at the end of it: the old one loses as much', () => {
    const run = begun({ 'bench.start_HCl_M': 3 });
    const { receivers, components, tip, stages } = run.bed;
    const [volume, acid] = receivers;
    act(run, receiver('b'));
    const at = components + 1;
    expect(receivers[at]).toBeGreaterThan(0);
    // A drop of some 0.05 mL at most.
    expect(receivers[at]).toBeLessThan(0.1);
    closeTo('volume', receivers[0] + receivers[at], volume, { absolute: 1e-15 }, 'mL');
    closeTo('acid', receivers[1] + receivers[at + 1], acid, { absolute: 1e-15 }, 'mmol');
    closeTo('acid of the drop', receivers[at + 1] / receivers[at], tip[stages - 1], { relative: 1e-12 }, 'mol/L');
  });

  test('takes a smaller drop of strong acid than of water: their sizes are those of the liquid at the end of the tip', () => {
    const [ofAcid, ofWater] = [9, 0].map((start_M) => {
      const run = begun({ 'bench.start_HCl_M': start_M });
      act(run, receiver('b'));
      const { receivers, components, tip, stages } = run.bed;
      return { taken: receivers[components + 1], drop: dropOf(run.scenario.values, tip[stages - 1]) };
    });
    closeTo('ratio', ofAcid.taken / ofWater.taken, ofAcid.drop / ofWater.drop, { relative: 1e-12 }, '');
    expect(ofAcid.drop).toBeLessThan(0.95 * ofWater.drop);
  });

  test('takes nothing when it is there already, and each change has its own drop', () => {
    const run = begun();
    act(run, receiver('b'));
    const { receivers, components } = run.bed;
    const first = receivers[components + 1];
    act(run, receiver('b'));
    expect(receivers[components + 1]).toBe(first);
    act(run, receiver('c'));
    act(run, receiver('beaker'));
    act(run, receiver('c'));
    expect(receivers[2 * (components + 1)]).not.toBe(first);
  });

  test(`can be one of ${RECEIVERS_MAX}, and no more`, () => {
    const run = begun();
    for (let n = 1; n < RECEIVERS_MAX; n++) expect(refusal(run, receiver(`r${n}`))).toBeUndefined();
    expect(refusal(run, receiver('one more'))).toBe('label');
    expect(refusal(run, receiver('r1'))).toBeUndefined();
  });
});

test('the clamp is open by the stated share', () => {
  const run = runOf(caseOf(), []);
  act(run, clamp(30));
  expect(run.bed.scalar[AT.clampOpen]).toBe(0.3);
});

describe('what is poured', () => {
  test('is taken with a pipette where it holds a metal, and as it is read where it names one and holds none', () => {
    const liquids = { ...caseOf().liquids, blank: { label: 'blank', HCl_M: 9, ions: { Co: 0 } } };
    const put = (liquid: string): number => {
      const run = runOf(caseOf({ 'bench.hand': 1, 'bench.start_head_mm': 0 }, { liquids }), []);
      act(run, pour(liquid, 1));
      return run.bed.scalar[AT.headVolume];
    };
    closeTo('blank', put('blank'), 1, { absolute: 1e-12 }, 'mL');
    expect(Math.abs(put('sample') - 1)).toBeGreaterThan(1e-6);
  });
});

describe('an action that moves the bed', () => {
  test('and is refused leaves every number as it was', () => {
    // Gas drives liquid out of the bed, and the tube above it is nearly full.
    const run = runOf(caseOf({ 'column.tube_cm': 8.05, 'bench.start_head_mm': 10 }), []);
    const before = checkpoint(run.bed);
    const drying: Action = { do: 'fault', fault: { kind: 'dried-bed', severity: 1 } };
    expect(act(run, drying)?.refused?.expected).toBe('room above the bed for the liquid that is driven out of it');
    expect(checkpoint(run.bed)).toEqual(before);
  });
});

describe('a bed that holds its liquid', () => {
  test('says once that nothing flows any more, and why', () => {
    const fine = caseOf({ 'bed.bead_um': 60, 'bed.length_cm': 3, 'column.outlet_cm': 0, 'bed.lanes': 1 });
    const run = runOf(fine, [clamp(100), until({ elapsed_min: 120 })]);
    advance(run, { endOfLog: true });
    expect(run.bed.scalar[AT.headVolume]).toBe(0);
    expect(notesOf(run).filter((note) => note.includes('and the beads hold it'))).toHaveLength(1);
  });
});
