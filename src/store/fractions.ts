import type { Amounts, IonId } from '../../sim/types.ts';
import type { Plan } from './planner.ts';
import { collected, deliveredAtEnd } from './windows.ts';

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
  /** The stay that took most of the ion; undefined while none of it has been delivered. */
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
  const taken = (span: Span): number => span.amounts[`${ion}_mmol`] ?? 0;
  const kept = all.reduce<Span | undefined>((best, span) => (taken(span) > (best ? taken(best) : 0) ? span : best), undefined);
  return { all, kept };
}
