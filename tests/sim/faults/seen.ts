import { readFileSync } from 'node:fs';
import { planOf } from '../../../sim/class/whole.ts';
import { AT, type Bed } from '../../../sim/column/bed.ts';
import { amountsByDepth, bandIn, bedLengthOf } from '../../../sim/column/measure.ts';
import {
  type EffluentCurve,
  effluentCurve,
  isSample,
  isWeaker,
  type Lean,
  leanOf,
  type PeakShape,
  peakShape,
  type Plan,
  pouredOf,
} from '../../../sim/history/index.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { advance, type Run, runOf } from '../../../sim/run/run.ts';
import type { Fault, IonId, Log, Scenario } from '../../../sim/terms/types.ts';
import { Trail } from './trail.ts';

// A run as somebody at the bench sees it: bands on the bed at chosen moments, drops, what lies in each beaker.

/** The bed at one moment. Depths in cm from the top. */
export interface Look {
  readonly delivered_mL: number;
  readonly time_min: number;
  /** mL/min. */
  readonly flow: number;
  readonly level_cm: number;
  readonly bed_cm: number;
  /** Share of the space between the beads that is gas. */
  readonly gas: number;
  readonly lean: Lean | undefined;
  /** Leading edges of the cobalt, and speeds over the mean, lane by lane, the core first. */
  readonly lanes: readonly number[];
  readonly speeds: readonly number[];
  /** Share of the resin missing from the top of the core. */
  readonly hollow: number;
  edge(ion: IonId): number;
  rear(ion: IonId): number;
  middle(ion: IonId): number;
  /** mmol per mL of bed where it is densest. */
  densest(ion: IonId): number;
}

export interface Seen {
  readonly run: Run;
  readonly plan: Plan;
  readonly trail: Trail<Look>;
  readonly scenario: Scenario;
  /** Before anything is poured; when the sample and 2 mL behind it have gone in; when the weaker eluent is due. */
  readonly stored: Look;
  readonly loaded: Look;
  readonly washed: Look;
  /** At every 0.25 mL from the load on. */
  readonly looks: readonly Look[];
  /** Share of what was loaded. */
  in(label: string, ion?: IonId): number;
  onBed(ion?: IonId): number;
  effluent(ion?: IonId): EffluentCurve;
  peak(ion?: IonId): PeakShape | undefined;
  /** Minutes of the whole run. */
  readonly minutes: number;
}

/** Between looks, mL. */
const EVERY_ML = 0.25;
/** Behind the sample when a band counts as loaded, mL. */
const BEHIND_ML = 2;

export function shipped(id: string): Scenario {
  const read = parseScenario(readFileSync(new URL(`../../../scenarios/${id}.json`, import.meta.url), 'utf8'), id);
  if (!read.ok) throw new Error(`${id}: expected a sound scenario, received ${read.issues.length} issues`);
  return { ...read.scenario, values: { ...read.scenario.values, 'bench.hand': 0 } };
}

/** Plays a scenario with these faults and looks at it, from where its log parts from that of `like` if both run on the same column. */
export function watch(plain: Scenario, faults: readonly Fault[] = plain.faults, log?: Log, like?: Seen): Seen {
  const run = runOf({ ...plain, faults }, log);
  const [sample, eluent] = marks(run);
  const trail = new Trail(run, [sample, eluent], { stored: look(run), looks: [], loadedAt: Number.POSITIVE_INFINITY, next: Number.POSITIVE_INFINITY });
  if (like) trail.follow(like.trail);
  const s = run.bed.scalar;
  const { sights } = trail;
  for (let done = false; !done; ) {
    done = advance(run, { endOfLog: true, steps: 1 });
    if (sights.loadedAt === Number.POSITIVE_INFINITY && s[AT.entry] > sample) {
      sights.loadedAt = s[AT.delivered];
      sights.next = sights.loadedAt;
    }
    if (!sights.loaded && s[AT.delivered] >= sights.loadedAt + BEHIND_ML) sights.loaded = look(run);
    if (!sights.washed && s[AT.entry] > eluent) sights.washed = look(run);
    if (s[AT.delivered] >= sights.next) {
      sights.looks.push(look(run));
      sights.next += EVERY_ML;
    }
    trail.mark();
  }
  return seenIn(trail);
}

function seenIn(trail: Trail<Look>): Seen {
  const { run, sights } = trail;
  const plan = planOf(run);
  const held = (amounts: Readonly<Record<string, number | string>> | undefined, ion: IonId): number =>
    Number(amounts?.[`${ion}_mmol`] ?? 0) / pouredOf(plan, ion);
  const frames = Array.from({ length: plan.count }, (_, frame) => frame);
  return {
    run,
    plan,
    trail,
    scenario: run.scenario,
    stored: sights.stored,
    loaded: sights.loaded ?? look(run),
    washed: sights.washed ?? look(run),
    looks: sights.looks,
    in: (label, ion = 'Co') =>
      held(
        plan.results.receivers.find((receiver) => receiver.label === label),
        ion,
      ),
    onBed: (ion = 'Co') => held(plan.results.onBed, ion),
    effluent: (ion = 'Co') => effluentCurve(plan, ion, frames),
    peak: (ion = 'Co') => {
      const { xs, ys } = effluentCurve(plan, ion, frames);
      return peakShape(xs, ys);
    },
    minutes: run.bed.scalar[AT.time],
  };
}

/** Entries of the log at which the sample is first poured, and a weaker liquid after it. */
function marks({ log, scenario }: Run): [number, number] {
  const liquidOf = (entry: number) => {
    const action = log[entry];
    return action?.do === 'pour' ? scenario.liquids[action.liquid] : undefined;
  };
  const entries = log.map((_, entry) => entry);
  const sample = entries.findIndex((entry) => {
    const liquid = liquidOf(entry);
    return liquid !== undefined && isSample(liquid);
  });
  const acid = liquidOf(sample)?.HCl_M ?? 0;
  const changed = log.findIndex((action, entry) => action.do === 'receiver' && entry > sample);
  const receiver = changed < 0 ? log.length : changed;
  const eluent = entries.findLast((entry) => entry > sample && entry < receiver && weaker(liquidOf(entry), acid)) ?? receiver;
  return [sample, eluent];
}

function weaker(liquid: Scenario['liquids'][string] | undefined, acid: number): boolean {
  return liquid !== undefined && isWeaker(liquid, acid);
}

function look(run: Run): Look {
  const { bed, column } = run;
  const s = bed.scalar;
  const profiles = new Map(run.scenario.ions.map((ion, i) => [ion, amountsByDepth(bed, column, i + 1)]));
  const bands = new Map([...profiles].map(([ion, profile]) => [ion, bandIn(profile, column.dz)]));
  const mean = bed.velocity.reduce((sum, speed, lane) => sum + speed * column.lanes.area[lane], 0) / column.lanes.area.reduce((sum, area) => sum + area, 0);
  return {
    delivered_mL: s[AT.delivered],
    time_min: s[AT.time],
    flow: s[AT.flow],
    level_cm: s[AT.headVolume] / column.section,
    bed_cm: bedLengthOf(bed, column),
    gas: gasIn(bed),
    lean: leanOf(bed, run.scenario, 'Co'),
    lanes: edgesOf(run, 'Co'),
    speeds: Array.from(bed.velocity, (speed) => speed / mean),
    hollow: 1 - bed.resinShare[0],
    edge: (ion) => bands.get(ion)?.leading_cm ?? 0,
    rear: (ion) => bands.get(ion)?.trailing_cm ?? 0,
    middle: (ion) => bands.get(ion)?.centroid_cm ?? 0,
    densest: (ion) => Math.max(0, ...(profiles.get(ion) ?? [])) / (column.section * column.dz),
  };
}

/** Leading edge of an ion in every lane, cm. */
function edgesOf({ bed, column }: Run, ion: IonId): number[] {
  const base = (column.ions.indexOf(ion) + 1) * bed.lanes * bed.plates;
  const profile = new Float64Array(bed.plates);
  return Array.from(column.cellVolume, (volume, lane) => {
    for (let j = 0; j < bed.plates; j++) {
      const at = lane * bed.plates + j;
      profile[j] = bed.pore[base + at] * bed.mobile[at] + bed.still[base + at] * bed.stillVolume[at] + bed.sorbed[base + at] * volume;
    }
    return bandIn(profile, column.dz)?.leading_cm ?? 0;
  });
}

/** Share of the space between the beads that is gas. */
function gasIn({ gas, room }: Bed): number {
  let held = 0;
  let all = 0;
  for (let at = 0; at < room.length; at++) {
    held += gas[at] * room[at];
    all += room[at];
  }
  return held / all;
}
