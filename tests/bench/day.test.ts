import { expect, test } from 'vitest';
import { shipped } from '../sim/faults/seen.ts';
import { aliquotOf } from './day.ts';

// What a class does and sees with one aliquot, on the column as it is meant. Common practice, no source, unless a line says otherwise;
// how far columns differ is printed by npm run -s spread, and what is not reproduced stands in DEVELOPERS.md.

const leach = shipped('cathode-leach');
const asMeant = { 'differ.bead': 0, 'differ.porosity': 0, 'differ.length_cm': 0, 'differ.spread': 0, 'differ.acid_M': 0 };
const aliquot = aliquotOf({ ...leach, values: { ...leach.values, ...asMeant, 'bed.lanes': 1 } });

// mL/min: published procedures, read.
test.each([
  ['drops a minute at 1 mm of acid', aliquot.drops_min, 25, 60],
  ['mL a minute', aliquot.flow_mL_min, 1.3, 3],
  ['cm of bed in acid, poured as about 7 in water', aliquot.inAcid_cm, 6.3, 7.2],
  ['mL of 9 M acid until the edge nears the bottom', aliquot.near_mL, 20, 40],
  ['% of the cobalt lost by then: none that is noticed', aliquot.lostNear_percent, 0, 2],
  ['mL of water for 95 % of the cobalt', aliquot.water95_mL, 0, 10],
  ['mL of water for 99 %, with water left when the colour is gone', aliquot.water99_mL, 0, 30],
  ['min for three aliquots in one period of 4 h', 3 * aliquot.time_min, 0, 240],
])('%s', (_, found, least, most) => {
  expect(found).toBeGreaterThan(least);
  expect(found).toBeLessThan(most);
});
