import { expect, test } from 'vitest';
import { procedureDifferences } from '../../../sim/lab/procedure-differences.ts';
import { procedureOf, type Recipe, recipeOf } from '../../../sim/lab/index.ts';
import { shippedJson, sound } from './rig.ts';

const recipe = recipeOf(sound(shippedJson('cathode-leach')));
if (!recipe) throw new Error('cathode-leach: expected a recipe');

const differing = (changes: Partial<Recipe>): string =>
  procedureDifferences(procedureOf(recipe), procedureOf({ ...recipe, ...changes }), (liquid) => liquid).join(', ');

test.each([
  ['nothing', {}, ''],
  ['a shorter wash', { wash_mL: 20 }, 'water 4 mL earlier'],
  ['a longer wash in more portions', { wash_mL: 30 }, '1 more pour, water 6 mL later'],
  ['a later receiver', { change_mL: 2.5 }, 'receiver “cobalt” 1 mL later'],
  ['an earlier receiver and more conditioning', { change_mL: 0.5, condition_mL: 30 }, '1 more pour, sample 5 mL later, receiver “cobalt” 1 mL earlier'],
  ['smaller portions', { releasePortion_mL: 3 }, '5 more pours'],
  ['less water', { release_mL: 18 }, '2 fewer pours, 12 mL less water'],
  ['another name', { second: 'pink' }, 'no receiver “cobalt”, a receiver “pink”'],
] as const)('%s is told in words of the bench', (_, changes, words) => {
  expect(differing(changes)).toBe(words);
});

test('another order of liquids, the clamp, and steps out of the ordinary are named', () => {
  const pour = (liquid: string, how?: string) => ({ do: 'pour', liquid, volume_mL: 2, ...(how ? { how } : {}) });
  const words = (before: object[], after: object[]) => procedureDifferences(before, after, (liquid) => liquid.toUpperCase()).join(', ');
  expect(words([pour('acid'), pour('water')], [pour('water'), pour('acid')])).toBe('liquids in turn: WATER, ACID');
  expect(words([pour('acid')], [pour('acid', 'bed')])).toBe('1 pour onto the bed instead of down the wall');
  expect(words([{ do: 'clamp', open_percent: 100 }], [{ do: 'clamp', open_percent: 40 }, { do: 'stir' }])).toBe(
    '“stir” 1 time more, clamp open to 40 % instead of 100 %',
  );
});

test('takes whatever JSON holds', () => {
  expect(() => procedureDifferences([null, 7, {}, { do: 'wait', until: 'x' }], [{ do: 'pour' }, { do: 'receiver' }], String)).not.toThrow();
});
