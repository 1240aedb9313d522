import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ACTIONS_MAX, parseLog, readLog } from '../../../sim/input/log.ts';
import { FAULT_KINDS } from '../../../sim/terms/fault-kinds.ts';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import type { IonId, Issue } from '../../../sim/terms/types.ts';

const bench = {
  ions: ['Co', 'Ni'] as IonId[],
  liquids: { acid: { label: '9 M HCl', HCl_M: 9, ions: {} }, water: { label: 'water', HCl_M: 0, ions: {} } },
  values: parameterDefaults(),
};
const pour = { do: 'pour', liquid: 'acid', volume_mL: 5 };

const issuesOf = (json: unknown): readonly Issue[] => {
  const read = readLog(json, bench);
  return read.ok ? [] : read.issues;
};
const pathsOf = (json: unknown): string[] => issuesOf(json).map(({ path }) => path);

describe('log reader', () => {
  test('keeps a log of every kind of action as it is', () => {
    const log = [
      { do: 'receiver', label: 'first', at_min: 0 },
      { ...pour, how: 'wall', hold_level: true, at_min: 1 },
      { do: 'clamp', open_percent: 100 },
      ...[{ time_min: 5 }, { elapsed_min: 2 }, { delivered_mL: 3 }, { more_mL: 1.5 }, { liquid_mm: 1 }, { ion: 'Co', edge: 'leading', depth_cm: 6 }].map(
        (until) => ({ do: 'wait', until }),
      ),
      { do: 'stir', at_mL: 9 },
      ...FAULT_KINDS.map((kind) => ({ do: 'fault', fault: { kind, severity: 0.5, side_deg: 90, depth_share: 1 } })),
    ];
    expect(readLog(log, bench)).toEqual({ ok: true, log });
  });

  test.each([-5, 0, Number.NaN, Number.POSITIVE_INFINITY, 1e6, '5', null, undefined])('refuses %s mL', (volume_mL) => {
    expect(issuesOf([{ ...pour, volume_mL }])).toMatchObject([{ path: 'log[0].volume_mL', expected: 'number above 0 and up to 1000 mL' }]);
  });

  test('names the nearest liquid for one that is not on the bench', () => {
    expect(issuesOf([{ ...pour, liquid: 'watre' }])).toEqual([
      { path: 'log[0].liquid', expected: 'a liquid of the scenario, nearest known: water', received: '"watre"' },
    ]);
  });

  test('names the nearest action', () => {
    expect(issuesOf([{ do: 'clmap', open_percent: 5 }])).toEqual([{ path: 'log[0].do', expected: 'an action, nearest known: clamp', received: '"clmap"' }]);
  });

  test('refuses times and volumes that run backwards, by any of the ways to give them', () => {
    expect(
      issuesOf([
        { ...pour, at_min: 10 },
        { ...pour, at_min: 9.5 },
      ]),
    ).toEqual([{ path: 'log[1].at_min', expected: 'at least 10 min, reached by an earlier action', received: '9.5 min' }]);
    expect(
      pathsOf([
        { ...pour, at_min: 10 },
        { do: 'wait', until: { time_min: 9 } },
      ]),
    ).toEqual(['log[1].until.time_min']);
    expect(
      pathsOf([
        { do: 'wait', until: { delivered_mL: 9 } },
        { ...pour, at_mL: 8 },
      ]),
    ).toEqual(['log[1].at_mL']);
    expect(
      pathsOf([
        { ...pour, at_min: 10 },
        { ...pour, at_min: 10 },
        { ...pour, at_mL: 1 },
      ]),
    ).toEqual([]);
  });

  test('refuses an action with two times, or a wait with none or two ends', () => {
    expect(pathsOf([{ ...pour, at_min: 1, at_mL: 1 }])).toEqual(['log[0]']);
    expect(pathsOf([{ do: 'wait', until: {} }])).toEqual(['log[0].until']);
    expect(pathsOf([{ do: 'wait', until: { more_mL: 1, liquid_mm: 1 } }])).toEqual(['log[0].until']);
    expect(pathsOf([{ do: 'wait', until: { more_ml: 1 } }])).toEqual(['log[0].until']);
    expect(pathsOf([{ do: 'wait', until: { ion: 'Co', depth_cm: 1 } }])).toEqual(['log[0].until.edge']);
  });

  test('refuses a wait for an ion that the scenario lacks, or below its bed', () => {
    expect(pathsOf([{ do: 'pour', liquid: 'acid', volume_mL: 1, unless: { ion: 'Zn', above_bottom_mm: 5 } }])).toEqual(['log[0].unless.ion']);
    expect(pathsOf([{ do: 'pour', liquid: 'acid', volume_mL: 1, unless: { ion: 'Co' } }])).toEqual(['log[0].unless.above_bottom_mm']);
    expect(pathsOf([{ do: 'wait', until: { liquid_mm: 1 }, unless: { ion: 'Co', above_bottom_mm: 5 } }])).toEqual(['log[0].unless']);
    expect(issuesOf([{ do: 'pour', liquid: 'acid', volume_mL: 1, unless: { ion: 'Co', above_bottom_mm: 71 } }])).toEqual([
      { path: 'log[0].unless.above_bottom_mm', expected: 'at most bed.length_cm (7 cm)', received: '71 mm' },
    ]);
    expect(issuesOf([{ do: 'pour', liquid: 'acid', volume_mL: 1, unless: { ion: 'Co', above_bottom_mm: 70 } }])).toEqual([]);
    expect(pathsOf([{ do: 'wait', until: { ion: 'Zn', edge: 'leading', depth_cm: 1 } }])).toEqual(['log[0].until.ion']);
    expect(issuesOf([{ do: 'wait', until: { ion: 'Co', edge: 'leading', depth_cm: 7.5 } }])).toEqual([
      { path: 'log[0].until.depth_cm', expected: 'at most bed.length_cm (7 cm)', received: '7.5 cm' },
    ]);
  });

  test('lists the issues of all actions, also beside each other', () => {
    expect(
      pathsOf([{ ...pour, volume_mL: -1, liquid: 'acdi', speed: 3 }, { do: 'clamp', open_percent: 101 }, 5, { do: 'receiver', label: '' }]).sort(),
    ).toEqual(['log[0].liquid', 'log[0].speed', 'log[0].volume_mL', 'log[1].open_percent', 'log[2]', 'log[3].label'].sort());
  });

  test(`takes ${ACTIONS_MAX} actions and no more`, () => {
    expect(readLog(Array(ACTIONS_MAX).fill(pour), bench).ok).toBe(true);
    expect(pathsOf(Array(ACTIONS_MAX + 1).fill(pour))).toEqual(['log']);
  });

  test('reads text, and says where it is not JSON', () => {
    expect(parseLog(JSON.stringify([pour]), bench)).toEqual({ ok: true, log: [pour] });
    expect(parseLog('[{]', bench)).toMatchObject({ ok: false, issues: [{ path: 'log, line 1, column 3' }] });
  });

  test('never throws, and every issue has path, expected and received, for anything', () => {
    const action = fc.record(
      {
        do: fc.constantFrom('pour', 'clamp', 'wait', 'receiver', 'stir', 'fault', 'x'),
        until: fc.jsonValue(),
        fault: fc.jsonValue(),
        liquid: fc.jsonValue(),
        at_min: fc.jsonValue(),
        volume_mL: fc.double(),
        label: fc.string(),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(fc.oneof(fc.anything(), fc.array(action)), (json) => {
        for (const issue of issuesOf(json)) for (const part of [issue.path, issue.expected, issue.received]) expect(part).toMatch(/\S/);
      }),
      { seed: 21, numRuns: 2000 },
    );
  });
});
