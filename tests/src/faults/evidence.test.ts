import { describe, expect, test } from 'vitest';
import { imposed } from '../../../sim/faults/imposed.ts';
import type { Fault } from '../../../sim/terms/types.ts';
import { evidenceOf, tellingMoment } from '../../../src/faults/evidence.ts';
import { costWords } from '../../../src/faults/twin/cost.ts';
import { peakOf, type Seen, setFree, shown, symptomsOf } from '../../../src/faults/twin/numbers.ts';
import { healthyTwin } from '../../../sim/faults/healthy.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

/** Evenly packed, so that nothing leans but what a fault tips. */
const CHANGES = { bed: { plates: 30, lanes: 7, spread: 0 } };

/** A run with these faults and its twin, at the moment that tells most. */
function pairOf(faults: readonly Fault[]): { run: Seen; twin: Seen; at: (time_min: number) => [Seen, Seen] } {
  const written = { ...shipped('cathode-leach', CHANGES), faults };
  const bad = imposed(written);
  const good = healthyTwin(written, bad.procedure);
  const [ours, theirs] = [new Planner(bad), new Planner(good.scenario)];
  const a = { scenario: bad, plan: ours.plan(bad.procedure) };
  const b = { scenario: good.scenario, plan: theirs.plan(good.log) };
  const at = (time_min: number): [Seen, Seen] => [
    { ...a, moment: ours.moment(time_min) },
    { ...b, moment: theirs.moment(time_min) },
  ];
  const [run, twin] = at(tellingMoment(a, b)?.time_min ?? a.plan.logEnd.time_min / 2);
  return { run, twin, at };
}

/** What the fault board promises as the sign of each, as a line of the evidence. */
describe('the evidence for a fault names its sign', () => {
  test.each<[string, Fault, RegExp]>([
    ['a channel leans', { kind: 'channel', severity: 0.7, side_deg: 90 }, /lean of the band now/],
    ['a tilted bed leans', { kind: 'tilted-bed', severity: 1, side_deg: 0 }, /lean of the band now/],
    ['a dried bed holds gas', { kind: 'dried-bed', severity: 0.7 }, /gas between the beads/],
    ['fines slow the flow', { kind: 'fines', severity: 1 }, /flow/],
    ['coarse beads widen the peak', { kind: 'coarse-beads', severity: 1 }, /width at half height/],
    ['an overloaded bed loses cobalt early', { kind: 'overload', severity: 1 }, /a hundredth of the cobalt\(II\) has left after/],
    ['interfering ions are in the effluent', { kind: 'interfering-ions', severity: 0.5 }, /iron\(III\) is in the effluent/],
    ['a late receiver holds less', { kind: 'receiver-late', severity: 0.5 }, /cobalt\(II\) in the last receiver/],
  ])('%s', (_, fault, sign) => {
    const { run, twin } = pairOf([fault]);
    expect(evidenceOf(run, twin).join('\n')).toMatch(sign);
  });

  test('and a sound run has none', () => {
    const { run, twin } = pairOf([]);
    expect(tellingMoment(run, twin)).toBeUndefined();
    expect(evidenceOf(run, twin)).toEqual([expect.stringMatching(/^At this moment no number differs/)]);
  });
});

describe('no number is written that is none', () => {
  const NONE = /\u2013|10⁻|NaN|undefined|\u22120(?![.\d])/;

  test.each<[string, readonly Fault[]]>([
    ['a crater', [{ kind: 'crater', severity: 1 }]],
    ['an overload', [{ kind: 'overload', severity: 1 }]],
    ['a run that stopped early', [{ kind: 'stopped-early', severity: 1 }]],
    ['no fault', []],
  ])('of %s, at any moment', (_, faults) => {
    const { run, twin, at } = pairOf(faults);
    const end = Math.min(run.plan.logEnd.time_min, twin.plan.logEnd.time_min);
    for (let part = 0; part <= 10; part++) {
      const [ours, theirs] = at((end * part) / 10);
      const lines = [...evidenceOf(ours, theirs), ...evidenceOf(theirs, ours), ...symptomsOf(ours).map(shown), ...symptomsOf(theirs).map(shown)];
      expect(lines.filter((line) => NONE.test(line))).toEqual([]);
    }
  });

  test('what rounding leaves of a difference is 0, and a number that is missing is told in words', () => {
    const core = { label: 'core ahead of the sides', unit: 'cm', meaning: '', least: 0.15 };
    expect(shown({ ...core, value: -8.88e-16 })).toBe('0\u202fcm');
    expect(shown({ ...core, value: -0.05 })).toBe('\u22120.0500\u202fcm');
    expect(shown({ ...core, value: Number.NaN, none: 'no band in the bed' })).toBe('no band in the bed');
  });
});

describe('what a fault costs is told', () => {
  const holding = (plan: Seen['plan'], ion: 'Co' | 'Ni'): string => {
    const held = Number(plan.results.receivers.find(({ label }) => label === 'cobalt')?.[`${ion}_mmol`]);
    return `${((100 * held) / (plan.results.loaded[`${ion}_mmol`] ?? 0)).toFixed(1)}\u202f%`;
  };

  test('as the share of the wanted ion and of the other that the kept receivers of run and twin hold', () => {
    const { run, twin } = pairOf([{ kind: 'channel', severity: 0.7, side_deg: 90 }]);
    expect(costWords(run, twin)).toEqual([
      `Cobalt(II) collected: ${holding(run.plan, 'Co')}, in the twin ${holding(twin.plan, 'Co')}`,
      `nickel(II) with it: ${holding(run.plan, 'Ni')}, in the twin ${holding(twin.plan, 'Ni')}`,
    ]);
    expect(holding(run.plan, 'Co')).not.toBe(holding(twin.plan, 'Co'));
  });

  test('of a lab day as what its receivers hold together', () => {
    const day = shipped('lab-day', { bed: { plates: 30, lanes: 1 } });
    const plan = new Planner(day).plan(day.procedure);
    const kept = plan.results.receivers.filter(({ label }) => label.startsWith('cobalt'));
    expect(kept.length).toBeGreaterThan(1);
    const held = kept.reduce((sum, receiver) => sum + Number(receiver['Co_mmol']), 0) / Number(plan.results.loaded['Co_mmol']);
    const [first] = costWords({ scenario: day, plan }, undefined);
    // Receivers are read off the run to a frame.
    expect(Math.abs(Number(/([\d.]+)\u202f%/.exec(first)?.[1]) - 100 * held)).toBeLessThan(0.2);
    expect(held).toBeGreaterThan(0.9);
  });

  test('and of a run without a kept receiver nothing', () => {
    const { run } = pairOf([]);
    const plan = new Planner(run.scenario).plan(run.scenario.procedure.filter(({ do: what }) => what === 'pour').slice(0, 1));
    expect(costWords({ ...run, plan }, undefined)).toEqual([]);
  });
});

describe('the shape of a peak', () => {
  test('set free by water is not judged by its symmetry: on a sound bed it already tails more than USP <621> (read) accepts', () => {
    const { run, twin } = pairOf([{ kind: 'channel', severity: 0.35, side_deg: 90 }]);
    for (const seen of [run, twin]) {
      expect(setFree(seen, 'Co')).toBe(true);
      expect(symptomsOf(seen).map(({ label }) => label)).not.toEqual(expect.arrayContaining([expect.stringMatching(/tailing|asymmetry/)]));
    }
    expect(peakOf(twin.plan, 'Co')?.tailing).toBeGreaterThan(1.8);
  });

  test('at a constant eluent is', () => {
    const scenario = shipped('theory-one-lane', { bed: { plates: 30, lanes: 1 } });
    const planner = new Planner(scenario);
    const plan = planner.plan(scenario.procedure);
    const seen = { scenario, plan, moment: planner.moment(plan.logEnd.time_min / 2) };
    expect(symptomsOf(seen).map(({ label }) => label)).toEqual(expect.arrayContaining(['asymmetry', 'tailing', 'tailing of a sound peak']));
  });
});
