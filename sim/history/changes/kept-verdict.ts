import type { Plan } from '../plan.ts';
import { keptHolds, type Span, spansOf, withStop } from './fractions.ts';
import { meetsTargets, verdict, type Verdict } from './switch-window.ts';
import type { FractionTargets } from './targets.ts';

// The verdict on a run as it was done. What ran out between two volumes is not quite what a receiver holds: the drop that hung at the
// tip at a change falls into the next one. What is told of a run is what its receiver holds, here as in every table.

/** Less than a drop: how far outside its window a change is said to be where only the hanging drop decides, mL. */
const WITHIN_DROP_ML = 0.005;

/** Of the stay that counts. Until the log is done, where its change is only tried elsewhere, or where its receiver stood there more than once, by what runs out while it does. */
export function keptVerdict(plan: Plan, targets: FractionTargets, kept: Pick<Span, 'label' | 'from_mL' | 'to_mL'>): Verdict {
  const ran = verdict(plan, withStop(plan, targets), kept.from_mL, kept.to_mL);
  const [stay, another] = spansOf(plan).filter(({ label }) => label === kept.label);
  if (stay?.from_mL !== kept.from_mL || another || kept.to_mL > plan.logEnd.delivered_mL) return ran;
  const held = keptHolds(plan, targets);
  const meets = meetsTargets(held, targets);
  const lostBefore = Math.max(0, 1 - held.recovered - ran.lostAfter - ran.lostBehind);
  return { ...ran, ...held, NaOH_mL: held.acid_mmol / targets.NaOH_M, meets, lostBefore, ...outside(ran, meets, held.recovered < targets.recovered) };
}

/** Volumes are those of the run; where they and what is held fall on different sides of a limit, what is held decides. */
function outside({ early_mL, late_mL }: Verdict, meets: boolean, isShort: boolean): Pick<Verdict, 'early_mL' | 'late_mL'> {
  if (early_mL === undefined || late_mL === undefined) return { early_mL, late_mL };
  if (meets) return { early_mL: 0, late_mL: 0 };
  if (early_mL + late_mL > 0) return { early_mL, late_mL };
  return isShort ? { early_mL: 0, late_mL: WITHIN_DROP_ML } : { early_mL: WITHIN_DROP_ML, late_mL: 0 };
}
