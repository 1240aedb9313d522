import type { IonId } from '../../terms/types.ts';
import { collectedAt, pouredOf } from '../effluent.ts';
import type { Plan } from '../plan.ts';
import type { FractionTargets } from './targets.ts';

// Which receiver counts: everything that judges a run asks here.

/** A receiver under the tip between two delivered volumes, mL. */
export interface Stay {
  readonly label: string;
  readonly from_mL: number;
  readonly to_mL: number;
}

/**
 * The stay that counts as the fraction: of the receivers meant for the target the one that took most of it, though it be nothing. Where
 * none of these stood under the tip, the one that took most of the target beyond what it took of the others; undefined where no
 * stay took more of the target than of the others, or none of the target has been delivered.
 */
export function keptAmong<One extends Stay>(plan: Plan, targets: FractionTargets, stays: readonly One[]): One | undefined {
  const { target, unwanted } = targets;
  if (!(Math.max(0, ...stays.map(({ to_mL }) => collectedAt(plan, target, to_mL))) > 0)) return undefined;
  const own = meantAmong(targets, stays);
  if (own.length > 0) return own.reduce((best, stay) => (shareIn(plan, target, stay) > shareIn(plan, target, best) ? stay : best));
  const worth = (stay: One): number => shareIn(plan, target, stay) - Math.max(0, ...unwanted.map((ion) => shareIn(plan, ion, stay)));
  const best = stays.reduce<One | undefined>((most, stay) => (most && worth(most) >= worth(stay) ? most : stay), undefined);
  return best && worth(best) > LEAST ? best : undefined;
}

/** Stays of receivers that the procedure means for the target. */
export function meantAmong<One extends Stay>({ receivers = [] }: FractionTargets, stays: readonly One[]): One[] {
  const meant = new Set(receivers.map(plain));
  return stays.filter(({ label }) => meant.has(plain(label)));
}

/** Differences between shares below this are rounding. */
const LEAST = 1e-9;

function shareIn(plan: Plan, ion: IonId, { from_mL, to_mL }: Stay): number {
  const poured = pouredOf(plan, ion);
  return poured > 0 ? (collectedAt(plan, ion, to_mL) - collectedAt(plan, ion, from_mL)) / poured : 0;
}

/** A label as it is compared: written by hand it may differ in capitals and blanks. */
function plain(label: string): string {
  return label.trim().toLowerCase();
}
