import type { Amounts, IonId } from '../../terms/types.ts';
import { collected, collectedAt, pouredOf } from '../effluent.ts';
import { deliveredAtEnd } from '../frames.ts';
import type { Plan } from '../plan.ts';
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

export interface Spans {
  readonly all: readonly Span[];
  /** The stay that took most of the ion apart from the others; undefined while none of it has been delivered. */
  readonly kept: Span | undefined;
}

export function spansOf(plan: Plan, ion: IonId): Spans {
  const starts = plan.events.flatMap(({ entry, action, refused, delivered_mL }) =>
    action?.do === 'receiver' && !refused ? [{ label: action.label, entry, from_mL: delivered_mL }] : [],
  );
  // A change before the first drop only names the vessel that is there.
  const first = starts[0]?.from_mL === 0 ? [] : [{ label: plan.labels[0] ?? 'beaker', entry: undefined, from_mL: 0 }];
  const stays = [...first, ...starts];
  const all = stays.map((stay, i): Span => {
    const to_mL = stays[i + 1]?.from_mL ?? deliveredAtEnd(plan);
    return { ...stay, to_mL, amounts: collected(plan, stay.from_mL, to_mL) };
  });
  const kept = all.reduce<Span | undefined>((best, span) => (worth(plan, ion, span) > (best ? worth(plan, ion, best) : 0) ? span : best), undefined);
  return { all, kept };
}

/** The targets with the end of collecting of the run's own fraction, so that its window can be read off the run. */
export function withStop(plan: Plan, targets: FractionTargets): FractionTargets {
  const span = spansOf(plan, targets.target).kept;
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

/** Weight of the ion alone, so that where nothing was separated the receiver with most of it still counts as the one kept. */
const UNPARTED = 1e-6;

/** Share of the ion that a stay took, less where it also took the others: it is kept for what it holds apart from them. */
function worth({ ions, results }: Plan, ion: IonId, { amounts }: Span): number {
  const share = (one: IonId): number => {
    const loaded = results.loaded[`${one}_mmol`] ?? 0;
    return loaded > 0 ? (amounts[`${one}_mmol`] ?? 0) / loaded : 0;
  };
  const mixed = Math.min(1, Math.max(0, ...ions.filter((one) => one !== ion).map(share)));
  return share(ion) * (1 - mixed + UNPARTED);
}
