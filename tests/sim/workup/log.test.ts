import { describe, expect, it } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { readWorkUpLog } from '../../../sim/workup/log.ts';
import { defaultProcedure } from '../../../sim/workup/procedure.ts';

describe('a work-up log as JSON', () => {
  it('reads the usual procedure back', () => {
    const log = defaultProcedure({ volume_mL: 50, HCl_mmol: 30, Co_mmol: 0.5 }, parameterDefaults());
    expect(readWorkUpLog(JSON.parse(JSON.stringify(log)))).toEqual({ ok: true, log });
  });

  it.each([
    ['no list', { do: 'portion' }, 'workup'],
    ['an unknown action', [{ do: 'boil' }], 'workup[0]'],
    ['a negative volume', [{ do: 'portion', mL: -25 }], 'workup[0].mL'],
    ['a volume as text', [{ do: 'make up', to_mL: '100' }], 'workup[0].to_mL'],
    ['an unknown reagent', [{ do: 'add', reagent: 'bleach', dose: { mL: 1 } }], 'workup[0].reagent'],
    ['two doses', [{ do: 'add', reagent: 'NaOH', dose: { mL: 1, drops: 2 } }], 'workup[0].dose.mL'],
    ['no dose', [{ do: 'add', reagent: 'NaOH' }], 'workup[0].dose'],
    ['alkali until pink', [{ do: 'add', reagent: 'NaOH', dose: { until: 'pink' } }], 'workup[0].NaOH.until'],
    ['an inherited name', [{ do: 'constructor' }], 'workup[0]'],
    ['nothing', null, 'workup'],
  ])('is refused: %s', (_, json, path) => {
    const read = readWorkUpLog(json);
    expect(read.ok).toBe(false);
    expect(!read.ok && read.issues.map((issue) => issue.path)).toContain(path);
  });

  it('lists every issue, not only the first', () => {
    const read = readWorkUpLog([
      { do: 'portion', mL: -1 },
      { do: 'swirl', min: 0 },
    ]);
    expect(!read.ok && read.issues).toHaveLength(2);
  });
});
