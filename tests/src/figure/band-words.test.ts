import { expect, test } from 'vitest';
import { frameAt, profileOf } from '../../../sim/history/index.ts';
import { depthAtFrame } from '../../../src/figure/drawing.ts';
import { type BandWord, bandWords } from '../../../src/figure/streaks/band-words.ts';
import type { Measured } from '../../../src/figure/streaks/measured.ts';
import { workedRun } from './runs.ts';

// Whose ink lies under each word is read off the profiles of the run, at places of its own.

/** Ink under a place of the picture: the root of the share of the top of the ramp, by ion. */
function inkUnder({ plan, layout, x, tops }: Measured, px: number, py: number): Record<string, number> {
  const frame = frameAt(plan, x.invert(px));
  const place = depthAtFrame({ plan, layout }, frame);
  const depth_cm = ((py - place(0)) / (place(1) - place(0))) * 1;
  const plate = Math.floor((depth_cm / plan.length_cm) * plan.plates);
  return Object.fromEntries(plan.ions.map((ion, k) => [ion, Math.sqrt((profileOf(plan, ion, frame)[plate] ?? 0) / tops[k + 1])]));
}

function inside({ box }: BandWord): [number, number][] {
  const shares = [0.1, 0.3, 0.5, 0.7, 0.9];
  return shares.flatMap((across) =>
    shares.map((down): [number, number] => [box.left + across * (box.right - box.left), box.top + down * (box.bottom - box.top)]),
  );
}

const SIZES = [
  [1320, 480],
  [765, 620],
  [366, 420],
] as const;

test.each(
  ['cathode-leach', 'demo-interfering-ions', 'six-metals', 'demo-overload'].flatMap((name) => SIZES.map(([width, height]) => ({ name, width, height }))),
)('each word beside a band of $name lies in its own streak, $width by $height px', ({ name, width, height }) => {
  const run = workedRun(name, width, height);
  const words = bandWords(run, [], Number.POSITIVE_INFINITY);
  for (const word of words) {
    for (const [px, py] of inside(word)) {
      const { [word.ion]: own = 0, ...others } = inkUnder(run, px, py);
      expect(own, `${word.text} at ${px.toFixed(0)}, ${py.toFixed(0)}`).toBeGreaterThan(0.08);
      // A cell of the grid is 4 px, and its edge lies up to so far from its middle.
      for (const other of Object.values(others)) expect(own).toBeGreaterThan(other - 0.1);
    }
  }
});

test('on a laptop both metals of the leach have room for their words, and none is told before it happens', () => {
  const run = workedRun('cathode-leach', 765, 620);
  const said = (until_mL: number): string[] => bandWords(run, [], until_mL).map(({ text }) => text);
  expect(said(Number.POSITIVE_INFINITY)).toEqual(expect.arrayContaining(['Ni runs through', 'Co crawls']));
  expect(said(20)).toEqual([]);
});
