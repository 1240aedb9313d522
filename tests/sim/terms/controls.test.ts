import { expect, test } from 'vitest';
import { CONTROLS } from '../../../sim/terms/controls.ts';
import { FIELDS } from '../../../sim/terms/fields.ts';

test.each([
  ['wish.recovered_percent', 'task.recovered_percent'],
  ['wish.carried_percent', 'task.carried_percent'],
] as const)('%s of a reader has the name, unit and range of %s of a scenario', (wish, task) => {
  const { min, max, unit } = FIELDS[task];
  expect(CONTROLS[wish]).toMatchObject({ min, max, unit });
});
