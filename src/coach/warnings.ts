import { IONS } from '../../sim/terms/ions.ts';
import { bestStart, progressOf } from '../../sim/history/index.ts';
import { NEAR_ML } from '../../sim/teach/index.ts';
import { millilitres, percent } from '../ui/text/format.ts';
import type { Bench } from './occasion.ts';
import type { Guidance } from './windows.ts';

/** Height of liquid from which draining is warned of, mm. */
const LOW_MM = 2;

/** What the guide has to say about this moment, most pressing first. */
export function warningsOf({ scenario, plan, moment, targets }: Bench, { window, startWindow, allows }: Guidance): string[] {
  const { load_mL, eluent_mL, change_mL } = progressOf(scenario, moment.events);
  const mm = moment.level_cm * 10;
  const now = moment.delivered_mL;
  const symbol = IONS[targets.target].symbol;
  const lines: string[] = [];
  if (moment.clampOpen > 0 && mm <= 0) lines.push('The liquid is at the bed top. Pour, or shut the clamp: a bed that runs dry cracks.');
  else if (moment.clampOpen > 0 && mm <= LOW_MM + 0.05 && plan.log.length <= moment.entry)
    lines.push(`Liquid ${Math.max(1, Math.round(mm))} mm above the bed: pour, or shut the clamp.`);
  if (load_mL !== undefined && eluent_mL === undefined && startWindow) {
    const best_mL = bestStart(startWindow);
    const until = startWindow.toOpen ? '' : `, until ${millilitres(startWindow.to_mL)}`;
    if (now < startWindow.from_mL) lines.push(`Too soon for a weaker eluent: from ${millilitres(startWindow.from_mL)} on, best at ${millilitres(best_mL)}.`);
    else if (now < best_mL - NEAR_ML) lines.push(`A weaker eluent may start now, best at ${millilitres(best_mL)}${until}.`);
    else if (now <= startWindow.to_mL) lines.push(`Start the weaker eluent now${until}.`);
    else lines.push(`Late for a weaker eluent: ${symbol} may already be on its way out.`);
  }
  if (eluent_mL !== undefined && change_mL === undefined && window) {
    if (now < window.from_mL) lines.push(`Keep the receiver until ${millilitres(window.from_mL)}: what drips now is acid.`);
    else if (now <= window.to_mL) lines.push(`Change the receiver now, before ${millilitres(window.to_mL)}.`);
    else lines.push(`Late for the receiver: ${symbol} has been lost since ${millilitres(window.to_mL)}.`);
  }
  if (allows && load_mL !== undefined && change_mL === undefined) {
    const what = eluent_mL === undefined ? 'No start of the weaker eluent meets' : 'No change of the receiver meets';
    lines.push(
      `${what} every limit of the task on this column. The volumes here are for ${percent(allows.recovered)} of the ${symbol}, with at most ${percent(allows.carried)} of another metal.`,
    );
  }
  return lines;
}
