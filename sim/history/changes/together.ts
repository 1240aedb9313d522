import type { Amounts, IonId } from '../../terms/types.ts';
import { sum } from '../../math/sum.ts';
import { pouredOf } from '../effluent.ts';
import type { Plan } from '../plan.ts';
import { keptOf, spansOf } from './fractions.ts';
import { meantAmong } from './kept.ts';
import { keptVerdict } from './kept-verdict.ts';
import { meetsTargets } from './switch-window.ts';
import type { FractionTargets } from './targets.ts';

/** What a day's receivers of the target hold, one for each aliquot: a limit for one of them would be wrong for a share of all that was poured. */
export interface Together {
  readonly labels: readonly string[];
  /** Of the target, in each of them. */
  readonly shares: readonly number[];
  /** Shares of what was poured in the whole run. */
  readonly recovered: number;
  readonly carried: number;
  /** In the receiver that holds most. */
  readonly acid_mmol: number;
  readonly volume_mL: number;
  readonly meets: boolean;
}

/** What the receivers meant for the target hold together; undefined where not more than one of them stood under the tip. */
export function togetherOf(plan: Plan, targets: FractionTargets): Together | undefined {
  // Asked at every drawing, and most runs have one receiver for the target.
  if ((targets.receivers?.length ?? 0) < 2) return undefined;
  const stays = meantAmong(targets, spansOf(plan));
  const labels = [...new Set(stays.map(({ label }) => label))];
  if (labels.length < 2) return undefined;
  const inOf = (solute: keyof Amounts, name: string): number => sum(stays.filter(({ label }) => label === name).map(({ amounts }) => amounts[solute] ?? 0));
  const sharesOf = (ion: IonId): number[] => labels.map((label) => inOf(`${ion}_mmol`, label) / Math.max(Number.MIN_VALUE, pouredOf(plan, ion)));
  const shares = sharesOf(targets.target);
  const recovered = sum(shares);
  const carried = Math.max(0, ...targets.unwanted.map((ion) => sum(sharesOf(ion))));
  const acid_mmol = Math.max(...labels.map((label) => inOf('HCl_mmol', label)));
  const held = { recovered, carried, acid_mmol };
  return { labels, shares, ...held, volume_mL: sum(stays.map(({ from_mL, to_mL }) => to_mL - from_mL)), meets: meetsTargets(held, targets) };
}

/** What a task is judged by: shares of what was poured, acid in mmol. */
export interface TaskHeld {
  readonly recovered: number;
  readonly carried: number;
  readonly acid_mmol: number;
  readonly meets: boolean;
}

/** What a run has for its task: its receivers for the target together, where there are several, else the one that counts; nothing where none does. */
export function taskHeld(plan: Plan, targets: FractionTargets): TaskHeld {
  const kept = keptOf(plan, targets);
  const found = togetherOf(plan, targets) ?? (kept && keptVerdict(plan, targets, kept));
  if (!found) return { recovered: 0, carried: 0, acid_mmol: 0, meets: false };
  const { recovered, carried, acid_mmol, meets } = found;
  return { recovered, carried, acid_mmol, meets };
}

export function meetsTask(plan: Plan, targets: FractionTargets): boolean {
  return taskHeld(plan, targets).meets;
}

export function namesOf({ labels }: Together): string {
  return labels.map((label) => `“${label}”`).join(', ');
}
