import { expect, test } from 'vitest';
import { withNeeds } from '../../../sim/bench/index.ts';
import { fits } from '../../../sim/teach/index.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { airLeft, pressWords, pushed_mL } from '../../../src/bench/debrief/repair-words.ts';
import { sayRefusal } from '../../../src/bench/words.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

const coarse = shipped('cathode-leach', { bed: { lanes: 3, bead_um: 300 } });
const DRY: Log = [
  { do: 'clamp', open_percent: 100 },
  { do: 'wait', until: { elapsed_min: 30 } },
];
/** Two lines of a phone, beside nothing. */
const PHONE_CHARACTERS = 90;
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, ' ');

function at(log: Log) {
  const planner = new Planner(coarse);
  return planner.moment(planner.plan(log).logEnd.time_min);
}

test('a press says all that it does, and does all that it says', () => {
  const found = at(DRY);
  const room_mL = fits(coarse.values, found.headVolume);
  const push: Action = { do: 'refill-from-below', liquid: 'acid', volume_mL: pushed_mL(found.ails, room_mL) };
  const pushing = withNeeds(push, coarse, found, 'acid');
  expect(plain(pressWords(pushing, coarse))).toMatch(/^Shut the clamp and push in \d\.\d mL$/);
  expect(plain(airLeft(found))).toMatch(/^\d\.\d mL of air is left in the bed\.$/);
  // The bed that dried has come off the wall, which pushing does not mend; where a fault is hidden, that is not told.
  const pushed = at([...DRY, ...pushing]);
  expect(pushed.ails.gap).toBe(true);
  expect(airLeft(pushed)).toBe('No air is left in the bed, but a gap is open at its wall: only stirring closes that.');
  expect(airLeft(pushed, true)).toBe('No air is left in the bed.');
  const stirring = withNeeds({ do: 'stir' }, coarse, found, 'acid');
  expect(plain(pressWords(stirring, coarse))).toMatch(/^Shut the clamp, pour \d\.\d mL 9 M HCl and stir up$/);
  expect(airLeft(at([...DRY, ...stirring]))).toBe('No air is left in the bed.');
  expect(pressWords([{ do: 'top-up', resin_mL: 0.5 }], coarse)).toBe('Top up 0.5\u202fmL');
});

test('as much is pushed in as drives the air out and a little more, where the tube has room for it', () => {
  expect(pushed_mL({ dry: true, air_mL: 1.2, hollow_mL: 0, gap: false }, 8)).toBe(2);
  expect(pushed_mL({ dry: false, air_mL: 0, hollow_mL: 0, gap: false }, 8)).toBe(3);
  expect(pushed_mL({ dry: false, air_mL: 0.2, hollow_mL: 0, gap: false }, 0.4)).toBe(0.5);
  expect(pushed_mL({ dry: false, air_mL: 1.2, hollow_mL: 0, gap: false }, 0)).toBe(1);
});

test('a cure that is refused says why in a sentence that a phone shows whole', () => {
  const refused = (action: Action, log: Log = DRY) => {
    const planner = new Planner(coarse);
    const event = planner.plan([...log, action]).events.find((each) => each.refused);
    return event ? sayRefusal(event, 0) : '';
  };
  const shut: Log = [...DRY, { do: 'clamp', open_percent: 0 }];
  const said = [
    refused({ do: 'refill-from-below', liquid: 'acid', volume_mL: 3 }),
    refused({ do: 'stir' }),
    refused({ do: 'stir' }, shut),
    refused({ do: 'refill-from-below', liquid: 'acid', volume_mL: 20 }, shut),
    refused({ do: 'top-up', resin_mL: 0.5 }),
  ];
  expect(said.slice(0, 2)).toEqual(['Shut the clamp first.', 'Shut the clamp first.']);
  expect(said[2]).toMatch(/^Pour first/);
  expect(said[3]).toMatch(/^That is too much/);
  expect(said[4]).toMatch(/^There is no hollow/);
  for (const text of said) expect(text.length, text).toBeLessThan(PHONE_CHARACTERS);
});
