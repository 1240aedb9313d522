import { type Plan, progressOf, switchWindow, targetsOf, verdict, withStop } from '../../../sim/history/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { Issue, Scenario } from '../../../sim/terms/types.ts';
import { fixed, millilitres, millimoles, percent } from '../../ui/text/format.ts';

// What the run of a lab's procedure says to the instructor, in sentences.

/** When the receiver is best changed, and what the procedure's own change gives. */
export function receiverWords(scenario: Scenario, plan: Plan): string {
  const { eluent_mL, change_mL } = progressOf(scenario, plan.events);
  if (eluent_mL === undefined) return 'The procedure does not yet load a sample and start a weaker eluent after it, so there is no receiver to change.';
  const targets = withStop(plan, targetsOf(scenario));
  const window = switchWindow(plan, targets);
  const name = IONS[targets.target].name;
  const wanted = `${percent(targets.recovered)} of the ${name}, at most ${percent(targets.carried)} of any other metal and ${millimoles(targets.acid_mmol ?? 0, 0)} of acid`;
  const after = (mL: number): string => fixed(mL - eluent_mL, 1);
  const open = window
    ? `Window for the receiver: ${after(window.from_mL)} to ${millilitres(window.to_mL - eluent_mL)} after the start of water, for ${wanted}.`
    : `No change of receiver collects ${wanted}.`;
  if (change_mL === undefined) return `${open} The procedure itself does not change the receiver after that.`;
  const { recovered, carried, acid_mmol } = verdict(plan, targets, change_mL, targets.stop_mL);
  return `${open} The procedure itself changes the receiver at ${millilitres(change_mL - eluent_mL)}: ${percent(recovered)} of the ${name}, ${percent(carried)} of other metals, ${millimoles(acid_mmol, 0)} of acid.`;
}

/** What the bench refuses when the procedure comes to it, by the place of the action. */
export function refusedIn({ events, log }: Plan): Issue[] {
  return events.flatMap(({ entry, refused }) => {
    if (!refused || entry < 0 || entry >= log.length) return [];
    const { path, expected, received } = refused;
    return [{ path: `procedure[${entry}]`, expected: path === '' ? expected : `${path}: ${expected}`, received }];
  });
}
