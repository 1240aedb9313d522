import { bottleName } from '../../../sim/terms/bottle-name.ts';
import { LOW_MM, type Offer, type Step } from '../../../sim/teach/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { fixed, millilitres, plannedMillilitres } from '../../ui/text/format.ts';
import { capital } from '../../../sim/terms/capital.ts';

// The checklist in words.

/** Times the sample asked for from which it is too much: hands and pipettes differ by less. A choice. */
const OVERLOADED = 1.2;

export function stepWords({ role, liquid, label, state, poured_mL }: Step, { liquids }: Scenario): string {
  const bottle = bottleName(liquid, liquids);
  switch (role) {
    case 'condition':
      return `Condition: ${bottle}`;
    case 'load':
      return 'Load the sample';
    case 'wash':
      return 'Wash, at most';
    case 'release':
      return state === 'later' && poured_mL === 0 ? `${capital(bottle)}: you judge` : capital(bottle);
    case 'change':
      return state === 'now' || state === 'open' ? `Receiver “${label}”: you judge` : `Receiver “${label}”`;
    case 'stop':
      return 'Shut the clamp';
  }
}

/** "17 / 40 mL", and that it is more sample than was asked for; nothing for a step that pours nothing. */
export function amountWords({ role, planned_mL, poured_mL, liquid }: Step): string {
  if (liquid === '') return '';
  const much = role === 'load' && poured_mL > OVERLOADED * planned_mL ? ', too much' : '';
  return `${short(poured_mL)} / ${plannedMillilitres(planned_mL)}${much}`;
}

/** What one press would do. */
export function offerWords({ step, volume_mL, portions, opens, rinses, actions }: Offer, { liquids }: Scenario): string {
  if (step.role === 'change') return `Put “${step.label}” under the tip`;
  // A clamp that is shut already stands open to the reader: to go on, or to end.
  if (step.role === 'stop') return step.state === 'open' && actions.length === 1 ? 'End the run here' : 'Shut the clamp: the run ends';
  const bottle = step.role === 'load' ? 'sample' : bottleName(step.liquid, liquids);
  const volume = `${plannedMillilitres(volume_mL)} ${bottle}`;
  // Another liquid is not poured at once where much still stands above the bed.
  const low = actions.find((action) => action.do === 'wait' || action.do === 'pour')?.do === 'wait';
  const pour = opens ? 'Open, pour' : low ? `At ${LOW_MM} mm pour` : 'Pour';
  const rinse = actions.flatMap((action) => (action.do === 'pour' && action.liquid !== step.liquid ? [action] : []));
  const [first] = rinse;
  if (first) {
    const rinse_mL = rinse.reduce((sum, pour) => sum + pour.volume_mL, 0);
    const rinsed = `${plannedMillilitres(rinse_mL)} ${bottleName(first.liquid, liquids)}`;
    return `${pour} ${volume}, then ${rinse.length > 1 ? `${rinse.length} rinses, ${rinsed} in all` : rinsed}; each run to ${LOW_MM} mm`;
  }
  if (rinses)
    return portions > 1 ? `${pour} ${portions} rinses, ${volume} in all; each run to ${LOW_MM} mm` : `${pour} a rinse, ${volume}, run to ${LOW_MM} mm`;
  const last = actions.at(-1);
  const end = last?.do === 'wait' && 'more_mL' in last.until ? millilitres(last.until.more_mL) : `to ${LOW_MM} mm`;
  return `${pour} ${volume}${portions > 1 ? ` in ${portions} portions` : `, run ${end}`}`;
}

function short(value: number): string {
  return fixed(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1);
}
