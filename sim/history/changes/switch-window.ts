import type { IonId } from '../../terms/types.ts';
import { collectedAt, lastVolumeAt, pouredOf, type Solute, volumeAt } from '../effluent.ts';
import { deliveredAtEnd } from '../frames.ts';
import type { Plan } from '../plan.ts';
import type { FractionTargets } from './targets.ts';

// When to change the receiver, read off a run, and what each change gives. Amounts between frames are interpolated.

/** What a fraction holds. */
export interface Fraction {
  readonly volume_mL: number;
  readonly recovered: number;
  readonly carried: number;
  readonly acid_mmol: number;
  readonly NaOH_mL: number;
}

/** Delivered volumes at which the receiver may be changed, and what each would give. */
export interface SwitchWindow {
  readonly from_mL: number;
  readonly to_mL: number;
  readonly stop_mL: number;
  at(change_mL: number): Fraction;
}

export interface Verdict extends Fraction {
  readonly meets: boolean;
  /** Shares of the target delivered before the change, after the stop, and never delivered. */
  readonly lostBefore: number;
  readonly lostAfter: number;
  readonly lostBehind: number;
  /** How far outside the window; 0 inside. Undefined when no change of receiver meets the targets. */
  readonly early_mL: number | undefined;
  readonly late_mL: number | undefined;
}

/** Where to start or change within a window, mL: in its middle, where neither a little too soon nor a little too late costs anything. */
export function bestStart({ from_mL, to_mL }: { readonly from_mL: number; readonly to_mL: number }): number {
  return (from_mL + to_mL) / 2;
}

/** The changes of receiver that meet the targets; undefined when none does. */
export function switchWindow(plan: Plan, targets: FractionTargets): SwitchWindow | undefined {
  const stop_mL = stopOf(plan, targets);
  const span = spanOf(plan, targets, stop_mL);
  return span && { ...span, stop_mL, at: (change_mL) => fractionOf(plan, targets, change_mL, stop_mL) };
}

/** What collecting from a change of receiver until a stop gives, and how far off the window it is. */
export function verdict(plan: Plan, targets: FractionTargets, change_mL: number, stop_mL = stopOf(plan, targets)): Verdict {
  const fraction = fractionOf(plan, targets, change_mL, stop_mL);
  const end = deliveredAtEnd(plan);
  const shareAt = (delivered_mL: number): number => share(collectedAt(plan, targets.target, delivered_mL), pouredOf(plan, targets.target));
  const span = spanOf(plan, targets, stop_mL);
  return {
    ...fraction,
    meets: meetsTargets(fraction, targets),
    lostBefore: shareAt(change_mL),
    lostAfter: shareAt(end) - shareAt(stop_mL),
    lostBehind: Math.max(0, 1 - shareAt(end)),
    early_mL: span && Math.max(0, span.from_mL - change_mL),
    late_mL: span && Math.max(0, change_mL - span.to_mL),
  };
}

export function meetsTargets({ recovered, carried, acid_mmol }: Pick<Fraction, 'recovered' | 'carried' | 'acid_mmol'>, targets: FractionTargets): boolean {
  return recovered >= targets.recovered && carried <= targets.carried && acid_mmol <= (targets.acid_mmol ?? Number.POSITIVE_INFINITY);
}

function stopOf(plan: Plan, targets: FractionTargets): number {
  return targets.stop_mL ?? deliveredAtEnd(plan);
}

/** The earliest change after which no more of anything unwanted is carried than allowed, mL; that of acid as well. */
export function earliestChange(plan: Plan, targets: FractionTargets): number {
  const stop_mL = stopOf(plan, targets);
  const limits = targets.unwanted.map((ion): [Solute, number] => [ion, targets.carried * pouredOf(plan, ion)]);
  if (targets.acid_mmol !== undefined) limits.push(['HCl', targets.acid_mmol]);
  const least = ([solute, most]: [Solute, number]): number => volumeAt(plan, solute, collectedAt(plan, solute, stop_mL) - most) ?? stop_mL;
  return Math.max(0, ...limits.map(least));
}

function spanOf(plan: Plan, targets: FractionTargets, stop_mL: number): { from_mL: number; to_mL: number } | undefined {
  const { target, recovered } = targets;
  const loss = collectedAt(plan, target, stop_mL) - recovered * pouredOf(plan, target);
  if (!(loss >= 0) || pouredOf(plan, target) <= 0) return undefined;
  const to_mL = Math.min(stop_mL, lastVolumeAt(plan, target, loss));
  const from_mL = earliestChange(plan, { ...targets, stop_mL });
  return from_mL <= to_mL ? { from_mL, to_mL } : undefined;
}

function fractionOf(plan: Plan, targets: FractionTargets, change_mL: number, stop_mL: number): Fraction {
  const amount = (solute: Solute): number => Math.max(0, collectedAt(plan, solute, stop_mL) - collectedAt(plan, solute, change_mL));
  const shareOf = (ion: IonId): number => share(amount(ion), pouredOf(plan, ion));
  const acid_mmol = amount('HCl');
  return {
    volume_mL: Math.max(0, stop_mL - change_mL),
    recovered: shareOf(targets.target),
    carried: Math.max(0, ...targets.unwanted.map(shareOf)),
    acid_mmol,
    NaOH_mL: acid_mmol / targets.NaOH_M,
  };
}

function share(part: number, whole: number): number {
  return whole > 0 ? part / whole : 0;
}
