import { expect, test } from 'vitest';
import { procedureOf, type Recipe, recipeOf, withValueAt } from '../../../sim/lab/index.ts';
import { checklistOf } from '../../../sim/teach/index.ts';
import { amountWords, stepWords } from '../../../src/bench/task/step-words.ts';
import { rinseWords } from '../../../src/lab/sections/procedure/rinse-words.ts';
import { shippedJson, sound } from '../../sim/lab/rig.ts';

const json = shippedJson('cathode-leach');
const recipe = recipeOf(sound(json));
if (!recipe) throw new Error('expected a recipe');

function labWith(change: Partial<Recipe>) {
  const changed = { ...(recipe as Recipe), ...change };
  return { scenario: sound(withValueAt(json, 'procedure', procedureOf(changed))), changed };
}

test.each<[Partial<Recipe>, string]>([
  [{}, '2 mL of rinses and 24 mL of wash are 26 mL'],
  [{ wash_mL: 44 }, '2 mL of rinses and 44 mL of wash are 46 mL'],
  [{ rinses_mL: [0.5], wash_mL: 20 }, '0.5 mL of rinses and 20 mL of wash are 20.5 mL'],
])('what comes before the wash is said with the total that the bench lists: %o', (change, words) => {
  const { scenario, changed } = labWith(change);
  const said = rinseWords(scenario, changed).replaceAll(/\s/g, ' ');
  expect(said).toContain(words);
  const step = checklistOf(scenario, []).find(({ role }) => role === 'wash');
  if (!step) throw new Error('expected a wash');
  expect(said).toContain(`“${stepWords(step, scenario)}”`);
  expect(`0 / ${words.split(' are ')[1]}`).toBe(amountWords(step).replaceAll(/\s/g, ' '));
});

test('nothing is said where nothing is rinsed in', () => {
  const { scenario, changed } = labWith({ rinses_mL: [] });
  expect(rinseWords(scenario, changed)).toBe('');
});
