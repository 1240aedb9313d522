import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import { deliveredAtEnd, type Plan } from '../../../sim/history/index.ts';
import { significant } from '../../ui/text/format.ts';

// Stretches of the volume axis: which liquid was poured last, which receiver stands under the tip.

export interface Pouring {
  readonly from_mL: number;
  readonly to_mL: number;
  readonly label: string;
  readonly HCl_M: number;
  readonly ions: readonly IonId[];
  /** Poured in all, mL; 0 for what was in the bed at the start. */
  readonly volume_mL: number;
  /** Delivered volumes at which more of the same was poured. */
  readonly portions: readonly number[];
}

export interface Receiving {
  readonly from_mL: number;
  readonly to_mL: number;
  readonly label: string;
}

/** A change of receiver drawn elsewhere than where the run has it. */
export interface MovedChange {
  readonly entry: number;
  readonly delivered_mL: number;
}

/** Each liquid from the delivered volume at which it was poured to the next. */
export function pourings(scenario: Scenario, plan: Plan): Pouring[] {
  const stored = scenario.values['bench.start_HCl_M'];
  const end_mL = deliveredAtEnd(plan);
  const all: { liquid: string; pouring: Pouring }[] = [
    {
      liquid: '',
      pouring: {
        from_mL: 0,
        to_mL: end_mL,
        label: stored === 0 ? 'stored in water' : `stored in ${significant(stored)} M HCl`,
        HCl_M: stored,
        ions: [],
        volume_mL: 0,
        portions: [],
      },
    },
  ];
  for (const { action, refused, delivered_mL } of plan.events) {
    const liquid = action?.do === 'pour' && !refused ? scenario.liquids[action.liquid] : undefined;
    if (action?.do !== 'pour' || !liquid) continue;
    const last = all[all.length - 1];
    if (last?.liquid === action.liquid) {
      const { pouring } = last;
      last.pouring = { ...pouring, volume_mL: pouring.volume_mL + action.volume_mL, portions: [...pouring.portions, delivered_mL] };
      continue;
    }
    if (last) last.pouring = { ...last.pouring, to_mL: delivered_mL };
    const ions = scenario.ions.filter((ion) => (liquid.ions[ion] ?? 0) > 0);
    all.push({
      liquid: action.liquid,
      pouring: { from_mL: delivered_mL, to_mL: end_mL, label: liquid.label, HCl_M: liquid.HCl_M, ions, volume_mL: action.volume_mL, portions: [] },
    });
  }
  return all.map(({ pouring }) => pouring).filter(({ from_mL, to_mL, volume_mL }) => volume_mL > 0 || to_mL > from_mL);
}

/** The receivers in the order in which they stood under the tip; `moved` puts one change elsewhere. */
export function receivings(plan: Plan, moved?: MovedChange): Receiving[] {
  const changes = plan.events.flatMap(({ entry, action, refused, delivered_mL }) =>
    action?.do === 'receiver' && !refused ? [{ label: action.label, at: moved?.entry === entry ? moved.delivered_mL : delivered_mL }] : [],
  );
  const end_mL = deliveredAtEnd(plan);
  const first = { label: plan.labels[0] ?? '', at: 0 };
  const placed = [first, ...changes].sort((a, b) => a.at - b.at).filter(({ label }, i, list) => list[i - 1]?.label !== label);
  return placed
    .map(({ label, at }, i) => ({ label, from_mL: at, to_mL: Math.max(at, placed[i + 1]?.at ?? end_mL) }))
    .filter(({ from_mL, to_mL }, i, list) => to_mL > from_mL || i === list.length - 1);
}

/** Stretches up to a delivered volume, the last one cut there. */
export function endedAt<Stretch extends { readonly from_mL: number; readonly to_mL: number }>(
  stretches: readonly Stretch[],
  until_mL = Number.POSITIVE_INFINITY,
): Stretch[] {
  return stretches.filter(({ from_mL }) => from_mL <= until_mL).map((stretch) => (stretch.to_mL > until_mL ? { ...stretch, to_mL: until_mL } : stretch));
}
