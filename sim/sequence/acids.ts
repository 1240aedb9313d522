// Which acid to try first: ranked by distribution coefficients alone, before the column has its say.
import { bestParting, distributionOf, type Parting } from '../chemistry/index.ts';
import type { IonId } from '../terms/ions.ts';
import type { Scenario } from '../terms/types.ts';
import { BOTTLES_M } from './programme.ts';

/** Metals that leave together. */
export type Group = readonly IonId[];

/** An acid, and the group that it brings out first. */
export interface Candidate {
  readonly HCl_M: number;
  readonly group: Group;
}

/** Bed volumes of an acid (mol/L) until the middle of a metal's band leaves. */
export type BedVolumes = ReadonlyMap<IonId, (HCl_M: number) => number>;

/** Longest step, bed volumes; common practice, no source. */
export const STEP_MAX_BV = 14;
/** The last metal is washed out with no more acid than this: a trace keeps metals from precipitating. Common practice, no source. */
const LAST_M = 0.01;
/** Acids tried in the model per step. */
const TRIED_PER_STEP = 4;
/** What a bed volume of eluent costs against a bed length that the next band travels, when acids are ranked. */
const VOLUME_WEIGHT = 0.03;
/** A band needs about this many times the volume of its middle, and so many bed volumes more, to leave whole. Our rule. */
const TAIL = 1.3;
const TAIL_BV = 0.3;

export function bedVolumesOf(scenario: Scenario, ions: readonly IonId[]): BedVolumes {
  const porosity = scenario.values['bed.porosity'];
  return new Map(
    ions.map((ion) => {
      const D = distributionOf(scenario, ion);
      return [ion, (c: number) => porosity + D(c)];
    }),
  );
}

/** Acids worth a trial, by how far the next group comes while the first one leaves, and by volume; the most promising first. */
export function candidates(volumes: BedVolumes, left: readonly Group[]): Candidate[] {
  if (left.length === 1) return [{ HCl_M: lastAcid(volumes, left[0]), group: left[0] }];
  const ranked = BOTTLES_M.map((HCl_M) => {
    const spans = left.map((group) => ({ group, ...span(volumes, group, HCl_M) })).sort((a, b) => a.slow - b.slow);
    const leaves = TAIL * spans[0].slow + TAIL_BV;
    const next = Math.min(...spans.slice(1).map(({ fast }) => fast));
    return { HCl_M, group: spans[0].group, leaves, cost: leaves / next + VOLUME_WEIGHT * leaves };
  });
  return ranked
    .filter(({ leaves }) => leaves <= STEP_MAX_BV)
    .sort((a, b) => a.cost - b.cost)
    .slice(0, TRIED_PER_STEP);
}

/** The strongest of the weak acids that costs no volume worth speaking of. */
function lastAcid(volumes: BedVolumes, group: Group): number {
  const weak = BOTTLES_M.filter((HCl_M) => HCl_M <= LAST_M);
  const least = Math.min(...weak.map((HCl_M) => span(volumes, group, HCl_M).slow));
  return weak.find((HCl_M) => span(volumes, group, HCl_M).slow <= least + 0.05) ?? LAST_M;
}

function span(volumes: BedVolumes, group: Group, HCl_M: number): { fast: number; slow: number } {
  const needed = group.map((ion) => volumes.get(ion)?.(HCl_M) ?? 0);
  return { fast: Math.min(...needed), slow: Math.max(...needed) };
}

/** The two groups that no acid separates well, given by their closest members. */
export function closest(scenario: Scenario, groups: readonly Group[]): Parting {
  const pairs = groups.flatMap((a, i) => groups.slice(i + 1).flatMap((b) => a.flatMap((one) => b.map((other) => bestParting(scenario, one, other)))));
  return pairs.reduce((worst, pair) => (pair.ratio < worst.ratio ? pair : worst));
}

export function merged(groups: readonly Group[], a: IonId, b: IonId): Group[] {
  const joined = groups.filter((group) => group.includes(a) || group.includes(b)).flat();
  return [...groups.filter((group) => !group.includes(a) && !group.includes(b)), joined];
}
