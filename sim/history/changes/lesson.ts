import { decimalsApart } from '../../math/decimals.ts';
import { capital } from '../../terms/capital.ts';
import { IONS } from '../../terms/ions.ts';
import type { IonId } from '../../terms/types.ts';
import { collectedAt, lastVolumeAt, leavesAt, pouredOf } from '../effluent.ts';
import type { Plan } from '../plan.ts';
import { keptOf, type Span, withStop } from './fractions.ts';
import { namesOf, type Together, togetherOf } from './together.ts';
import { keptVerdict } from './kept-verdict.ts';
import { earliestChange, switchWindow, type SwitchWindow, type Verdict } from './switch-window.ts';
import type { FractionTargets } from './targets.ts';

// What a run teaches: what was recovered, what it cost, and the one thing that would have changed most.

/** A smaller share of a loss is not told. */
const LEAST_TOLD = 0.0005;
/** Tenths of a mL that come from reckoning in binary. */
const ROUNDING = 1e-6;

/** The one change that answers what cost most. Volumes are delivered ones, mL; shares are of what was poured. */
export type Advice =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'collect' | 'part' }
  /** `share`: of the target, what left between `at_mL` and the change. */
  | { readonly kind: 'change-sooner'; readonly by_mL: number; readonly at_mL: number; readonly share: number }
  | { readonly kind: 'change-later'; readonly by_mL: number; readonly at_mL: number }
  | { readonly kind: 'elute-on' | 'stay' | 'elute-sooner'; readonly share: number }
  | { readonly kind: 'wash-longer'; readonly ion: IonId; readonly share: number }
  | { readonly kind: 'overlap' };

export interface Lesson {
  /** Of a day: what its receivers hold together; then there is no one change to advise. */
  readonly together?: Together | undefined;
  /** The stay of the receiver that counts; undefined while none of the target has been delivered, or all of it with the others. */
  readonly kept: Span | undefined;
  readonly found: Verdict | undefined;
  readonly window: SwitchWindow | undefined;
  readonly advice: Advice;
}

/** `eluent_mL`: delivered volume at which the weaker eluent was first poured; undefined if none was. */
export function lessonOf(plan: Plan, targets: FractionTargets, eluent_mL: number | undefined): Lesson {
  const kept = keptOf(plan, targets);
  if (!kept) return { kept, found: undefined, window: undefined, advice: { kind: leavesAt(plan, targets.target, 0) === undefined ? 'collect' : 'part' } };
  const bounded = withStop(plan, targets);
  const found = keptVerdict(plan, targets, kept);
  const together = togetherOf(plan, targets);
  if (together) return { together, kept, found, window: undefined, advice: { kind: 'nothing' } };
  const window = switchWindow(plan, bounded);
  if (found.meets) return { kept, found, window, advice: { kind: 'nothing' } };
  return { kept, found, window, advice: window ? byWindow(plan, targets.target, kept, found, window) : byCost(plan, bounded, kept, found, eluent_mL) };
}

/** In a few sentences: what was recovered, what it cost, what to change. `amiss`: clauses on what else went wrong, which is not to be done again. */
export function lessonWords(lesson: Lesson, targets: FractionTargets, amiss: readonly string[] = []): string {
  const also = amiss.map((clause) => ` ${capital(clause)}.`).join('');
  const { advice, found } = lesson;
  if (amiss.length === 0 || !found || lesson.together || advice.kind !== 'nothing') return `${plainWords(lesson, targets)}${also}`;
  return `${foundWords(found, targets)} Every limit was met, though ${amiss.join(', and ')}.`;
}

function plainWords(lesson: Lesson, targets: FractionTargets): string {
  const { found, advice } = lesson;
  const { target, unwanted } = targets;
  const { name } = IONS[target];
  if (!found) return `No ${name} has been collected${advice.kind === 'part' ? ' apart from the rest' : ''}. Next time: ${adviceWords(advice, name)}.`;
  if (lesson.together) return dayWords(lesson.together, targets, unwanted.map((ion) => IONS[ion].name).join(' or '));
  return `${foundWords(found, targets)} Next time: ${adviceWords(advice, name)}${missWords(lesson, targets)}${alsoWords(lesson, targets)}.`;
}

function foundWords(found: Verdict, targets: FractionTargets): string {
  const { target, unwanted } = targets;
  const others = unwanted.map((ion) => IONS[ion].name).join(' or ');
  const carried = unwanted.length === 0 ? '' : ` with ${percent(found.carried, targets.carried)} of the ${others}`;
  return `${percent(found.recovered, targets.recovered)} of the ${IONS[target].name} was recovered${carried}; it cost ${mmol(found.acid_mmol, targets.acid_mmol)} of acid to neutralise.`;
}

/** Of a day: whether it met the limits, and which it missed. */
function dayWords(day: Together, targets: FractionTargets, others: string): string {
  const { recovered, carried, acid_mmol = Number.POSITIVE_INFINITY } = targets;
  const { name } = IONS[targets.target];
  const carrying = others === '' ? '' : ` with ${percent(day.carried, carried)} of the ${others}`;
  const held = `The receivers ${namesOf(day)} together hold ${percent(day.recovered, recovered)} of the ${name}${carrying}, and none more than ${mmol(day.acid_mmol, acid_mmol)} of acid.`;
  const missed = [
    ...(day.recovered < recovered ? [`asks for ${percent(recovered)} of the ${name}`] : []),
    ...(day.carried > carried ? [`allows ${percent(carried)} of the ${others}`] : []),
    ...(day.acid_mmol > acid_mmol ? [`allows ${acid_mmol.toFixed(0)}\u202fmmol of acid in each`] : []),
  ];
  return `${held} ${day.meets ? 'Every limit was met.' : `The task ${missed.join(', and ')}.`}`;
}

/** The receiver change alone decides: it was outside its window, or nothing has to change. */
function byWindow(plan: Plan, target: IonId, kept: Span, { early_mL = 0, late_mL = 0 }: Verdict, { from_mL, to_mL }: SwitchWindow): Advice {
  if (late_mL > 0) return sooner(plan, target, kept, to_mL);
  return early_mL > 0 ? { kind: 'change-later', by_mL: early_mL, at_mL: from_mL } : { kind: 'nothing' };
}

/** No change of receiver would have been enough: what cost the largest share decides. */
function byCost(plan: Plan, targets: FractionTargets, kept: Span, found: Verdict, eluent_mL: number | undefined): Advice {
  const costs = [...lossesOf(plan, targets, kept, found, eluent_mL), ...excessOf(plan, targets, kept, found, eluent_mL)];
  return costs.reduce<Cost>((most, cost) => (cost.share > most.share ? cost : most), { share: 0, advice: { kind: 'overlap' } }).advice;
}

/** What was lost or carried, as a share of what was poured, and what would answer it. */
interface Cost {
  readonly share: number;
  readonly advice: Advice;
}

/** Of the target. Where enough was recovered, only what left under the acid counts: it is what leaves no room for a change. */
function lossesOf(plan: Plan, targets: FractionTargets, kept: Span, found: Verdict, eluent_mL: number | undefined): Cost[] {
  const allowed = 1 - targets.recovered;
  const underAcid = eluent_mL === undefined ? 0 : shareAt(plan, targets.target, eluent_mL);
  const early: Cost[] = underAcid > allowed ? [{ share: underAcid, advice: { kind: 'elute-sooner', share: underAcid } }] : [];
  if (found.recovered >= targets.recovered) return early;
  const { lostBehind, lostAfter } = found;
  const change = sooner(plan, targets.target, kept, bestChange(plan, targets));
  return [
    { share: lostBehind, advice: { kind: 'elute-on', share: lostBehind } },
    { share: lostAfter, advice: { kind: 'stay', share: lostAfter } },
    { share: change.by_mL > 0 ? change.share : 0, advice: change },
    ...early,
  ];
}

/** Of what was not wanted, beyond what is allowed: a later change leaves it behind where that loses no target, else a longer wash. */
function excessOf(plan: Plan, targets: FractionTargets, { from_mL }: Span, { carried, acid_mmol }: Verdict, eluent_mL: number | undefined): Cost[] {
  const at_mL = earliestChange(plan, targets);
  const excess = carried - targets.carried;
  const isFree = at_mL > from_mL && shareAt(plan, targets.target, at_mL) <= 1 - targets.recovered;
  // Acid is no share of a metal: it decides only where nothing else does.
  if (isFree && (excess > 0 || acid_mmol > (targets.acid_mmol ?? Number.POSITIVE_INFINITY)))
    return [{ share: Math.max(excess, Number.MIN_VALUE), advice: { kind: 'change-later', by_mL: at_mL - from_mL, at_mL } }];
  const [ion] = [...targets.unwanted].sort((a, b) => leftAfter(plan, b, eluent_mL) - leftAfter(plan, a, eluent_mL));
  const behind = ion === undefined ? 0 : leftAfter(plan, ion, eluent_mL);
  return ion !== undefined && excess > 0 && behind > targets.carried ? [{ share: excess, advice: { kind: 'wash-longer', ion, share: behind } }] : [];
}

/** The change that loses no more than the task allows, or, where acid or another metal forbids that, the earliest that they allow. */
function bestChange(plan: Plan, targets: FractionTargets): number {
  const unmissed = lastVolumeAt(plan, targets.target, (1 - targets.recovered) * pouredOf(plan, targets.target));
  return Math.max(unmissed, earliestChange(plan, targets));
}

function sooner(plan: Plan, target: IonId, { from_mL }: Span, at_mL: number): Extract<Advice, { kind: 'change-sooner' }> {
  return { kind: 'change-sooner', by_mL: from_mL - at_mL, at_mL, share: shareAt(plan, target, from_mL) - shareAt(plan, target, at_mL) };
}

function adviceWords(advice: Advice, name: string): string {
  switch (advice.kind) {
    case 'nothing':
      return 'do the same again, since every limit was met';
    case 'collect':
      return `continue with the weaker eluent until the ${name} leaves`;
    case 'part':
      return `put a receiver of its own under the tip before the ${name} leaves`;
    case 'change-sooner':
      return `change the receiver ${moveWords(advice, -1)}`;
    case 'change-later':
      return `change the receiver ${moveWords(advice, 1)} or after`;
    case 'elute-on':
      return `let more of the weaker eluent run through, since ${percent(advice.share)} of the ${name} stayed behind`;
    case 'stay':
      return `leave the receiver under the tip for longer, since ${percent(advice.share)} of the ${name} left after it was removed`;
    case 'elute-sooner':
      return `start the weaker eluent sooner, since ${percent(advice.share)} of the ${name} had left before it was poured`;
    case 'wash-longer':
      return `wash longer, since ${percent(advice.share)} of the ${IONS[advice.ion].name} had not left yet when the weaker eluent was poured`;
    case 'overlap':
      return `allow more acid or more loss, since acid, ${name} and the other metals left together`;
  }
}

/** By how much to move the change and where to, on a scale of tenths of a mL: the place lies on the right side of its limit, and is never the one where it was. */
function moveWords({ by_mL, at_mL }: { readonly by_mL: number; readonly at_mL: number }, side: 1 | -1): string {
  const was = Math.round(10 * (at_mL - side * by_mL));
  const least = side * Math.ceil(side * 10 * at_mL - ROUNDING);
  const to = least === was ? was + side : least;
  return `${mL(Math.max(by_mL, 0.1))} ${side < 0 ? 'sooner' : 'later'}, at ${mL(to / 10)}`;
}

/** Which limit a change of receiver at another moment would have kept, and what broke it. */
function missWords({ found, advice }: Lesson, targets: FractionTargets): string {
  if (!found || (advice.kind !== 'change-sooner' && advice.kind !== 'change-later')) return '';
  const { name } = IONS[targets.target];
  if (advice.kind === 'change-later') return found.carried > targets.carried ? metalWords(targets) : acidWords(targets);
  const lost = 1 - found.recovered;
  if (advice.share >= lost / 2) return `, since ${percent(advice.share)} of the ${name} left in between`;
  const where = [
    [found.lostBefore, 'had left before the change'],
    [found.lostBehind, 'stayed behind'],
    [found.lostAfter, 'left after the receiver was removed'],
  ] as const;
  const told = where.filter(([share]) => share >= LEAST_TOLD).map(([share, how]) => `${percent(share)} ${how}`);
  return `: of the ${name} ${told.join(' and ')}, where ${percent(1 - targets.recovered, lost)} may be lost`;
}

/** Beside a change of the receiver that alone is not enough: what has to be done as well. */
function alsoWords({ found, window, advice }: Lesson, { target, unwanted, recovered }: FractionTargets): string {
  if (!found || window || (advice.kind !== 'change-sooner' && advice.kind !== 'change-later')) return '';
  const { name } = IONS[target];
  const allowed = 1 - recovered;
  const since = (share: number, how: string): string => `, since ${percent(share, allowed)} of the ${name} ${how} and ${percent(allowed, share)} may be lost`;
  if (found.lostBehind > allowed) return `; let more of the weaker eluent run through as well${since(found.lostBehind, 'stayed behind')}`;
  if (found.lostBehind + found.lostAfter > allowed)
    return `; leave the receiver under the tip for longer as well${since(found.lostBehind + found.lostAfter, 'came later or not at all')}`;
  const others = ['acid', ...unwanted.map((ion) => IONS[ion].name)].join(' or ');
  return `; even then not every limit is met, since ${others} left together with the ${name}`;
}

function metalWords({ unwanted, carried }: FractionTargets): string {
  return `: sooner it takes more than ${percent(carried)} of the ${unwanted.map((ion) => IONS[ion].name).join(' or ')}`;
}

function acidWords({ acid_mmol = 0 }: FractionTargets): string {
  return `: sooner it takes more than ${acid_mmol.toFixed(0)}\u202fmmol of acid`;
}

/** Share of an ion that was still to be delivered when the weaker eluent was poured. */
function leftAfter(plan: Plan, ion: IonId, eluent_mL: number | undefined): number {
  return eluent_mL === undefined || leavesAt(plan, ion, 0) === undefined ? 1 : 1 - shareAt(plan, ion, eluent_mL);
}

function shareAt(plan: Plan, ion: IonId, delivered_mL: number): number {
  const poured = pouredOf(plan, ion);
  return poured > 0 ? collectedAt(plan, ion, delivered_mL) / poured : 0;
}

/** A no-break space keeps a number with its unit; beside a limit it has as many decimals as tell the two apart. */
function percent(share: number, limit = Number.NaN): string {
  return `${(100 * share).toFixed(decimalsApart(100 * share, 100 * limit, 1))}\u202f%`;
}

function mL(volume: number): string {
  return `${volume.toFixed(1)}\u202fmL`;
}

function mmol(amount: number, limit = Number.NaN): string {
  return `${amount.toFixed(decimalsApart(amount, limit, 1))}\u202fmmol`;
}
