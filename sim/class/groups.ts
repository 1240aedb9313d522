// What a class will see: many groups, and how much of the difference between them each spread causes.
import { targetsOf } from '../history/index.ts';
import type { IonId, Scenario } from '../terms/types.ts';
import { type Group, type GroupDepths, type GroupFigures, groupInBrief, groupOf } from './group.ts';
import { type Distribution, distributionOf } from './quantiles.ts';
import type { Spread } from '../hands/index.ts';
import { SPREAD_IDS, type SpreadId, spreadsOf } from './spreads.ts';

/** Most groups of one class; beyond it nothing more is learned. */
export const GROUPS_MAX = 10_000;
/** Groups for which each spread is computed alone: a variance from so many is known to about a quarter of itself (chi-square, 2/(n - 1)). */
const ALONE_MOST = 40;

export type Figure = Exclude<keyof GroupFigures, 'meets'>;
export type Depth = keyof GroupDepths;
export type Figures = Readonly<Partial<Record<Figure, Distribution>>>;
/** Share of the variance that a spread causes alone; `together` is 1 if the spreads simply add. */
export type Shares = Readonly<Partial<Record<SpreadId, number>>> & {
  readonly together: number;
};

export interface ClassForecast {
  readonly scenario: string;
  readonly title: string;
  readonly seed: number;
  readonly groups: number;
  readonly groupsAlone: number;
  /** What has to be collected, and the number of groups in which the written procedure collects less, or more acid than is allowed, if that has a bound. */
  readonly target: {
    readonly ion: IonId;
    readonly recovered: number;
    readonly missedBy: number;
    readonly acid_mmol: number | undefined;
    readonly tooAcid: number;
  };
  readonly lanes: number;
  readonly spreads: Readonly<Record<SpreadId, Spread>>;
  /** The lab itself, its column and bottles as written, in the hands that are meant: what a calibration computes. */
  readonly itself: ClassAnswer | undefined;
  readonly depths: Readonly<Partial<Record<Depth, Distribution>>>;
  readonly procedures: {
    readonly written: Figures;
    readonly forty: Figures;
    readonly stopped: Figures;
  };
  /** Groups that did what the task asks, by each procedure. */
  readonly met: { readonly written: number; readonly forty: number; readonly stopped: number };
  readonly shares: Readonly<Partial<Record<Depth | Figure, Shares>>>;
}

/** One piece of the work; any order, any thread. `alone` is the only spread that is switched on, or that none is; without it, all are. */
export interface ClassTask {
  readonly n: number;
  readonly alone?: SpreadId | 'none';
}

export type ClassAnswer = Partial<Group> & Pick<Group, 'depths' | 'written'>;

const DEPTHS = [
  'leading_20_cm',
  'middle_20_cm',
  'top_20_cm',
  'delivered_20_mL',
  'leading_40_cm',
  'middle_40_cm',
  'near_mL',
] as const satisfies readonly Depth[];
const FIGURES = ['wash_mL', 'window_from_mL', 'window_to_mL', 'recovered', 'carried', 'acid_mmol', 'titre_mL', 'time_min'] as const satisfies readonly Figure[];
/** Group 0 would be the lab without spread, so groups are counted from 1. */
const FIRST = 1;

/** mL between recorded frames: only depths are interpolated between them. */
const FRAME_ML = 0.2;

/** The lab as its groups are computed: on one lane, where evenness has no effect, and with fewer frames, for speed. */
export function forClass(lab: Scenario): Scenario {
  return { ...lab, values: { ...lab.values, 'bed.lanes': 1, 'numerics.frame_mL': Math.max(FRAME_ML, lab.values['numerics.frame_mL']) } };
}

export function classTasks(groups: number): ClassTask[] {
  const all = Array.from({ length: groups }, (_, i): ClassTask => ({ n: i + FIRST }));
  return [...all, { n: 0, alone: 'none' }, ...SPREAD_IDS.flatMap((alone) => all.slice(0, ALONE_MOST).map(({ n }): ClassTask => ({ n, alone })))];
}

/** `scenario` as `forClass` gives it; `alive` is called meanwhile. */
export function classAnswer(scenario: Scenario, { n, alone }: ClassTask, alive?: () => void): ClassAnswer {
  const spreads = spreadsOf(scenario);
  if (alone === 'none') return groupInBrief(scenario, n, {}, alive);
  return alone ? groupInBrief(scenario, n, { [alone]: spreads[alone] }, alive) : groupOf(scenario, n, spreads, alive);
}

/** Answers in the order of their tasks. */
export function classForecast(scenario: Scenario, tasks: readonly ClassTask[], answers: readonly ClassAnswer[]): ClassForecast {
  const whole = answers.filter((answer, i): answer is Group => tasks[i].alone === undefined && answer.forty !== undefined);
  const alone = (id: ClassTask['alone']) => answers.filter((_, i) => tasks[i].alone === id);
  const { target, recovered, acid_mmol } = targetsOf(scenario);
  return {
    scenario: scenario.id,
    title: scenario.title,
    seed: scenario.seed,
    groups: whole.length,
    target: {
      ion: target,
      recovered,
      missedBy: whole.filter(({ written }) => written.recovered < recovered).length,
      acid_mmol,
      tooAcid: acid_mmol === undefined ? 0 : whole.filter(({ written }) => written.acid_mmol > acid_mmol).length,
    },
    groupsAlone: Math.min(whole.length, ALONE_MOST),
    lanes: scenario.values['bed.lanes'],
    spreads: spreadsOf(scenario),
    itself: alone('none').at(0),
    depths: overAll(DEPTHS, (key) => distributionOf(whole.map(({ depths }) => depths[key]))),
    procedures: {
      written: overAll(FIGURES, (key) => distributionOf(whole.map(({ written }) => written[key]))),
      forty: overAll(FIGURES, (key) => distributionOf(whole.map(({ forty }) => forty[key]))),
      stopped: overAll(FIGURES, (key) => distributionOf(whole.map(({ stopped }) => stopped[key]))),
    },
    met: {
      written: whole.filter(({ written }) => written.meets).length,
      forty: whole.filter(({ forty }) => forty.meets).length,
      stopped: whole.filter(({ stopped }) => stopped.meets).length,
    },
    shares: {
      ...overAll(DEPTHS, (key) => sharesOf(whole, alone, ({ depths }) => depths[key])),
      ...overAll(FIGURES, (key) => sharesOf(whole, alone, ({ written }) => written[key])),
    },
  };
}

/** Undefined if groups do not differ, or if there is only one. */
function sharesOf(
  whole: readonly Group[],
  alone: (id: SpreadId) => readonly ClassAnswer[],
  figure: (answer: ClassAnswer) => number | undefined,
): Shares | undefined {
  const all = varianceOf(whole.map(figure));
  if (all === undefined || !(all > 0)) return undefined;
  const shares = SPREAD_IDS.map((id): [SpreadId, number] => [id, notable((varianceOf(alone(id).map(figure)) ?? 0) / all)]);
  return {
    ...Object.fromEntries(shares),
    together: shares.reduce((sum, [, share]) => sum + share, 0),
  };
}

/** A rounding error of zero counts as zero. */
function notable(share: number): number {
  return share < 1e-9 ? 0 : share;
}

function varianceOf(values: readonly (number | undefined)[]): number | undefined {
  const known = values.filter((value) => value !== undefined);
  if (known.length < 2) return undefined;
  const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
  return known.reduce((sum, value) => sum + (value - mean) * (value - mean), 0) / (known.length - 1);
}

function overAll<K extends string, V>(keys: readonly K[], of: (key: K) => V | undefined): Readonly<Partial<Record<K, V>>> {
  const found = keys.flatMap((key): [K, V][] => {
    const value = of(key);
    return value === undefined ? [] : [[key, value]];
  });
  // Every key was given, and its value made, by the lines above.
  return Object.fromEntries(found) as Partial<Record<K, V>>;
}
