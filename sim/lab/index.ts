// A lab as an instructor sets it up: the scenario as JSON that is changed place by place, and what follows from it for stockroom
// and day. Other rooms import from here.
export { acidName, withNameOfAcid } from './bottle-name.ts';
export { ASSUMED_TIMES, columnTimes } from './column-times.ts';
export { type Difference, differencesBetween } from './differences.ts';
export { emptyBench } from './empty-bench.ts';
export { groupUse } from './group-use.ts';
export { effective, partsOf, valueAt, withValueAt } from './place.ts';
export { type Asked, type BottleAmount, type SetupCard, setupCard } from './card.ts';
export { type Salt, saltOf } from './salts.ts';
export { procedureOf, type Recipe, recipeOf, usualRecipe } from './recipe.ts';
