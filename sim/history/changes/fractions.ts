import type { Amounts, IonId } from '../../terms/types.ts';
import { collected, collectedAt, pouredOf } from '../effluent.ts';
import { deliveredAtEnd } from '../frames.ts';
import type { Plan } from '../plan.ts';
import { UNNAMED_RECEIVER } from '../receivers.ts';
import { keptAmong } from './kept.ts';
import type { FractionTargets } from './targets.ts';

// Which receiver stood under the tip over which delivered volumes, and what it took.

/** One stay of a receiver under the tip. */
export interface Span {
  readonly label: string;
  /** Log entry of the change that put it there; undefined for the one there from the start. */
  readonly entry: number | undefined;
  readonly from_mL: number;
  readonly to_mL: number;
  readonly amounts: Amounts;
}

export function spansOf(plan: Plan): Span[] {
  const starts = plan.events.flatMap(({ entry, action, refused, delivered_mL }) =>
    action?.do === 'receiver' && !refused ? [{ label: action.label, entry, from_mL: delivered_mL }] : [],
  );
  // A change before the first drop only names the vessel that is there.
  const first = starts[0]?.from_mL === 0 ? [] : [{ label: plan.labels[0] ?? UNNAMED_RECEIVER, entry: undefined, from_mL: 0 }];
  const stays = [...first, ...starts];
  return stays.map((stay, i): Span => {
    const to_mL = stays[i + 1]?.from_mL ?? deliveredAtEnd(plan);
    return { ...stay, to_mL, amounts: collected(plan, stay.from_mL, to_mL) };
  });
}

/** The stay that counts as the fraction; undefined while none does. */
export function keptOf(plan: Plan, targets: FractionTargets): Span | undefined {
  return keptAmong(plan, targets, spansOf(plan));
}

/** What the receiver that counts holds when the log is done, all its stays together: shares of what was poured, acid in mmol; nothing where none counts. */
export function keptHolds(plan: Plan, targets: FractionTargets): { readonly recovered: number; readonly carried: number; readonly acid_mmol: number } {
  const { receivers, loaded } = plan.results;
  const label = keptOf(plan, targets)?.label;
  const kept = receivers.find((receiver) => receiver.label === label);
  const shareOf = (ion: IonId): number => {
    const poured = loaded[`${ion}_mmol`] ?? 0;
    return kept && poured > 0 ? Number(kept[`${ion}_mmol`] ?? 0) / poured : 0;
  };
  return { recovered: shareOf(targets.target), carried: Math.max(0, ...targets.unwanted.map(shareOf)), acid_mmol: kept?.HCl_mmol ?? 0 };
}

/** The targets with the end of collecting of the run's own fraction, so that its window can be read off the run. */
export function withStop(plan: Plan, targets: FractionTargets): FractionTargets {
  const span = keptOf(plan, targets);
  return span ? { ...targets, stop_mL: span.to_mL } : targets;
}

/**
 * Whether what has been delivered so far decides what the fraction holds: as much of the target has left as the targets want. Before
 * that a shortcoming is only what would happen if nothing more were done, and no fault of the run.
 */
export function isSettled(plan: Plan, { target, recovered }: FractionTargets, delivered_mL: number): boolean {
  const poured = pouredOf(plan, target);
  return poured > 0 && collectedAt(plan, target, delivered_mL) >= recovered * poured;
}
