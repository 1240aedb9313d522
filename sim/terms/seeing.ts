// How much of a run is shown while it lasts, from least to most.

/** eye: what a bench shows. figure: the past of the run as well. forecast: what comes if nothing more is done. */
export const SEEINGS = ['eye', 'figure', 'forecast'] as const;

/** Each in words, as a control and a list of differences say it. */
export const SEEING_WORDS: Readonly<Record<(typeof SEEINGS)[number], string>> = { eye: 'by eye only', figure: 'the figure too', forecast: 'everything' };

/** What a scenario allows that says nothing of it. */
export const SEEING_USUAL = 'forecast';

export type Seeing = (typeof SEEINGS)[number];

/** What is shown where so much is wanted and at most so much allowed. */
export function seenAtMost(wanted: Seeing, allowed: Seeing): Seeing {
  return SEEINGS[Math.min(SEEINGS.indexOf(wanted), SEEINGS.indexOf(allowed))];
}

/** How much the coach says: nothing, questions before what cannot be undone, or the windows as well. */
export const COACH_LEVELS = ['off', 'ask', 'guide'] as const;

export type CoachLevel = (typeof COACH_LEVELS)[number];
