// Questions about the column with answers worked out from the scenario, and the procedure as a checklist. Other rooms import from here.
export { type Option, type Question, questionsOf } from './questions.ts';
export { checklistOf, firstReceiver, isEnded, isWashed, NEAR_ML, releases, type Step, type StepState } from './checklist.ts';
export { stopAbove_cm, washToByEye } from './edge.ts';
export type { Role } from './steps.ts';
export { fits, LOW_MM, type Offer, offerFor, type Standing } from './portion.ts';
export { minutesToLow, type Stillness, stillness } from './stillness.ts';
export { type StoryMoment, storyOf } from './story.ts';
