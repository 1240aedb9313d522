import { expect, test } from 'vitest';
import { trackOf } from '../../../sim/history/index.ts';
import { motionsOf } from '../../../src/figure/streaks/motions.ts';
import { wholeRun } from './runs.ts';

const { plan } = wholeRun('cathode-leach');

test('nickel runs through; cobalt crawls in acid and falls in water', () => {
  // Moore and Kraus, J. Am. Chem. Soc. 74 (1952) 843 (recalled): strong-base resin holds Co(II) in 9 M HCl, not Ni(II), and lets it go in water.
  const kinds = (ion: 'Co' | 'Ni'): string[] => motionsOf(plan, trackOf(plan, ion)).map(({ kind }) => kind);
  expect(kinds('Ni')).toEqual(['runs']);
  expect(kinds('Co').sort()).toEqual(['crawls', 'falls']);
});
