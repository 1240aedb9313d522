import { expect, test } from 'vitest';
import { trackOf } from '../../../sim/history/index.ts';
import { motionsOf } from '../../../src/figure/streaks/motions.ts';
import { wholeRun } from './runs.ts';

const { plan } = wholeRun('cathode-leach');

const LESSONS = ['demo-overload', 'demo-channel', 'demo-dried-bed', 'demo-wrong-bed', 'demo-interfering-ions', 'six-metals'];

test('a band is said to stay only where its edge stands and none of it leaves', () => {
  const staying = LESSONS.flatMap((name) => {
    const run = wholeRun(name).plan;
    return run.ions.flatMap((ion) => {
      const track = trackOf(run, ion);
      return motionsOf(run, track).flatMap(({ kind, from, to }) => (kind === 'stays' ? [{ name, ion, run, track, from, to }] : []));
    });
  });
  // Iron is held by 9 M acid like nothing else here.
  expect(staying.map(({ name, ion }) => `${name} ${ion}`)).toContain('demo-interfering-ions Fe3');
  for (const { name, ion, run, track, from, to } of staying) {
    expect((track.leading_cm[to] - track.leading_cm[from]) / run.length_cm, `${name} ${ion}`).toBeLessThan(0.05);
    expect(track.share[from] - track.share[to], `${name} ${ion}`).toBeLessThan(0.005);
  }
});

test('a band whose edge has reached the bottom, and of which a tenth is lost, crawls', () => {
  const { plan: run } = wholeRun('demo-overload');
  const track = trackOf(run, 'Co');
  expect(motionsOf(run, track).map(({ kind }) => kind)).not.toContain('stays');
  expect(motionsOf(run, track).map(({ kind }) => kind)).toContain('crawls');
});

test('nickel runs through; cobalt crawls in acid and falls in water', () => {
  // Moore and Kraus, J. Am. Chem. Soc. 74 (1952) 843 (recalled): strong-base resin holds Co(II) in 9 M HCl, not Ni(II), and lets it go in water.
  const kinds = (ion: 'Co' | 'Ni'): string[] => motionsOf(plan, trackOf(plan, ion)).map(({ kind }) => kind);
  expect(kinds('Ni')).toEqual(['runs']);
  expect(kinds('Co').sort()).toEqual(['crawls', 'falls']);
});
