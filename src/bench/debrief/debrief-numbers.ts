import { bottleName } from '../../../sim/terms/bottle-name.ts';
import { receiverName } from '../../ui/text/receiver-words.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import {
  type FractionTargets,
  type Plan,
  progressOf,
  isWithEluent,
  type Lesson,
  lessonOf,
  type Results,
  type Span,
  type SwitchWindow,
  type Verdict,
} from '../../../sim/history/index.ts';
import type { Amounts, IonId, Scenario } from '../../../sim/terms/types.ts';
import { decimalsApart } from '../../../sim/math/decimals.ts';
import { percentBeside } from '../../ui/text/beside-limit.ts';
import { fixed, millilitres, millimoles, percent, withUnit } from '../../ui/text/format.ts';

// The figures of the debrief, worked out of a run: where everything is, and what the choice of the moment cost.

/** A place that holds liquid or ions; every mmol is in exactly one. */
export interface Place {
  readonly label: string;
  readonly kind: 'receiver' | 'head' | 'bed' | 'tip' | 'spilled';
  readonly volume_mL: number | undefined;
  readonly amounts: Amounts;
}

export function placesOf(results: Results): Place[] {
  const { receivers, inHead, onBed, inTip, spilled } = results;
  const held: Place[] = receivers.map((receiver) => ({
    label: receiverName(receiver.label),
    kind: 'receiver',
    volume_mL: receiver.volume_mL,
    amounts: receiver,
  }));
  const rest: Place[] = [
    { label: 'above the bed', kind: 'head', volume_mL: undefined, amounts: inHead },
    { label: 'on the bed', kind: 'bed', volume_mL: undefined, amounts: onBed },
    { label: 'below the bed', kind: 'tip', volume_mL: undefined, amounts: inTip },
  ];
  const lost: Place = { label: 'spilled or dried off', kind: 'spilled', volume_mL: undefined, amounts: spilled };
  return [...held, ...rest, ...(Object.values(spilled).some((amount) => amount > 0) ? [lost] : [])];
}

export function amountOf(place: Place, component: IonId | 'HCl'): number {
  return Number(place.amounts[`${component}_mmol`] ?? 0);
}

/** The kept fraction, its verdict, and what another moment would have saved. */
export interface Judgement {
  readonly lesson: Lesson;
  readonly kept: Span;
  readonly found: Verdict;
  readonly window: SwitchWindow | undefined;
  /** Delivered volume at which a weaker eluent was first poured after the sample; undefined if none was. */
  readonly eluent_mL: number | undefined;
  /** What was carried that a change at the end of the window would have left behind. */
  readonly needlessAcid_mmol: number;
  readonly needlessNaOH_mL: number;
  /** mmol of the target in receivers before the change, after the stop, and not delivered. */
  readonly lost: { readonly before_mmol: number; readonly after_mmol: number; readonly behind_mmol: number };
}

export function judgementOf(scenario: Scenario, plan: Plan, targets: FractionTargets): Judgement | undefined {
  const { eluent_mL } = progressOf(scenario, plan.events);
  const lesson = lessonOf(plan, targets, eluent_mL);
  const { kept, found, window } = lesson;
  if (!kept || !found) return undefined;
  const least = window?.at(window.to_mL);
  const loaded = plan.results.loaded[`${targets.target}_mmol`] ?? 0;
  return {
    lesson,
    kept,
    found,
    window,
    eluent_mL,
    needlessAcid_mmol: least ? Math.max(0, found.acid_mmol - least.acid_mmol) : 0,
    needlessNaOH_mL: least ? Math.max(0, found.NaOH_mL - least.NaOH_mL) : 0,
    lost: { before_mmol: found.lostBefore * loaded, after_mmol: found.lostAfter * loaded, behind_mmol: found.lostBehind * loaded },
  };
}

/** The judgement in sentences, plainest first. */
export function judgementWords(judgement: Judgement, targets: FractionTargets): string[] {
  const { kept, found, window, needlessAcid_mmol, needlessNaOH_mL, lost } = judgement;
  const name = IONS[targets.target].name;
  const { together } = judgement.lesson;
  if (together) return together.labels.map((label, i) => `“${label}” took ${percent(together.shares[i], 1)} of all the ${name} that was poured.`);
  const lines = [
    `“${receiverName(kept.label)}” was under the tip from ${millilitres(kept.from_mL)} to ${millilitres(kept.to_mL)} and took ${percentBeside(found.recovered, targets.recovered)} of the ${name}.`,
    window ? changeWords(judgement, window, name) : noWindowWords(judgement, targets),
    ...withWords(judgement, targets),
  ];
  if (window && needlessAcid_mmol > 0.5)
    lines.push(
      `Against a change at the end of the window it carries ${millimoles(needlessAcid_mmol, 1)} more acid, ${millilitres(needlessNaOH_mL, 2)} more NaOH.`,
    );
  if (lost.after_mmol > 0.001) lines.push(`${percent(found.lostAfter, 1)} of the ${name} dripped after that receiver was taken away.`);
  if (lost.behind_mmol > 0.001) lines.push(`${percent(found.lostBehind, 1)} of the ${name} never left the column: collecting stopped too soon.`);
  return lines;
}

/** A change made with the weaker eluent or before it: what drips then is still acid. */
function withWords({ kept, found: { acid_mmol }, eluent_mL }: Judgement, { acid_mmol: most = Number.POSITIVE_INFINITY }: FractionTargets): string[] {
  if (eluent_mL === undefined || kept.from_mL <= 0) return [];
  const after_mL = kept.from_mL - eluent_mL;
  const together = isWithEluent(kept.from_mL, eluent_mL);
  if (!together && after_mL > 0) return [];
  // Half a tenth less is written as 0.0, which is not before anything.
  const side = after_mL < -0.05 ? 'before' : 'after';
  const early = acid_mmol > most ? ', too early for the acid: what drips then still is acid' : '';
  return [`The receiver was changed ${together ? 'with' : 'before'} the weaker eluent, ${millilitres(Math.abs(after_mL))} ${side} it began${early}.`];
}

/** Where the change was against its window. */
function changeWords({ kept, found: { early_mL = 0, late_mL = 0, lostBefore } }: Judgement, { from_mL, to_mL }: SwitchWindow, name: string): string {
  const edge_mL = early_mL > 0 ? from_mL : to_mL;
  const off_mL = early_mL + late_mL;
  const decimals = off_mL > 0 ? Math.max(decimalsApart(kept.from_mL, edge_mL, 1), decimalsApart(off_mL, 0, 1)) : 1;
  const window = `(${millilitres(from_mL, decimals)} to ${millilitres(to_mL, decimals)})`;
  if (early_mL > 0) return `The receiver was changed ${millilitres(early_mL, decimals)} before the window ${window}.`;
  if (late_mL > 0)
    return `The receiver was changed ${millilitres(late_mL, decimals)} after the window ${window}: ${percent(lostBefore, 1)} of the ${name} had already dripped into another receiver.`;
  return `The receiver was changed inside the window ${window}.`;
}

/** Why no moment for the change would have been right: too little left the column while the receiver could take it, or what had to be kept apart left together. */
function noWindowWords({ found }: Judgement, { target, unwanted, recovered }: FractionTargets): string {
  const { name } = IONS[target];
  const out = 1 - found.lostBehind;
  const caught = out - found.lostAfter;
  const none = 'No moment for the change alone would have met the task';
  if (out < recovered) return `${none}: collecting stopped too soon, when only ${percentBeside(out, recovered)} of the ${name} had left the column.`;
  if (caught < recovered)
    return `${none}: the receiver was taken away too soon, when only ${percentBeside(caught, recovered)} of the ${name} had left the column.`;
  const others = ['acid', ...unwanted.map((ion) => IONS[ion].name)].join(' or ');
  return `${none}: where enough of the ${name} is caught, too much ${others} comes with it, since they left together.`;
}

/** What to try first with the handles of the figure: what the lesson asks for, where a handle does it. */
export function tryWords({ advice: { kind } }: Lesson): string {
  switch (kind) {
    case 'change-sooner':
      return 'the receiver sooner';
    case 'change-later':
      return 'the receiver later';
    case 'elute-sooner':
      return 'water sooner';
    case 'wash-longer':
      return 'water later';
    default:
      return 'water or the receiver, sooner or later';
  }
}

export interface Fact {
  readonly label: string;
  readonly value: string;
}

export function factsOf(scenario: Scenario, results: Results, plan: Plan, now_min: number): Fact[] {
  const poured = new Map<string, number>();
  for (const { action, refused, time_min } of plan.events) {
    if (action?.do !== 'pour' || refused || time_min > now_min) continue;
    poured.set(action.liquid, (poured.get(action.liquid) ?? 0) + action.volume_mL);
  }
  return [
    ...[...poured].map(([liquid, volume]) => ({ label: `${bottleName(liquid, scenario.liquids)} poured`, value: millilitres(volume) })),
    { label: 'delivered', value: millilitres(results.delivered_mL) },
    { label: 'model time', value: withUnit(fixed(results.time_min, 1), 'min') },
    {
      label: 'lowest liquid above the bed',
      value: results.lowestLiquid_mm > 0 ? withUnit(fixed(results.lowestLiquid_mm, 1), 'mm') : 'none: the liquid reached the bed top',
    },
  ];
}
