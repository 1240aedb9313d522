import { describe, expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { imposed } from '../../../sim/faults/imposed.ts';
import { ACTIONS_MAX } from '../../../sim/input/log.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import { act, runOf } from '../../../sim/run/run.ts';
import { FAULT_KINDS } from '../../../sim/terms/fault-kinds.ts';
import { FIELDS, type FieldPath } from '../../../sim/terms/fields.ts';
import type { Action } from '../../../sim/terms/types.ts';
import { caseOf, clamp, pour, until } from '../run/case.ts';

// What faults make of a scenario and a log stays within the limits that hold for any scenario and log.

const wash: Action[] = [
  clamp(100),
  pour('acid', 3),
  until({ liquid_mm: 1 }),
  pour('sample', 0.5),
  pour('acid', 800),
  pour('water', 4),
  { do: 'receiver', label: 'x'.repeat(60) },
];

describe('faults worked in', () => {
  it('leave no parameter outside its range, one by one or all together, from the edge of every range', () => {
    for (const end of ['min', 'max'] as const) {
      const values = Object.fromEntries(Object.entries(FIELDS).map(([path, field]) => [path, field[end]]));
      for (const faults of [...FAULT_KINDS.map((kind) => [{ kind }]), FAULT_KINDS.map((kind) => ({ kind }))]) {
        const made = imposed(caseOf({ ...values, 'bed.plates': 8, 'bed.lanes': 2 }, { faults, procedure: wash }));
        for (const [path, value] of Object.entries(made.values)) {
          const { min, max } = FIELDS[path as FieldPath];
          expect(value >= min && value <= max, `${JSON.stringify(faults)} ${path} ${value}`).toBe(true);
        }
      }
    }
  });

  it('make at most twice the longest log of twenty copies of the fault that doubles it', () => {
    const procedure = Array.from({ length: ACTIONS_MAX }, () => clamp(100));
    const made = imposed(caseOf({}, { faults: Array.from({ length: 20 }, () => ({ kind: 'no-recondition' as const })), procedure }));
    expect(made.procedure.length).toBeLessThanOrEqual(2 * ACTIONS_MAX);
  });

  it('are refused by the reader when one kind is listed twice, with its place', () => {
    const read = readScenario(
      {
        title: 't',
        purpose: 'p',
        ions: ['Co'],
        liquids: { water: { label: 'w', HCl_M: 0 } },
        faults: [{ kind: 'coarse-beads' }, { kind: 'fines' }, { kind: 'coarse-beads' }],
      },
      'twice',
    );
    expect(read).toEqual({ ok: false, issues: [{ path: 'faults[2].kind', expected: 'each kind of fault once', received: 'coarse-beads again' }] });
  });

  it('make only actions that a bench takes: labels and volumes keep their limits', () => {
    const made = imposed(caseOf({}, { faults: FAULT_KINDS.map((kind) => ({ kind })), procedure: wash }));
    for (const action of made.procedure) {
      if (action.do === 'pour') expect(action.volume_mL).toBeLessThanOrEqual(1000);
      if (action.do === 'receiver') expect(action.label.length).toBeLessThanOrEqual(60);
    }
  });
});

describe('a fault of the bed', () => {
  it.each(['channel', 'loose-top', 'tilted-bed', 'fines', 'uneven-packing'] as const)(
    '%s is not imposed twice, but again after the bed was stirred up',
    (kind) => {
      const run = runOf(caseOf({ 'bench.start_head_mm': 60, 'column.tube_cm': 30 }));
      const fault: Action = { do: 'fault', fault: { kind, side_deg: 0 } };
      expect(act(run, fault)?.refused).toBeUndefined();
      expect(act(run, fault)?.refused).toEqual({
        path: 'fault.kind',
        expected: 'each fault of its kind once, until the bed is stirred up',
        received: `${kind} again`,
      });
      expect(act(run, { do: 'stir' })?.refused).toBeUndefined();
      expect(act(run, fault)?.refused).toBeUndefined();
      expect(run.bed.scalar[AT.stirs]).toBe(1);
    },
  );
});
