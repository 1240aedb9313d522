import { expect, test } from 'vitest';
import { amountWords, offerWords } from '../../../src/bench/task/step-words.ts';
import type { Log } from '../../../sim/terms/types.ts';
import { small } from '../store/rig.ts';

const scenario = small();

test('the label of one press tells every liquid that it pours', () => {
  const [liquid] = Object.entries(scenario.liquids).find(([, { ions }]) => Object.keys(ions).length > 0) ?? [''];
  const step = { role: 'load', liquid, label: '', planned_mL: 1, poured_mL: 0, rinses_mL: [], looks_mL: [], state: 'now' } as const;
  const pour = (name: string): Log => [{ do: 'pour', liquid: name, volume_mL: 1, how: 'wall' }];
  const label = (actions: Log) =>
    offerWords({ step, volume_mL: 1, portions: 1, opens: false, rinses: false, actions }, scenario).replaceAll(/[\u00a0\u202f]/g, ' ');
  expect(label([...pour(liquid), ...pour('acid'), ...pour('acid')])).toBe('Pour 1 mL sample, then 2 rinses, 2 mL 9 M HCl in all; each run to 1 mm');
  expect(label(pour(liquid))).toBe('Pour 1 mL sample, run to 1 mm');
  const first: Log = [{ do: 'wait', until: { liquid_mm: 1 } }];
  expect(label([...first, ...pour(liquid)])).toBe('At 1 mm pour 1 mL sample, run to 1 mm');
});

test('more sample than was asked for is called too much; a hand that pours a little over is not', () => {
  const step = { role: 'load', liquid: 'sample', label: '', planned_mL: 1, rinses_mL: [], looks_mL: [], state: 'done' } as const;
  const amount = (poured_mL: number) => amountWords({ ...step, poured_mL }).replaceAll(/[\u00a0\u202f]/g, ' ');
  expect(amount(5)).toBe('5 / 1 mL, too much');
  expect(amount(1.1)).toBe('1.1 / 1 mL');
  expect(amountWords({ ...step, role: 'wash', poured_mL: 5 })).not.toContain('much');
});

test('what washes a sample in is called a rinse', () => {
  const step = { role: 'wash', liquid: 'acid', label: '', planned_mL: 26, poured_mL: 0, rinses_mL: [0.5, 0.5, 1], looks_mL: [], state: 'now' } as const;
  const rinse: Log = [{ do: 'pour', liquid: 'acid', volume_mL: 0.5, how: 'wall' }];
  const label = (volume_mL: number, portions: number, actions: Log) =>
    offerWords({ step, volume_mL, portions, opens: false, rinses: true, actions }, scenario).replaceAll(/[\u00a0\u202f]/g, ' ');
  expect(label(2, 3, [{ do: 'wait', until: { liquid_mm: 1 } }, ...rinse])).toBe('At 1 mm pour 3 rinses, 2 mL 9 M HCl in all; each run to 1 mm');
  expect(label(1, 1, rinse)).toBe('Pour a rinse, 1 mL 9 M HCl, run to 1 mm');
});
