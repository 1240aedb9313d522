import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/scenario.ts';
import { applySettings } from '../../../sim/input/settings.ts';

const json = {
  title: 'Settable',
  purpose: 'A scenario whose values are changed from the command line.',
  ions: ['Co', 'Ni'],
  liquids: { acid: { label: '9 M HCl', HCl_M: 9 }, sample: { label: 'leach', HCl_M: 9, ions: { Co: 0.2 } } },
  faults: [{ kind: 'channel' }],
  procedure: [
    { do: 'pour', liquid: 'acid', volume_mL: 5 },
    { do: 'wait', until: { liquid_mm: 1 } },
  ],
};

const issuesOf = (...settings: string[]) => {
  const applied = applySettings(json, settings);
  return applied.ok ? [] : applied.issues;
};

describe('settings', () => {
  test('change what they name and nothing else', () => {
    const before = structuredClone(json);
    const settings = [
      'bed.length_cm=5',
      'liquids.acid.HCl_M=6',
      'seed=3',
      'procedure[0].volume_mL=4.5',
      'procedure[1].until.liquid_mm=2',
      'liquids.sample.ions.Ni=.1',
      'faults[0].severity=1e-1',
    ];
    expect(applySettings(json, settings)).toEqual({
      ok: true,
      json: {
        ...json,
        liquids: { acid: { label: '9 M HCl', HCl_M: 6 }, sample: { label: 'leach', HCl_M: 9, ions: { Co: 0.2, Ni: 0.1 } } },
        faults: [{ kind: 'channel', severity: 0.1 }],
        procedure: [
          { do: 'pour', liquid: 'acid', volume_mL: 4.5 },
          { do: 'wait', until: { liquid_mm: 2 } },
        ],
        bed: { length_cm: 5 },
        seed: 3,
      },
    });
    expect(json).toEqual(before);
  });

  test('on a path that does not exist are refused with the nearest', () => {
    expect(issuesOf('bed.lenght_cm=5', 'liquids.acdi.HCl_M=6', 'seed')).toEqual([
      { path: '--set', expected: 'a path of the scenario, nearest known: bed.length_cm', received: '"bed.lenght_cm"' },
      { path: '--set', expected: 'a path of the scenario, nearest known: liquids.acid.HCl_M', received: '"liquids.acdi.HCl_M"' },
      { path: '--set', expected: 'path=value, such as bed.length_cm=5', received: '"seed"' },
    ]);
  });

  test.each([
    '__proto__.polluted=1',
    'constructor.prototype.polluted=1',
    'liquids.__proto__.HCl_M=1',
    'bed.__proto__.x=1',
    'liquids=5',
    'bed=1',
    '=5',
    'procedure[9].volume_mL=1',
  ])('refuse %s', (setting) => {
    expect(issuesOf(setting)).toHaveLength(1);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  test('of a wrong type or out of range are left to the reader', () => {
    for (const setting of ['bed.length_cm=5,5', 'bed.length_cm=', 'bed.length_cm=true', 'bed.length_cm=1e9', 'bed.length_cm="5"']) {
      const applied = applySettings(json, [setting]);
      const read = readScenario(applied.ok ? applied.json : undefined, 'test');
      expect(read.ok ? [] : read.issues.map(({ path }) => path)).toEqual(['bed.length_cm']);
    }
  });

  test('keep text as text, with or without quotes', () => {
    expect(applySettings(json, ['title=A title = with signs'])).toMatchObject({ json: { title: 'A title = with signs' } });
    expect(applySettings(json, ['title="12"'])).toMatchObject({ json: { title: '12' } });
  });

  test('never throw', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.array(fc.oneof(fc.string(), fc.constant('bed.length_cm=5'), fc.constant('liquids.acid.HCl_M=1'))), (value, settings) => {
        const applied = applySettings(value, settings);
        expect(applied.ok || applied.issues.length > 0).toBe(true);
      }),
      { seed: 31 },
    );
  });
});
