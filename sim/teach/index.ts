// Questions about the column, with answers worked out from the scenario. Other rooms import from here.
export { type Option, type Question, questionsOf } from './questions.ts';
