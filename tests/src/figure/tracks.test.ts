import { expect, test } from 'vitest';
import { motionsOf, tracksOf } from '../../../src/figure/streaks/tracks.ts';
import { wholeRun } from './runs.ts';

const { plan } = wholeRun('cathode-leach');
const [cobalt, nickel] = tracksOf(plan);

test('nickel runs through; cobalt crawls in acid and falls in water', () => {
  // Moore and Kraus, J. Am. Chem. Soc. 74 (1952) 843 (recalled): strong-base resin holds Co(II) in 9 M HCl, not Ni(II), and lets it go in water.
  const kinds = (track: typeof cobalt): string[] => (track ? motionsOf(plan, track).map(({ kind }) => kind) : []);
  expect(kinds(nickel)).toEqual(['runs']);
  expect(kinds(cobalt).sort()).toEqual(['crawls', 'falls']);
});

test('edges enclose the middle of a band and stay in the bed', () => {
  for (const track of tracksOf(plan)) {
    track.share.forEach((share, frame) => {
      if (share === 0) return;
      const [trailing = Number.NaN, middle = Number.NaN, leading = Number.NaN] = [track.trailing[frame], track.middle[frame], track.leading[frame]];
      expect(0 <= trailing && trailing <= middle && middle <= leading && leading <= 1).toBe(true);
    });
  }
});

test('edges of a normal band lie 2.326 standard deviations from its middle', () => {
  // Upper 1 % point of the standard normal distribution: 2.3263, any table of it (from memory).
  const plates = 1000;
  const sigma = 0.05;
  const profiles = Float32Array.from({ length: 2 * plates }, (_, at) =>
    at < plates ? 0 : Math.exp(-(((at - plates + 0.5) / plates - 0.5) ** 2) / (2 * sigma ** 2)),
  );
  const [track] = tracksOf({ ...plan, ions: ['Co'], components: 2, plates, count: 1, stride: 10, rows: new Float64Array(10), profiles });
  expect(track?.middle[0]).toBeCloseTo(0.5, 4);
  expect(track?.leading[0]).toBeCloseTo(0.5 + 2.3263 * sigma, 3);
  expect(track?.trailing[0]).toBeCloseTo(0.5 - 2.3263 * sigma, 3);
});
