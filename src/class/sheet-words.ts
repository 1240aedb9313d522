import { bottleName } from '../../sim/terms/bottle-name.ts';
import { checklistOf, type Role, type Step } from '../../sim/teach/index.ts';
import { FIELDS, type FieldPath } from '../../sim/terms/fields.ts';
import { IONS } from '../../sim/terms/ions.ts';
import type { Scenario, Unless } from '../../sim/terms/types.ts';
import { withUnit } from '../ui/text/format.ts';

// The limits of a task on paper: what the procedure pours, and how a group works. The page shows the same volumes on the bench.

export interface PouredRow {
  readonly step: string;
  readonly bottle: string;
  readonly volume: string;
}

const STEPS: Readonly<Record<Exclude<Role, 'change' | 'stop'>, string>> = { condition: 'Condition', load: 'Load', wash: 'Wash', release: 'Release' };

/** What the procedure pours, in its order; none where it has no procedure. */
export function pouredRows(scenario: Scenario): PouredRow[] {
  return checklistOf(scenario, []).flatMap((step) => {
    const { role, liquid, planned_mL } = step;
    if (role === 'change' || role === 'stop') return [];
    return [{ step: STEPS[role], bottle: bottleName(liquid, scenario.liquids), volume: `${volumeWords(planned_mL)}${rinseWords(step)}` }];
  });
}

/** When the procedure leaves out pours, which makes its volumes the most that is poured. */
export function leftOutLines({ procedure }: Scenario): readonly string[] {
  const lines = procedure.flatMap((action) => (action.do === 'pour' && action.unless ? [leftOutLine(action.unless)] : []));
  return [...new Set(lines)];
}

/** How many work together, for how long, and on what. */
export function groupLine({ values }: Scenario): string {
  const of = (path: FieldPath, one: string, more: string): string => `${values[path]} ${values[path] === 1 ? one : more}`;
  const people = values['class.people'] === 1 ? 'Everybody works alone' : `Groups of ${values['class.people']}`;
  const work = `${of('class.aliquots', 'aliquot', 'aliquots')} of the sample on ${of('class.columns', 'column', 'columns')}`;
  return `${people}, ${withUnit(String(values['class.period_min']), FIELDS['class.period_min'].unit)} in the laboratory, ${work}.`;
}

function rinseWords({ rinses_mL }: Step): string {
  return rinses_mL.length === 0 ? '' : `, the first ${rinses_mL.map(volumeWords).join(', ')} by ${rinses_mL.length === 1 ? 'itself' : 'themselves'}`;
}

function leftOutLine({ ion, above_bottom_mm }: Unless): string {
  return `Pour no more of the wash once the leading edge of the ${IONS[ion].name} band is ${withUnit(String(above_bottom_mm), 'mm')} above the bottom: its volume is the most.`;
}

/** As a cylinder is asked for: 25 mL, not 25.0. */
function volumeWords(volume_mL: number): string {
  return withUnit(String(Number(volume_mL.toPrecision(3))), 'mL');
}
