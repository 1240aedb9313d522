import { keptOf, taskHeld, targetsOf } from '../../../sim/history/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import { capital } from '../../../sim/terms/capital.ts';
import { percent } from '../../ui/text/format.ts';
import type { Ran } from './overlay-drawing.ts';

// What a fault costs, in two lines that a class reads: how much of the wanted ion was collected, on a lab day in all its receivers,
// and what came with it.

/** Lines, each with the twin beside it; none while neither run keeps a receiver. */
export function costWords(run: Ran, twin: Ran | undefined): string[] {
  const both = twin ? [run, twin] : [run];
  const targets = targetsOf(run.scenario);
  if (both.every(({ scenario, plan }) => keptOf(plan, targetsOf(scenario)) === undefined)) return [];
  const holds = both.map(({ scenario, plan }) => taskHeld(plan, targetsOf(scenario)));
  const [other] = targets.unwanted;
  const beside = (of: (held: (typeof holds)[number]) => number): string => {
    const [ours, theirs] = holds.map((held) => percent(of(held), 1));
    return theirs === undefined ? ours : `${ours}, in the twin ${theirs}`;
  };
  return [
    `${capital(IONS[targets.target].name)} collected: ${beside(({ recovered }) => recovered)}`,
    ...(other ? [`${targets.unwanted.length > 1 ? 'most of another metal' : IONS[other].name} with it: ${beside(({ carried }) => carried)}`] : []),
  ];
}
