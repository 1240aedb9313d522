import { IONS } from '../../sim/terms/ions.ts';
import type { Action, Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { type FractionTargets, isSample, isWeaker, type Plan, progressOf } from '../../sim/history/index.ts';
import type { Occasion } from '../../sim/handed/index.ts';

// When the coach asks, and what.

/** What the coach knows of the run. */
export interface Bench {
  readonly scenario: Scenario;
  readonly plan: Plan;
  readonly moment: Moment;
  readonly targets: FractionTargets;
}

export interface Question {
  readonly occasion: Occasion;
  /** What the reader is about to do. */
  readonly before: string;
  readonly text: string;
  /** Answers to choose from; none where the answer is a volume. */
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  readonly reasons: readonly string[];
}

/** What an action should be preceded by a prediction for; undefined for all others. */
export function occasionOf(action: Action, { scenario, moment }: Bench): Occasion | undefined {
  const { load_mL, sample_M, eluent_mL } = progressOf(scenario, moment.events);
  if (action.do === 'pour') {
    const liquid = scenario.liquids[action.liquid];
    if (!liquid) return undefined;
    if (load_mL === undefined) return isSample(liquid) ? 'load' : undefined;
    return eluent_mL === undefined && isWeaker(liquid, sample_M) ? 'eluent' : undefined;
  }
  if (action.do === 'receiver') return load_mL !== undefined && action.label !== moment.results.receivers[moment.receiver]?.label ? 'receiver' : undefined;
  return action.do === 'clamp' && action.open_percent === 0 && moment.clampOpen > 0 && eluent_mL !== undefined ? 'stop' : undefined;
}

export function questionOf(occasion: Occasion, { scenario, targets }: Bench): Question {
  const { symbol, name } = IONS[targets.target];
  switch (occasion) {
    case 'load':
      return {
        occasion,
        before: 'Before you load the sample',
        text: 'Which ion will leave the tip first?',
        choices: [...scenario.ions.map((ion) => ({ value: ion, label: IONS[ion].symbol })), { value: 'together', label: 'together' }],
        reasons: [
          'its complex with chloride is an anion, and the resin holds anions',
          'the charges are equal, so they travel alike',
          'the one there is more of goes first',
          'the acid washes both straight through',
        ],
      };
    case 'eluent':
      return {
        occasion,
        before: 'Before you start the weaker eluent',
        text: `At what delivered volume will the first ${name} leave the tip?`,
        choices: [],
        reasons: [
          'at once: the eluent frees it',
          'after the liquid between the beads has been replaced',
          'later than that: the acid inside the beads must leave first',
          'only after several bed volumes',
        ],
      };
    case 'receiver':
      return {
        occasion,
        before: 'Before you change the receiver',
        text: 'What is dripping from the tip at this moment?',
        choices: [
          { value: 'acid', label: `strong acid, no ${symbol}` },
          { value: 'both', label: `strong acid with ${symbol}` },
          { value: 'target', label: `weak acid or water with ${symbol}` },
          { value: 'water', label: `weak acid or water, no ${symbol}` },
        ],
        reasons: ['the volume since the eluent was started', 'the colour of the drops', 'where the band stands on the bed', 'a guess'],
      };
    case 'stop':
      return {
        occasion,
        before: 'Before you stop',
        text: `How much of the ${name} is in the receiver you keep?`,
        choices: [
          { value: 'all', label: '99.5 % or more' },
          { value: 'most', label: '95 to 99.5 %' },
          { value: 'less', label: 'less than 95 %' },
        ],
        reasons: [
          'enough eluent has gone through',
          'the drops have no colour any more',
          'the bed shows no band any more',
          'some was lost before the receiver was changed',
        ],
      };
  }
}
