import { beforeAll, describe, expect, test } from 'vitest';
import { targetsOf } from '../../../sim/history/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { advance, runOf } from '../../../sim/run/run.ts';
import { type StoryMoment, storyOf } from '../../../sim/teach/index.ts';
import { captionOf } from '../../../src/bench/watch/caption.ts';
import { pacesOf, WATCHED_S } from '../../../src/bench/watch/pace.ts';
import { wholeRun } from '../../src/figure/runs.ts';

// The captions of a watched run against the run itself, played anew up to each moment and measured by the ledger and the bed.
const { scenario, plan } = wholeRun('cathode-leach');

function at<Kind extends StoryMoment['kind']>(kind: Kind): StoryMoment & { kind: Kind } {
  const found = storyOf(scenario, plan, targetsOf(scenario)).find((moment): moment is StoryMoment & { kind: Kind } => moment.kind === kind);
  if (!found) throw new Error(`${kind}: expected in the story, received none`);
  return found;
}

function measured(time_min: number) {
  const run = runOf(scenario, plan.log);
  advance(run, { time_min });
  return resultsOf(run);
}

/** The figure before this unit or word in a caption. */
function said(moment: StoryMoment, pattern: RegExp): number {
  return Number(pattern.exec(captionOf(moment, scenario).replaceAll(/[\u00a0\u202f]/g, ' '))?.[1]);
}

describe('the story of the default run', () => {
  test('has its moments in the order of time, from the first to the end of the log', () => {
    const story = storyOf(scenario, plan, targetsOf(scenario));
    expect(story.map(({ kind }) => kind).sort()).toEqual(['changed', 'conditioned', 'done', 'leaving', 'loaded', 'released', 'start', 'through']);
    const times = story.map(({ time_min }) => time_min);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times.at(-1)).toBe(plan.logEnd.time_min);
  });

  test('says how much acid conditioned the bed, as the procedure pours it', () => {
    expect(said(at('conditioned'), /(\d+) mL/)).toBe(25);
    expect(said(at('released'), /After ([\d.]+) mL/)).toBe(26);
  });

  test.each(['loaded', 'released'] as const)('says where the edge stands when it is %s', (kind) => {
    const edge = measured(at(kind).time_min).bands.Co?.leading_cm ?? Number.NaN;
    expect(Math.abs(said(at(kind), kind === 'loaded' ? /reaches ([\d.]+) cm/ : /stands at ([\d.]+) of/) - edge)).toBeLessThan(0.1);
  });

  test('says when it is loaded how far the edge creeps until the water, as the bed has it then', () => {
    const edge = measured(at('released').time_min).bands.Co?.leading_cm ?? Number.NaN;
    expect(Math.abs(said(at('loaded'), /later it stands at ([\d.]+) cm/) - edge)).toBeLessThan(0.1);
  });

  test('says where the rest of the cobalt is only if less was caught than was asked for', () => {
    const done = at('done');
    expect(captionOf({ ...done, recovered: 0.98, asked: 0.995, lostBefore: 0.001, lostBehind: 0.019 }, scenario)).toContain('still on the column');
    expect(captionOf({ ...done, recovered: 0.98, asked: 0.995, lostBefore: 0.019, lostBehind: 0.001 }, scenario)).toContain('before the receiver was changed');
    expect(captionOf({ ...done, recovered: 0.996, asked: 0.995 }, scenario)).not.toContain('less than');
  });

  test('says between which volumes nickel runs through: a twentieth before, a twentieth after', () => {
    const moment = at('through');
    const { receivers, loaded } = measured(moment.time_min);
    const out = receivers.reduce((sum, receiver) => sum + Number(receiver['Ni_mmol']), 0);
    expect(out / (loaded['Ni_mmol'] ?? 0)).toBeCloseTo(0.95, 2);
    expect(said(moment, /and ([\d.]+) mL/)).toBeCloseTo(measured(moment.time_min).delivered_mL, 0);
  });

  test('says when cobalt begins to leave, and what stands in which beaker at the end', () => {
    const leaving = at('leaving');
    const out = measured(leaving.time_min).receivers.reduce((sum, receiver) => sum + Number(receiver['Co_mmol']), 0);
    expect(out / (measured(leaving.time_min).loaded['Co_mmol'] ?? 0)).toBeCloseTo(0.01, 2);
    const end = measured(plan.logEnd.time_min);
    const cobalt = end.receivers.find(({ label }) => label === 'cobalt');
    expect(said(at('done'), /([\d.]+) %/)).toBeCloseTo((100 * Number(cobalt?.['Co_mmol'])) / (end.loaded['Co_mmol'] ?? 0), 0);
    expect(said(at('done'), /in ([\d.]+) mL/)).toBeCloseTo(cobalt?.volume_mL ?? Number.NaN, 0);
  });
});

describe('the pace of a watched run', () => {
  let times: number[];
  beforeAll(() => {
    times = storyOf(scenario, plan, targetsOf(scenario)).map(({ time_min }) => time_min);
  });

  test('takes about a minute and a half in all, and at least a few seconds a caption', () => {
    const seconds = pacesOf(times).map((pace, i) => ((times[i + 1] - times[i]) * 60) / pace);
    expect(seconds.reduce((sum, each) => sum + each, 0)).toBeGreaterThan(0.8 * WATCHED_S);
    expect(seconds.reduce((sum, each) => sum + each, 0)).toBeLessThan(1.05 * WATCHED_S);
  });
});
