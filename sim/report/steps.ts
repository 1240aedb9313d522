/** Steps of a learner's calculation, in order. Apart from the rest, so that a kept run can be read without the work-up. */
export const STEP_IDS = ['titre', 'EDTA', 'portion', 'flask', 'molarity', 'mass'] as const;

export type StepId = (typeof STEP_IDS)[number];
