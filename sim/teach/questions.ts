import { firstOut, meaning, order, pair, strongest, weaker } from './asked/ions.ts';
import { conditioning, lateAcid, pushing, twoSwitches } from './asked/liquids.ts';
import type { About, Option, Question } from './asked/question.ts';
import type { IonId } from '../terms/ions.ts';
import { distributionOf } from '../chemistry/index.ts';
import type { Scenario } from '../terms/types.ts';

// Questions to answer before looking, made from a scenario and answered by the model. Each asks for a choice and a reason: choices
// alone are right far more often than their reasons (Özmen, Chem. Educ. Res. Pract. 9 (2008), abstract read).

export type { Option, Question };

const QUESTIONS_MAX = 8;
/** Left out first when there are more. */
const DROPPED_FIRST = ['conditioning', 'meaning', 'late-acid'];
/** The ion asked about is the most held one up to this D_v: one that practically never moves teaches less. Our rule. */
const TELLING_D = 300;

/** Up to eight questions; fewer where the scenario does not give rise to one. */
export function questionsOf(scenario: Scenario): Question[] {
  const acid = mainAcid(scenario);
  const curves = new Map(scenario.ions.map((ion) => [ion, distributionOf(scenario, ion)]));
  const D = (ion: IonId, c: number): number => curves.get(ion)?.(c) ?? 0;
  const byUptake = [...scenario.ions].sort((a, b) => D(a, acid) - D(b, acid));
  const runner = byUptake[0];
  const holder = byUptake.findLast((ion) => D(ion, acid) <= TELLING_D) ?? byUptake[byUptake.length - 1];
  const about: About = { scenario, acid, runner, holder, D };
  const asked = [firstOut, meaning, weaker, strongest, pushing, conditioning, lateAcid, twoSwitches, order, pair].flatMap((make) => make(about) ?? []);
  const spare = DROPPED_FIRST.slice(0, Math.max(0, asked.length - QUESTIONS_MAX));
  return asked.filter(({ id }) => !spare.includes(id)).map((question, n) => turned(question, scenario.seed + n));
}

/** Strongest liquid that holds no metal: what the columns of the scenario are washed with. */
export function mainAcid(scenario: Scenario): number {
  const strengths = Object.values(scenario.liquids).map(({ HCl_M }) => HCl_M);
  return Math.max(0.1, ...strengths);
}

/** The same question with its options in another order, always the same for the same number. */
function turned(question: Question, by: number): Question {
  return { ...question, choices: rotated(question.choices, by), reasons: rotated(question.reasons, by + 1) };
}

function rotated<T>(options: readonly T[], by: number): T[] {
  return options.map((_, n) => options[(n + by) % options.length]);
}
