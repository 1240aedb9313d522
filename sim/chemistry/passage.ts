import type { IonId } from '../terms/ions.ts';
import type { Scenario } from '../terms/types.ts';
import { uptakeCurve } from './uptake.ts';
import { square } from '../math/square.ts';

// How a thin band moves through a bed, from D_v and the definitions of chromatography alone.

export interface Passage {
  readonly D_v: number;
  /** k = D_v/e: time in the beads over time in the liquid. */
  readonly retentionFactor: number;
  /** e + D_v: bed volumes of eluent until the middle of the band leaves. */
  readonly bedVolumes: number;
  /** 1/(1 + k): share of its time in the liquid, and speed of the band over that of the liquid. */
  readonly speedShare: number;
}

export function passageOf(D_v: number, porosity: number): Passage {
  return { D_v, retentionFactor: D_v / porosity, bedVolumes: porosity + D_v, speedShare: porosity / (porosity + D_v) };
}

/** Share of the liquid's speed above which a band is said to run with the liquid; a choice. */
const RUNS = 0.5;

/** Whether the beads are said to hold a band. */
export function isHeld({ speedShare }: Pick<Passage, 'speedShare'>): boolean {
  return speedShare <= RUNS;
}

/** D_v of a trace against HCl molarity, as a run of this scenario uses it. */
export function distributionOf(scenario: Scenario, ion: IonId): (c: number) => number {
  const uptake = uptakeCurve(scenario, ion);
  return (c) => {
    const { coion, exchange } = uptake(c);
    return coion + exchange;
  };
}

/** Two ions in the acid that separates them best, by the ratio of their bed volumes. */
export interface Parting {
  readonly HCl_M: number;
  /** Leaves first. */
  readonly first: IonId;
  readonly second: IonId;
  /** Bed volumes of the second over those of the first: 1 is no separation. */
  readonly ratio: number;
  readonly firstBedVolumes: number;
  readonly secondBedVolumes: number;
  /** Plates for a resolution of 1.5, two bands that overlap by 0.1 %; infinite at a ratio of 1. */
  readonly platesNeeded: number;
}

/** Molarities that are looked at, mol/L. */
const STEP_M = 0.1;
const TOP_M = 12;
/** Baseline resolution (IUPAC nomenclature for chromatography, 1993; recalled). */
const RESOLUTION = 1.5;
/** Nobody waits for more bed volumes than this; common practice, no source. */
const PATIENCE_BED_VOLUMES = 40;

/** The acid in which two ions part best; of equals the weaker acid. Only acids that bring the first one out in reasonable volume count. */
export function bestParting(scenario: Scenario, a: IonId, b: IonId): Parting {
  const porosity = scenario.values['bed.porosity'];
  const volumes = [a, b].map((ion) => {
    const D = distributionOf(scenario, ion);
    return (c: number): number => passageOf(D(c), porosity).bedVolumes;
  });
  let best: Parting | undefined;
  for (let n = 1; n * STEP_M <= TOP_M + 1e-9; n++) {
    const HCl_M = Math.round(n * STEP_M * 10) / 10;
    const [ofA, ofB] = volumes.map((volume) => volume(HCl_M));
    const parting = partingOf(HCl_M, ofA <= ofB ? a : b, ofA <= ofB ? b : a, Math.min(ofA, ofB), Math.max(ofA, ofB));
    if (parting.firstBedVolumes <= PATIENCE_BED_VOLUMES && parting.ratio > (best?.ratio ?? 0)) best = parting;
  }
  return best ?? partingOf(TOP_M, a, b, volumes[0](TOP_M), volumes[1](TOP_M));
}

/** R = sqrt(N)/4 (ratio - 1)/ratio of two thin bands in one eluent (Purnell's form for equal plates; recalled). */
export function resolutionOf(ratio: number, plates: number): number {
  return (Math.sqrt(plates) / 4) * (1 - 1 / ratio);
}

function partingOf(HCl_M: number, first: IonId, second: IonId, firstBedVolumes: number, secondBedVolumes: number): Parting {
  const ratio = secondBedVolumes / firstBedVolumes;
  return { HCl_M, first, second, ratio, firstBedVolumes, secondBedVolumes, platesNeeded: square((4 * RESOLUTION * ratio) / (ratio - 1)) };
}
