// One virtual group: its own column, bottles and hands, and the results of three procedures.
import { drawn } from '../column/index.ts';
import { receiverOf } from '../flask/index.ts';
import { inHands } from '../hands/index.ts';
import { bandOnRuler, belowTopAt, frameAt, keptHolds, meetsTask, onRuler, type Plan, progressOf, switchWindow, targetsOf } from '../history/index.ts';
import { SEED_MAX } from '../math/random.ts';
import { richest, sampleOf, valuesWith } from '../report/index.ts';
import type { Log, Scenario } from '../terms/types.ts';
import { benchOf, defaultProcedure, playWorkUp } from '../workup/index.ts';
import { branchesOf } from './branches.ts';
import { COLUMN_SPREADS, type ColumnSpread, type Spreads } from './spreads.ts';
import { washedWith, washOf } from './washed.ts';

/** Results of a procedure in one group. Undefined where there is no result, such as no window. */
export interface GroupFigures {
  readonly wash_mL: number;
  /** Window for the change of receiver, mL after the weaker eluent was started. */
  readonly window_from_mL: number | undefined;
  readonly window_to_mL: number | undefined;
  /** Shares of what was poured that are in the receiver that holds most of the target. */
  readonly recovered: number;
  readonly carried: number;
  readonly acid_mmol: number;
  /** Did what the task asks. */
  readonly meets: boolean;
  /** Titre of one flask as it is read, mL; undefined without cobalt, and where only the column was computed. */
  readonly titre_mL: number | undefined;
  readonly time_min: number;
}

/** Depth of the target's band after two volumes of wash acid, cm below the top of the bed as it stands then: what a lab reads and a calibration is given. */
export interface GroupDepths {
  readonly leading_20_cm: number | undefined;
  readonly middle_20_cm: number | undefined;
  /** Where that top stands on a ruler whose 0 is the top of the bed as packed; lower in strong acid. */
  readonly top_20_cm: number | undefined;
  /** Volume in the cylinder then, since the start of the run, mL. */
  readonly delivered_20_mL: number | undefined;
  readonly leading_40_cm: number | undefined;
  readonly middle_40_cm: number | undefined;
  /** mL of wash after which the leading edge is near enough to the bottom to stop; undefined if it is not there by 40 mL. */
  readonly near_mL: number | undefined;
}

export interface Group {
  readonly depths: GroupDepths;
  readonly written: GroupFigures;
  /** 40 mL of wash acid whatever the band does. */
  readonly forty: GroupFigures;
  /** Stopped when the band is 5 mm above the bottom, at 40 mL at the latest. */
  readonly stopped: GroupFigures;
}

export const WASH_ML = 40;
/** Seed of glass and eye for all groups, where groups do not differ in them. */
const USUAL_BENCH = 1;
export const HALF_WASH_ML = 20;
/** Distance of the leading edge from the bottom at which one stops, cm. */
export const STOP_ABOVE_CM = 0.5;

/** Group `n` of a class, with these spreads switched on. `scenario` is the lab without any spread. */
export function groupOf(scenario: Scenario, n: number, spreads: Spreads, alive?: () => void): Group {
  const { own, planned, written } = writtenBy(scenario, n, spreads, alive);
  const plan = planned(washedWith(own, own.procedure, WASH_ML));
  // A plan must be read before the next one is computed.
  const forty = figuresOf(own, plan);
  const depths = depthsOf(own, plan);
  const { near_mL } = depths;
  const stopped = near_mL === undefined ? forty : figuresOf(own, planned(washedWith(own, own.procedure, near_mL)));
  return { depths, written, forty, stopped };
}

/** Only the results of the written procedure, and the depths: to find the effect of one spread. */
export function groupInBrief(scenario: Scenario, n: number, spreads: Spreads, alive?: () => void): Pick<Group, 'depths' | 'written'> {
  const { own, planned, written } = writtenBy(scenario, n, spreads, alive);
  const long = washedWith(own, own.procedure, WASH_ML);
  const wash = washOf(own, long);
  return {
    depths: depthsOf(own, planned(wash ? long.slice(0, wash.eluent) : long)),
    written,
  };
}

/** A group after the written procedure; `planned` computes other procedures in the same hands. */
interface Ready {
  readonly own: Scenario;
  readonly planned: (procedure: Log) => Plan;
  readonly written: GroupFigures;
}

function writtenBy(scenario: Scenario, n: number, spreads: Spreads, alive?: () => void): Ready {
  const own = columnOf(scenario, n, spreads);
  const seed = seedOf(scenario, n);
  const branch = branchesOf(own, alive);
  const planned = (procedure: Log): Plan => branch(inHands(own, procedure, spreads, seed));
  const plan = planned(own.procedure);
  const titre_mL = titreOf(titrating(scenario, own, spreads), plan, spreads.titration ? seed : USUAL_BENCH);
  return { own, planned, written: { ...figuresOf(own, plan), titre_mL } };
}

/** The column that a group gets. The loose places lie elsewhere too, but only if columns differ in evenness. */
function columnOf(scenario: Scenario, n: number, spreads: Spreads): Scenario {
  const ids = Object.keys(COLUMN_SPREADS) as ColumnSpread[];
  const differ = Object.fromEntries(ids.map((id) => [COLUMN_SPREADS[id], spreads[id]?.size ?? 0]));
  // The hands of the class have a table of their own; those of the bench would count twice.
  const values = { ...scenario.values, ...differ, 'bench.hand': 0 };
  const column = drawn({ ...scenario, seed: seedOf(scenario, n), values });
  return spreads.evenness ? column : { ...column, seed: scenario.seed };
}

function seedOf({ seed }: Scenario, n: number): number {
  return (seed + n) % SEED_MAX;
}

/** In the titration the hand of the bench counts, if groups differ there. */
function titrating(lab: Scenario, own: Scenario, { titration }: Spreads): Scenario {
  return titration
    ? {
        ...own,
        values: { ...own.values, 'bench.hand': lab.values['bench.hand'] },
      }
    : own;
}

/** Of one flask, mL. `bench` is the seed of the glass, the readings and the eye. A titration costs as much as a run, so there is one. */
function titreOf(scenario: Scenario, { results, log }: Plan, bench: number): number | undefined {
  const chosen = richest(results.receivers);
  if (!chosen || chosen.volume_mL <= 0) return undefined;
  const receiver = receiverOf(chosen);
  const values = valuesWith(sampleOf(scenario, log), {
    ...scenario.values,
    'workup.titrations': 1,
  });
  return playWorkUp(receiver, defaultProcedure(receiver, values), benchOf(values, bench, 0)).titres[0]?.read_mL;
}

function figuresOf(scenario: Scenario, plan: Plan): GroupFigures {
  const { results } = plan;
  const targets = targetsOf(scenario);
  const { eluent_mL } = progressOf(scenario, plan.events);
  const window = eluent_mL === undefined ? undefined : switchWindow(plan, targets);
  return {
    wash_mL: washOf(scenario, plan.log)?.volume_mL ?? 0,
    window_from_mL: window && window.from_mL - (eluent_mL ?? 0),
    window_to_mL: window && window.to_mL - (eluent_mL ?? 0),
    ...keptHolds(plan, targets),
    meets: meetsTask(plan, targets),
    titre_mL: undefined,
    time_min: results.time_min,
  };
}

function depthsOf(scenario: Scenario, plan: Plan): GroupDepths {
  const { target } = targetsOf(scenario);
  const { load_mL, eluent_mL = Number.POSITIVE_INFINITY } = progressOf(scenario, plan.events);
  const sample_mL = sampleOf(scenario, plan.log)?.volume_mL ?? 0;
  // If the cylinder was read low, less acid was poured than planned; the band is still looked at before the weaker eluent is poured.
  const deliveredAfter = (wash_mL: number) => (load_mL === undefined ? undefined : Math.min(load_mL + sample_mL + wash_mL, eluent_mL));
  const washedAt = (wash_mL: number) => {
    const delivered_mL = deliveredAfter(wash_mL);
    return delivered_mL === undefined ? undefined : bandOnRuler(plan, target, frameAt(plan, delivered_mL));
  };
  const below = (wash_mL: number, edge: 'leading_cm' | 'centroid_cm') => {
    const delivered_mL = deliveredAfter(wash_mL);
    const depth_cm = delivered_mL === undefined ? Number.NaN : belowTopAt(plan, target, delivered_mL, edge);
    return Number.isNaN(depth_cm) ? undefined : depth_cm;
  };
  const delivered_20_mL = deliveredAfter(HALF_WASH_ML);
  return {
    leading_20_cm: below(HALF_WASH_ML, 'leading_cm'),
    middle_20_cm: below(HALF_WASH_ML, 'centroid_cm'),
    top_20_cm: delivered_20_mL === undefined ? undefined : onRuler(plan, frameAt(plan, delivered_20_mL), 0),
    delivered_20_mL,
    leading_40_cm: below(WASH_ML, 'leading_cm'),
    middle_40_cm: below(WASH_ML, 'centroid_cm'),
    near_mL: firstNear(plan.length_cm - STOP_ABOVE_CM, (wash_mL) => washedAt(wash_mL)?.leading_cm ?? 0),
  };
}

/** Whole millilitres of wash until the edge is this deep, since one looks only now and then. The edge only moves down. */
function firstNear(depth_cm: number, edge: (wash_mL: number) => number): number | undefined {
  if (edge(WASH_ML) < depth_cm) return undefined;
  let [low, high] = [0, WASH_ML];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (edge(middle) >= depth_cm) high = middle;
    else low = middle;
  }
  return high;
}
