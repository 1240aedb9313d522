import { expect, test } from 'vitest';
import { offerWords } from '../../../src/bench/task/step-words.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { small } from '../store/rig.ts';

const scenario = small();

test('the label of one press tells every liquid that it pours', () => {
  const [liquid] = Object.entries(scenario.liquids).find(([, { ions }]) => Object.keys(ions).length > 0) ?? [''];
  const step = { role: 'load', liquid, label: '', planned_mL: 1, poured_mL: 0, rinses_mL: [], looks_mL: [], state: 'now' } as const;
  const pour = (name: string): Log => [{ do: 'pour', liquid: name, volume_mL: 1, how: 'wall' }];
  const label = (actions: Log) => offerWords({ step, volume_mL: 1, portions: 1, opens: false, actions }, scenario).replaceAll(/[\u00a0\u202f]/g, ' ');
  expect(label([...pour(liquid), ...pour('acid'), ...pour('acid')])).toBe('Pour 1 mL sample, then 2 mL 9 M HCl in 2 portions; each run to 1 mm');
  expect(label(pour(liquid))).toBe('Pour 1 mL sample, run to 1 mm');
  const first: Log = [{ do: 'wait', until: { liquid_mm: 1 } }];
  expect(label([...first, ...pour(liquid)])).toBe('At 1 mm pour 1 mL sample, run to 1 mm');
});
