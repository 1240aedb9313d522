import { describe, expect, test } from 'vitest';
import { distributionOf } from '../../../sim/chemistry/index.ts';
import { planOf } from '../../../sim/class/whole.ts';
import { bandOf } from '../../../sim/column/measure.ts';
import { collected, collectedAt, deliveredAtEnd, highestLeaving, leavesAt, leavingAt, type Plan } from '../../../sim/history/index.ts';
import { advance, type Run, runOf } from '../../../sim/run/run.ts';
import { conditioning } from '../../../sim/teach/asked/liquids.ts';
import type { Question } from '../../../sim/teach/asked/question.ts';
import { mainAcid, questionsOf } from '../../../sim/teach/questions.ts';
import { bedVolumeOf, sectionOf } from '../../../sim/terms/geometry.ts';
import type { Action, Log, Scenario } from '../../../sim/terms/types.ts';
import { shipped } from '../faults/seen.ts';

// What the keys of the questions say, each figure and each clause held to a run of the column that is asked about.

/** One of each kind of column and acid that is shipped with these questions. All ask about cobalt. */
const ASKED = ['cathode-leach', 'cathode-leach-weak-acid', 'demo-fumed-acid', 'demo-tilted-bed', 'six-metals'];
const MOST_MS = 60_000;
/** A run and a key that quotes two figures may differ by a tenth: a band has a width, and the acid of the sample is mixed in. */
const NEAR = 0.1;

/** Share of the bed over which the speed of a band is measured: short, so that none has left. */
const PART = 0.07;

const CONDITION = ['acid', 4] as const;
const LOAD = ['sample', 0.1] as const;

/** The sound column as it is meant, one lane, with little of the metal, so that the curve and not the load decides. */
function columnOf(id: string): Scenario {
  const scenario = shipped(id);
  const HCl_M = mainAcid(scenario);
  const liquids = {
    acid: { label: 'acid', HCl_M, ions: {} },
    sample: { label: 'sample', HCl_M, ions: { Co: 0.01 } },
    water: { label: 'water', HCl_M: 0, ions: {} },
  };
  const asMeant = { 'differ.bead': 0, 'differ.porosity': 0, 'differ.length_cm': 0, 'differ.spread': 0, 'differ.acid_M': 0 };
  return { ...scenario, ions: ['Co'], liquids, faults: [], values: { ...scenario.values, ...asMeant, 'bed.lanes': 1, 'bed.plates': 60 } };
}

function asked(id: string, key: string): Question {
  const question = questionsOf(shipped(id)).find((each) => each.id === key);
  if (!question) throw new Error(`${id}: expected the question ${key}`);
  return question;
}

/** Numbers of a text, in order. */
function numbers(text: string): number[] {
  return (text.match(/\d+(\.\d+)?/g) ?? []).map(Number);
}

type Portion = readonly [liquid: string, bedVolumes: number];

/** Bed volumes of these liquids one after another, each drained to 1 mm before the next. */
function log(scenario: Scenario, ...portions: readonly Portion[]): Log {
  const down: Action = { do: 'wait', until: { liquid_mm: 1 } };
  const pours = portions.flatMap(([liquid, bedVolumes]): Action[] => [
    { do: 'pour', liquid, volume_mL: bedVolumes * bedVolumeOf(scenario.values), hold_level: true },
    down,
  ]);
  return [{ do: 'receiver', label: 'waste' }, { do: 'clamp', open_percent: 100 }, down, ...pours];
}

/** mL delivered when these portions have gone in. */
function deliveredAfter({ values }: Scenario, ...portions: readonly Portion[]): number {
  const start = (sectionOf(values) * (values['bench.start_head_mm'] - 1)) / 10;
  return start + portions.reduce((sum, [, bedVolumes]) => sum + bedVolumes * bedVolumeOf(values), 0);
}

function played(scenario: Scenario, ...portions: readonly Portion[]): Run {
  const run = runOf(scenario, log(scenario, ...portions));
  while (!advance(run, { endOfLog: true, steps: 1000 }));
  return run;
}

/** mmol of a component in the liquid of the bed and in the beads; 0 is HCl. */
function heldOf({ bed, column }: Run, component: number): { readonly liquid: number; readonly beads: number } {
  const held = { liquid: 0, beads: 0 };
  for (let at = 0; at < bed.plates; at++) {
    held.liquid += bed.pore[component * bed.plates + at] * bed.mobile[at];
    held.beads += bed.sorbed[component * bed.plates + at] * column.cellVolume[0];
  }
  return held;
}

/** mmol of the metal that have left the column. */
function leftBy(run: Run): number {
  const plan = planOf(run);
  return collectedAt(plan, 'Co', deliveredAtEnd(plan));
}

/** mmol of the metal that are loaded. */
function sampleOf({ values, liquids }: Scenario): number {
  return LOAD[1] * bedVolumeOf(values) * (liquids['sample'].ions.Co ?? 0);
}

function band({ bed, column }: Run): { readonly middle_cm: number; readonly leading_cm: number } {
  const found = bandOf(bed, column, 'Co');
  return { middle_cm: found?.centroid_cm ?? Number.NaN, leading_cm: found?.leading_cm ?? Number.NaN };
}

function near(found: number, said: number): void {
  expect(Math.abs(found / said - 1), `said ${said}, found ${found}`).toBeLessThan(NEAR);
}

describe.each(ASKED)('the keys asked about %s', (id) => {
  const scenario = columnOf(id);
  const bed_mL = bedVolumeOf(scenario.values);
  const HCl_M = mainAcid(scenario);
  let known: Plan | undefined;
  const rinsed = [CONDITION, LOAD, ['acid', 0.2]] as const;
  const waterOn = deliveredAfter(scenario, ...rinsed);
  const released = (): Plan => {
    known ??= planOf(played(scenario, ...rinsed, ['water', 6]));
    return known;
  };
  const leaves = (plan: Plan, share: number): number => leavesAt(plan, 'Co', share) ?? Number.NaN;

  test(
    'meaning: of 100 ions so many are in the liquid, and the band creeps at that share of its speed',
    () => {
      const said = asked(id, 'meaning');
      const [, , , share] = numbers(said.explanation);
      // Bed volumes that carry the middle of a band this share of the bed.
      const some = PART * (scenario.values['bed.porosity'] / (share / 100));
      const run = played(scenario, CONDITION, LOAD, ['acid', some]);
      const later = played(scenario, CONDITION, LOAD, ['acid', 2 * some]);
      const { liquid, beads } = heldOf(run, 1);
      near((100 * liquid) / (liquid + beads), share);
      const liquid_cm = (some * run.column.length) / scenario.values['bed.porosity'];
      near((100 * (band(later).middle_cm - band(run).middle_cm)) / liquid_cm, share);
      expect(Math.abs(Number(said.choice) - share)).toBeLessThan(0.6);
    },
    MOST_MS,
  );

  test(
    'pushing: the volumes of acid, and water that takes most of it off sooner',
    () => {
      const [, acidVolumes, waterVolumes] = numbers(asked(id, 'pushing').explanation);
      const inAcid = planOf(played(scenario, CONDITION, LOAD, ['acid', 2 * acidVolumes]));
      near((leaves(inAcid, 0.5) - deliveredAfter(scenario, CONDITION, ['sample', 0.05])) / bed_mL, acidVolumes);
      expect((leaves(released(), 0.9) - waterOn) / bed_mL).toBeLessThan(waterVolumes);
      expect(waterVolumes).toBeLessThan(acidVolumes);
    },
    MOST_MS,
  );

  test(
    'late-acid: what is between and inside the beads, the hold-up volumes it takes, and the metal with it',
    () => {
      const [between, inside, holdups] = numbers(asked(id, 'late-acid').explanation);
      const held = heldOf(played(scenario, CONDITION), 0);
      near(held.liquid / bed_mL, between);
      near(held.beads / bed_mL, inside);
      const holdup_mL = bed_mL * scenario.values['bed.porosity'];
      const tip_mL = scenario.values['column.tip_mL'];
      near((collected(released(), waterOn, waterOn + 6 * bed_mL).HCl_mmol / HCl_M - tip_mL) / holdup_mL, holdups);
      expect(highestLeaving(released(), 'Co').delivered_mL).toBeGreaterThan(waterOn + tip_mL + 1.2 * holdup_mL);
      expect(leavingAt(released(), 'HCl', highestLeaving(released(), 'Co').delivered_mL)).toBeLessThan(0.7 * HCl_M);
    },
    MOST_MS,
  );

  test(
    'two-switches: strong acid drips first, as much as is said, and then the metal',
    () => {
      const [held_mL, , acid_mmol] = numbers(asked(id, 'two-switches').explanation);
      near(collected(released(), waterOn, waterOn + held_mL).HCl_mmol, acid_mmol);
      expect(leavingAt(released(), 'HCl', waterOn + held_mL / 2)).toBeGreaterThan(0.95 * HCl_M);
      expect(collectedAt(released(), 'Co', waterOn + held_mL)).toBeLessThan(0.02 * sampleOf(scenario));
    },
    MOST_MS,
  );

  test(
    'conditioning: on a bed of water the band starts deeper, and some leaves early',
    () => {
      const D = (_: unknown, c: number): number => distributionOf(scenario, 'Co')(c);
      const said = conditioning({ scenario, acid: HCl_M, runner: 'Co', holder: 'Co', D });
      expect(said?.choice).toBe('ahead');
      const [sound, dry] = [played(scenario, CONDITION, LOAD, ['acid', 1]), played(scenario, LOAD, ['acid', 1])];
      expect(band(dry).middle_cm).toBeGreaterThan(band(sound).middle_cm);
      expect(leftBy(dry)).toBeGreaterThan(leftBy(sound) + 0.003 * sampleOf(scenario));
    },
    MOST_MS,
  );
});
