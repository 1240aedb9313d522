import {
  BEGINS_SHARE,
  bandOnRuler,
  type FractionTargets,
  frameAtTime,
  isSample,
  isWeaker,
  leavesAt,
  type Plan,
  type RunEvent,
  timeAt,
  verdict,
} from '../history/index.ts';
import type { IonId, Scenario } from '../terms/types.ts';

// The moments of a run that are worth a word, in the order in which they come, with figures read off that very run.

export type StoryMoment = { readonly time_min: number; readonly delivered_mL: number } & (
  | { readonly kind: 'start'; readonly liquid: string }
  | { readonly kind: 'conditioned'; readonly liquid: string; readonly poured_mL: number }
  | {
      readonly kind: 'loaded';
      readonly poured_mL: number;
      readonly edge_cm: number;
      readonly later: { readonly washed_mL: number; readonly edge_cm: number } | undefined;
    }
  | { readonly kind: 'through'; readonly ion: IonId; readonly from_mL: number; readonly to_mL: number }
  | { readonly kind: 'released'; readonly liquid: string; readonly edge_cm: number; readonly length_cm: number; readonly washed_mL: number }
  | { readonly kind: 'changed'; readonly label: string; readonly after_mL: number }
  | { readonly kind: 'leaving'; readonly ion: IonId; readonly after_mL: number }
  | {
      readonly kind: 'done';
      readonly ion: IonId;
      readonly label: string;
      readonly recovered: number;
      readonly volume_mL: number;
      readonly asked: number;
      readonly lostBefore: number;
      readonly lostBehind: number;
    }
);

/** Shares of an ion between which it is said to run through. A choice. */
const THROUGH = [0.05, 0.95] as const;

type Pour = RunEvent & { readonly action: { readonly do: 'pour'; readonly liquid: string; readonly volume_mL: number } };

/** Moments of a whole run; those that it does not have are left out. */
export function storyOf(scenario: Scenario, plan: Plan, targets: FractionTargets): StoryMoment[] {
  const { target, unwanted } = targets;
  const pours = plan.events.filter((event): event is Pour => !event.refused && event.action?.do === 'pour');
  const sample = pours.findIndex(({ action }) => isSample(scenario.liquids[action.liquid]));
  if (sample < 0) return [];
  const load = pours[sample];
  const water = pours.find(({ action }, i) => i > sample && isWeaker(scenario.liquids[action.liquid], scenario.liquids[load.action.liquid].HCl_M));
  return [
    ...before(pours, sample),
    ...loaded(plan, load, pours[sample + 1], target, water && { washed_mL: sum(pours.slice(sample + 1, pours.indexOf(water))), time_min: water.time_min }),
    ...unwanted.flatMap((ion) => through(plan, ion)),
    ...(water ? released(plan, pours, sample, water, target) : []),
    ...(water ? afterWater(plan, water, target) : []),
    ...done(plan, target, targets),
  ].sort((a, b) => a.time_min - b.time_min);
}

function at({ time_min, delivered_mL }: RunEvent) {
  return { time_min, delivered_mL };
}

function sum(pours: readonly Pour[]): number {
  return pours.reduce((total, { action }) => total + action.volume_mL, 0);
}

function before(pours: readonly Pour[], sample: number): StoryMoment[] {
  const [first] = pours;
  if (sample === 0) return [];
  const { liquid } = first.action;
  return [
    { kind: 'start', time_min: 0, delivered_mL: 0, liquid },
    { kind: 'conditioned', ...at(pours[sample]), liquid, poured_mL: sum(pours.slice(0, sample)) },
  ];
}

function loaded(plan: Plan, load: Pour, next: Pour | undefined, target: IonId, wash: { washed_mL: number; time_min: number } | undefined): StoryMoment[] {
  const edge = next && edgeAt(plan, target, next.time_min);
  if (!next || edge === undefined) return [];
  const edge_cm = wash && edgeAt(plan, target, wash.time_min);
  const later = wash && edge_cm !== undefined ? { washed_mL: wash.washed_mL, edge_cm } : undefined;
  return [{ kind: 'loaded', ...at(next), poured_mL: load.action.volume_mL, edge_cm: edge, later }];
}

function through(plan: Plan, ion: IonId): StoryMoment[] {
  const [from_mL, to_mL] = THROUGH.map((share) => leavesAt(plan, ion, share));
  return from_mL === undefined || to_mL === undefined ? [] : [{ kind: 'through', time_min: timeAt(plan, to_mL), delivered_mL: to_mL, ion, from_mL, to_mL }];
}

function released(plan: Plan, pours: readonly Pour[], sample: number, water: Pour, target: IonId): StoryMoment[] {
  const edge_cm = edgeAt(plan, target, water.time_min);
  const washed_mL = sum(pours.slice(sample + 1, pours.indexOf(water)));
  return edge_cm === undefined ? [] : [{ kind: 'released', ...at(water), liquid: water.action.liquid, edge_cm, length_cm: plan.length_cm, washed_mL }];
}

function afterWater(plan: Plan, water: Pour, target: IonId): StoryMoment[] {
  const changes = plan.events.flatMap((event): StoryMoment[] =>
    !event.refused && event.action?.do === 'receiver' && event.time_min >= water.time_min
      ? [{ kind: 'changed', ...at(event), label: event.action.label, after_mL: event.delivered_mL - water.delivered_mL }]
      : [],
  );
  const leaves = leavesAt(plan, target, BEGINS_SHARE);
  const leaving: StoryMoment[] =
    leaves !== undefined && leaves > water.delivered_mL
      ? [{ kind: 'leaving', time_min: timeAt(plan, leaves), delivered_mL: leaves, ion: target, after_mL: leaves - water.delivered_mL }]
      : [];
  return [...changes, ...leaving];
}

function done(plan: Plan, target: IonId, targets: FractionTargets): StoryMoment[] {
  const { time_min, delivered_mL } = plan.logEnd;
  const last = plan.events.findLast(({ action, refused }) => action?.do === 'receiver' && !refused);
  if (last?.action?.do !== 'receiver') return [];
  const { recovered, lostBefore, lostBehind } = verdict(plan, targets, last.delivered_mL, delivered_mL);
  const share = { recovered, asked: targets.recovered, lostBefore, lostBehind };
  return [{ kind: 'done', time_min, delivered_mL, ion: target, label: last.action.label, volume_mL: delivered_mL - last.delivered_mL, ...share }];
}

function edgeAt(plan: Plan, ion: IonId, time_min: number): number | undefined {
  return bandOnRuler(plan, ion, frameAtTime(plan, time_min))?.leading_cm;
}
