import { IONS } from '../../sim/terms/ions.ts';
import type { Band } from '../../sim/column/index.ts';
import { bandNow, leanOf, pouredOf, readingAt } from '../../sim/history/index.ts';
import type { IonId, Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { fixed, spoken } from '../ui/text/format.ts';
import { isMissing } from './bed-paint.ts';
import { headSolution } from './scene/liquids.ts';
import { sideName, wallLanes } from './sides.ts';
import { capital } from '../../sim/terms/capital.ts';

// The bed in words, for those who do not see it.

/** cm between the sides' leading edges below which a band counts as level. */
const LEVEL = 0.1;
/** mol/L of HCl below which a liquid is called water. */
const WATER_M = 0.01;
/** Share of the pore space taken by gas from which it is mentioned. */
const GAS_TOLD = 0.02;

/** Liquid, flow, bands with their lean, and what is wrong with the bed, in sentences. */
export function bedSummary(scenario: Scenario, moment: Moment): string {
  return [liquid(scenario, moment), flow(moment), ...bands(scenario, moment), ...damage(scenario, moment)].join(' ');
}

function liquid(scenario: Scenario, moment: Moment): string {
  const mm = moment.level_cm * 10;
  if (mm <= 0) return 'No liquid above the bed.';
  const { HCl_M } = headSolution(scenario, moment);
  const kind = HCl_M < WATER_M ? 'water' : `${spoken(HCl_M, 'mol/L', 2)} hydrochloric acid`;
  return `Liquid stands ${fixed(mm, mm < 10 ? 1 : 0)} millimetres above the bed: ${kind}.`;
}

function flow({ flow: rate, clampOpen, delivered_mL }: Moment): string {
  const delivered = `${spoken(delivered_mL, 'mL')} delivered.`;
  if (rate > 0) return `It flows at ${spoken(rate, 'mL/min', 2)}, ${delivered}`;
  return `${clampOpen > 0 ? 'Nothing flows' : 'The clamp is closed'}, ${delivered}`;
}

/** One sentence for each ion on the bed, from the top down, and one for those that are not. */
function bands(scenario: Scenario, moment: Moment): string[] {
  const told = scenario.ions.flatMap((ion) => {
    const found = bandNow(moment.results, ion);
    return found ? [{ ion, found, share: found.amount_mmol / pouredOf(moment, ion) }] : [];
  });
  told.sort((a, b) => a.found.centroid_cm - b.found.centroid_cm);
  const absent = scenario.ions.filter((ion) => !told.some((one) => one.ion === ion)).map((ion) => IONS[ion].name);
  const rest = absent.length > 0 ? [`No ${absent.join(', ').replace(/, ([^,]*)$/, ' or $1')} on the bed.`] : [];
  return [
    ...told.map(
      ({ ion, found, share }) =>
        `${capital(IONS[ion].name)} lies ${place(found)}, ${Math.round(100 * share)} percent of it on the bed${leaning(scenario, moment, ion)}.`,
    ),
    ...rest,
  ];
}

function place({ trailing_cm, leading_cm }: Band): string {
  return `${fixed(trailing_cm, 1)} to ${fixed(leading_cm, 1)} centimetres deep`;
}

function leaning(scenario: Scenario, moment: Moment, ion: IonId): string {
  const lean = leanOf(moment, scenario, ion, moment.bed_cm);
  if (!lean) return '';
  if (lean.lean_cm < LEVEL) return ', its front level';
  return `, its front leaning ${fixed(lean.lean_cm, 1)} centimetres: furthest down at the ${sideName(lean.ahead_deg)}, highest at the ${sideName(lean.behind_deg)}`;
}

function damage(scenario: Scenario, moment: Moment): string[] {
  if (moment.fullest <= 0) return ['There is no resin in the tube.'];
  const length = scenario.values['bed.length_cm'];
  const dz = length / scenario.values['bed.plates'];
  const told: string[] = [];
  const dry = wallLanes(scenario.values['bed.lanes']).map((lane) => moment.drained[lane]);
  const read = (cells: number): string => fixed(readingAt(length, moment.bed_cm, cells * dz), 1);
  if (Math.max(...dry) > 0) told.push(`The bed has run dry from the top: ${read(Math.min(...dry))} to ${read(Math.max(...dry))} centimetres deep.`);
  const gas = moment.gas.reduce((sum, share) => sum + share, 0) / moment.gas.length;
  if (gas > GAS_TOLD) told.push(`Gas fills ${spoken(100 * gas, '%', 2)} of the space between the beads.`);
  const missing = moment.resinShare.reduce((count, _, cell) => count + (isMissing(moment, cell) ? 1 : 0), 0);
  if (missing > 0) told.push(`Resin is missing in ${spoken((100 * missing) / moment.resinShare.length, '%', 2)} of the bed.`);
  return told;
}
