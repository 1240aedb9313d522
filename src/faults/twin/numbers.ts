import { bandNow, type Lean, leanOf, peakShape, type PeakShape, type Plan, progressOf } from '../../../sim/history/index.ts';
import { targetOf } from '../../../sim/input/index.ts';
import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { significant, withUnit } from '../../ui/text/format.ts';
import { leavingCurve } from './bands.ts';

// Symptoms of a run as numbers, each with what it means, beside those of its twin where there is one.

/** A run as far as it is looked at. */
export interface Seen {
  readonly scenario: Scenario;
  readonly plan: Plan;
  readonly moment: Moment;
}

export interface Symptom {
  readonly label: string;
  readonly unit: string;
  /** How it is measured. */
  readonly meaning: string;
  readonly value: number;
  /** A smaller difference from another run says nothing; a choice. */
  readonly least: number;
  /** Instead of the number where words say it better. */
  readonly text?: string;
  /** Why there is no number, where there may be none. */
  readonly none?: string;
}

/** Everything that can be read off a run; the ion is its target. */
export function symptomsOf(seen: Seen): readonly Symptom[] {
  const ion = targetOf(seen.scenario);
  if (!ion) return [];
  return [...flowSymptoms(seen), ...leanSymptoms(leanNow(seen, ion)), ...peakSymptoms(peakOf(seen.plan, ion), setFree(seen, ion))];
}

/** The symptom of the same name, where the other run has it. */
export function sameOf(symptoms: readonly Symptom[], { label }: Symptom): Symptom | undefined {
  return symptoms.find((other) => other.label === label);
}

/**
 * Whether the highest concentration leaves only after a weaker eluent was poured. Such a peak is steep in front and long behind on the
 * soundest bed, so the measures of symmetry, which were made for peaks at a constant eluent, say nothing about the packing.
 */
export function setFree({ scenario, plan }: Pick<Seen, 'scenario' | 'plan'>, ion: IonId): boolean {
  const { eluent_mL = Number.POSITIVE_INFINITY } = progressOf(scenario, plan.events);
  return (peakOf(plan, ion)?.volume_mL ?? 0) > eluent_mL;
}

/** A value that is this share of a difference that says nothing is written as 0; what is left of a difference by rounding is far below. */
const NOTHING_SHARE = 0.01;

export function shown({ value, unit, text, none, least }: Symptom): string {
  if (text !== undefined) return text;
  if (!Number.isFinite(value) && none !== undefined) return none;
  return withUnit(significant(Math.abs(value) < NOTHING_SHARE * least ? 0 : value, 3), unit);
}

/** Undefined while the bed holds no more than a trace of the ion. */
export function leanNow({ scenario, moment }: Seen, ion: IonId): Lean | undefined {
  return bandNow(moment.results, ion) && leanOf(moment, scenario, ion, moment.bed_cm);
}

export function peakOf(plan: Plan, ion: IonId): PeakShape | undefined {
  const { xs, ys } = leavingCurve(plan, ion);
  return peakShape(xs, ys);
}

/** A smaller share is zero but for rounding. */
const ROUNDING = 1e-12;

function flowSymptoms({ moment }: Seen): Symptom[] {
  const { flow, level_cm } = moment;
  const mean = moment.gas.reduce((sum, share) => sum + share, 0) / moment.gas.length;
  const gas = mean < ROUNDING ? 0 : mean;
  return [
    {
      label: 'flow now',
      least: 0.05,
      unit: 'mL/min',
      value: flow,
      meaning: `leaving the tip, with ${withUnit(significant(level_cm * 10, 2), 'mm')} of liquid above the bed; compare at the same height`,
    },
    { label: 'gas between the beads', least: 0.5, unit: '%', value: 100 * gas, meaning: 'share of the space between the beads, mean over the bed' },
  ];
}

function leanSymptoms(lean: Lean | undefined): Symptom[] {
  const value = (of: (lean: Lean) => number): number => (lean ? of(lean) : Number.NaN);
  const none = 'no band in the bed';
  return [
    {
      label: 'lean of the band now',
      none,
      least: 0.15,
      unit: 'cm',
      value: value(({ lean_cm }) => lean_cm),
      meaning: 'distance between the leading edges of the side furthest ahead and the side furthest behind; 0 is level',
    },
    {
      label: 'side that is ahead',
      least: 0,
      unit: '',
      value: Number.NaN,
      text: !lean ? none : lean.lean_cm > LEVEL_CM ? nearestSide(lean.ahead_deg) : 'none, the band is level',
      meaning: 'where the leading edge is deepest',
    },
    {
      label: 'core ahead of the sides',
      none,
      least: 0.15,
      unit: 'cm',
      value: value(({ core_cm }) => core_cm),
      meaning: 'leading edge of the core minus the mean of the sides; negative when the core is behind',
    },
    {
      label: 'leading edge ratio',
      none,
      least: 0.1,
      unit: '',
      value: value(({ leadingEdgeRatio }) => leadingEdgeRatio),
      meaning: 'deepest leading edge divided by the mean of all lanes, weighted by area; 1 is level',
    },
  ];
}

const NO_PEAK = 'no peak in this run';
const SIDE_HIGH = 'one side does not fall so far';

function peakSymptoms(peak: PeakShape | undefined, free: boolean): Symptom[] {
  const value = (of: (peak: PeakShape) => number | undefined): number => (peak && of(peak)) ?? Number.NaN;
  return [
    {
      label: 'peak at',
      none: NO_PEAK,
      least: 0.5,
      unit: 'mL',
      value: value(({ volume_mL }) => volume_mL),
      meaning: 'delivered volume at the highest concentration of the whole run',
    },
    {
      label: 'width at half height',
      none: NO_PEAK,
      least: 0.2,
      unit: 'mL',
      value: value(({ width_mL }) => width_mL),
      meaning: 'between the two volumes at half of the highest concentration',
    },
    ...(free ? [] : symmetrySymptoms(value).map((symptom) => ({ ...symptom, none: peak ? SIDE_HIGH : NO_PEAK }))),
    {
      label: 'front of the curve',
      none: NO_PEAK,
      least: 0.5,
      unit: '',
      value: value(({ fronts_mL }) => fronts_mL.length),
      ...(peak ? { text: frontWords(peak.fronts_mL.length) } : {}),
      meaning: 'how many steepest places the rise has, with a dip between them',
    },
  ];
}

function symmetrySymptoms(value: (of: (peak: PeakShape) => number | undefined) => number): Symptom[] {
  return [
    {
      label: 'asymmetry',
      least: 0.3,
      unit: '',
      value: value(({ asymmetry }) => asymmetry),
      meaning: 'rear half-width divided by front half-width at a tenth of the height; 1 is symmetric',
    },
    {
      label: 'tailing',
      least: 0.2,
      unit: '',
      value: value(({ tailing }) => tailing),
      meaning: 'width at a twentieth of the height divided by twice its front half (USP <621>, which accepts 0.8 to 1.8)',
    },
    {
      label: 'tailing of a sound peak',
      least: 0.2,
      unit: '',
      value: value(({ gammaTailing }) => gammaTailing),
      meaning: 'tailing of a gamma-shaped peak with as many plates; this much tailing is not a fault',
    },
  ];
}

function frontWords(fronts: number): string {
  return fronts < 2 ? 'one rise' : fronts === 2 ? 'double: rises twice' : `rises ${fronts} times`;
}

/** A band leaning less than this is level, cm: one cell of a usual bed. */
const LEVEL_CM = 0.1;
const EIGHTHS = ['front', 'front left', 'left', 'back left', 'back', 'back right', 'right', 'front right'];

function nearestSide(deg: number): string {
  return EIGHTHS[Math.round(deg / 45) % EIGHTHS.length];
}
