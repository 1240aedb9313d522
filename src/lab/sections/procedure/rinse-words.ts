import type { Recipe } from '../../../../sim/lab/index.ts';
import { sum } from '../../../../sim/math/sum.ts';
import { checklistOf } from '../../../../sim/teach/index.ts';
import type { Scenario } from '../../../../sim/terms/types.ts';
import { plannedMillilitres } from '../../../ui/text/format.ts';

/** What the field “wash” leaves out, and the total that the list on the bench shows; empty where nothing is rinsed in. */
export function rinseWords(scenario: Scenario, { rinses_mL, wash_mL }: Pick<Recipe, 'rinses_mL' | 'wash_mL'>): string {
  const wash = checklistOf(scenario, []).find(({ role }) => role === 'wash');
  if (rinses_mL.length === 0 || !wash) return '';
  const rinses = rinses_mL.length === 1 ? 'The rinse before the wash is' : 'The rinses before the wash are';
  return `${rinses} not counted in it: ${plannedMillilitres(sum(rinses_mL))} of rinses and ${plannedMillilitres(wash_mL)} of wash are ${plannedMillilitres(wash.planned_mL)}, which the list on the bench shows as “Wash, at most”.`;
}
