import { expect, test } from 'vitest';
import { procedureOf, recipeOf, usualRecipe, withValueAt } from '../../../sim/lab/index.ts';
import { shippedJson, sound } from './rig.ts';

const leach = sound(shippedJson('cathode-leach'));

test('the recipe of the cathode leach has its volumes, counted by hand', () => {
  expect(recipeOf(leach)).toMatchObject({
    first: 'nickel',
    second: 'cobalt',
    condition_mL: 25,
    load_mL: 1,
    rinses_mL: [0.5, 0.5, 1],
    wash_mL: 24,
    release_mL: 30,
    change_mL: 1.5,
  });
});

test('a recipe gives the procedure that it was read off, and again itself', () => {
  const recipe = recipeOf(leach);
  if (!recipe) throw new Error('expected a recipe');
  for (const change of [
    {},
    { condition_mL: 17, change_mL: 0, rinses_mL: [] },
    { change_mL: 12 },
    { change_mL: 6 },
    { change_mL: 29 },
    { release_mL: 8, releasePortion_mL: 10 },
    { wash_mL: 20.5 },
  ]) {
    const changed = { ...recipe, ...change };
    const procedure = procedureOf(changed);
    expect(recipeOf({ ...leach, procedure })).toEqual({ ...changed, releasePortion_mL: Math.min(changed.releasePortion_mL, changed.release_mL) });
  }
});

test('its portions add up to its volumes', () => {
  const recipe = usualRecipe(leach);
  if (!recipe) throw new Error('expected a recipe');
  const poured = procedureOf({ ...recipe, wash_mL: 20.5, washPortion_mL: 6 }).flatMap((action) => (action.do === 'pour' ? [action] : []));
  const sum = (liquid: string) => poured.reduce((total, pour) => total + (pour.liquid === liquid ? pour.volume_mL : 0), 0);
  expect(sum('acid')).toBeCloseTo(25 + 2 + 20.5, 9);
  expect(sum('water')).toBeCloseTo(30, 9);
});

test('a day of three aliquots, and a procedure with an action more, have none', () => {
  expect(recipeOf(sound(shippedJson('lab-day')))).toBeUndefined();
  expect(recipeOf(sound(withValueAt(shippedJson('cathode-leach'), 'procedure[42]', { do: 'stir' })))).toBeUndefined();
});

test('an empty bench offers none before acid and a sample are there', () => {
  expect(usualRecipe({ ...leach, liquids: { water: { label: 'water', HCl_M: 0, ions: {} } } })).toBeUndefined();
});

test('a change later than the first portion of the release is waited for in the portion it falls into', () => {
  const recipe = recipeOf(leach);
  if (!recipe) throw new Error('expected a recipe');
  const procedure = procedureOf({ ...recipe, change_mL: 14 });
  const change = procedure.findLastIndex((action) => action.do === 'receiver');
  // Two portions of 6 mL before, and 2 mL of the third.
  expect(procedure[change - 1]).toEqual({ do: 'wait', until: { more_mL: 2 } });
  expect(procedure.slice(0, change).filter((action) => action.do === 'pour' && action.liquid === 'water')).toHaveLength(3);
});
