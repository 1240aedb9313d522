import { beforeAll, describe, expect, test } from 'vitest';
import { keptVerdict, pouredOf, spansOf, targetsOf } from '../../../sim/history/index.ts';
import type { WorkUpAction } from '../../../sim/workup/index.ts';
import type { Session } from '../../../src/store/session.ts';
import { refusalText } from '../../../src/ui/text/work-up-refusals.ts';
import { doneWords, meterWords, stepWords } from '../../../src/ui/text/work-up-words.ts';
import { collected } from './rig.ts';

const EDTA = (dose: Extract<WorkUpAction, { do: 'add' }>['dose']): WorkUpAction => ({ do: 'add', reagent: 'EDTA', dose });
const TRANSFER: WorkUpAction = { do: 'transfer', rinses: 2, rinse_mL: 5 };

describe('a refusal of the work-up', () => {
  let session: Session;
  beforeAll(async () => {
    session = await collected();
  });

  /** What is said of a last action after these; undefined if it is taken. */
  function said(before: readonly WorkUpAction[] | 'all', last: WorkUpAction): string | undefined {
    const { workUp } = session;
    workUp.startAgain();
    if (before === 'all') workUp.actAsUsual(false);
    else for (const action of before) expect(workUp.act(action)?.refused).toBeUndefined();
    const refused = workUp.act(last)?.refused;
    return refused && refusalText(refused);
  }

  test.each<[string, readonly WorkUpAction[] | 'all', WorkUpAction, RegExp]>([
    ['titrant without indicator', [], EDTA({ drops: 1 }), /Add thiocyanate and acetone first/],
    ['titrating a pink flask on', 'all', EDTA({ until: 'pink' }), /turned pink, the end point is reached: read the burette/],
    [
      'more than the burette holds',
      'all',
      EDTA({ mL: 24 }),
      /^Refused: the burette is empty before that\. This eluate holds too much cobalt to be titrated whole: start it again, .* take portions\.$/,
    ],
    ['acid into thiocyanate', 'all', { do: 'add', reagent: 'acetic', dose: { drops: 1 } }, /No acid goes in any more/],
    ['thiocyanate into acid', [TRANSFER], { do: 'add', reagent: 'thiocyanate', dose: { g: 3 } }, /still acid \(pH .*\)\. Neutralise it/],
    ['a second transfer', [TRANSFER], TRANSFER, /is in the flask already/],
    ['a flask too small', [TRANSFER], { do: 'make up', to_mL: 10 }, /a 10 mL flask is too small\. It takes at least \d+\.\d mL, such as \d+ mL/],
    ['a portion larger than the eluate', [], { do: 'portion', mL: 100 }, /It has to be at most the .* mL that are left/],
    ['a portion of what was titrated', 'all', { do: 'portion', mL: 5 }, /EDTA is in this eluate already/],
    ['a pH out of reach', [], { do: 'add', reagent: 'acetic', dose: { until: { pH: 0.01 } } }, /pH 0\.01 is out of reach/],
  ])('of %s says why in words, and what to do', (_, before, last, words) => {
    const text = said(before, last);
    expect(text).toMatch(words);
    expect(text).not.toMatch(/expected|received|[a-z]\.[a-z]/i);
  });
});

test('what a receiver holds and what ran out while it stood there differ by the drop that hung at the tip; what is told is what it holds', async () => {
  const { store, workUp } = await collected();
  const { plan } = store;
  const { receiver } = workUp;
  if (!plan || !receiver) throw new Error('expected a run');
  const [nickel, cobalt] = spansOf(plan);
  if (!nickel || !cobalt) throw new Error('expected two stays');
  const volumes = store.moment?.results.receivers.map(({ volume_mL }) => volume_mL) ?? [];
  const drop_mL = nickel.to_mL - nickel.from_mL - volumes[0];
  // A drop is about 0.05 mL, and some part of one hangs.
  expect(drop_mL).toBeGreaterThan(0);
  expect(drop_mL).toBeLessThan(0.06);
  expect(volumes[1] - (cobalt.to_mL - cobalt.from_mL)).toBeCloseTo(drop_mL, 9);
  if (!store.scenario) throw new Error('expected a scenario');
  const targets = targetsOf(store.scenario);
  const told = keptVerdict(plan, targets, cobalt);
  expect(told.acid_mmol).toBe(receiver.HCl_mmol);
  expect(told.acid_mmol).not.toBeCloseTo(cobalt.amounts.HCl_mmol, 3);
  expect(told.recovered).toBe((receiver.Co_mmol ?? 0) / pouredOf(plan, 'Co'));
  expect(told.recovered + told.lostBefore + told.lostAfter + told.lostBehind).toBeCloseTo(1, 9);
  // A change that is only tried elsewhere is judged by what runs out.
  const tried = keptVerdict(plan, targets, { ...cobalt, from_mL: cobalt.from_mL + 1 });
  expect(tried.acid_mmol).toBeLessThan(told.acid_mmol - 1);
});

test('what is weighed is named without a molarity, and a pH that was asked for is told beside the reading that comes before it', async () => {
  const { workUp } = await collected();
  workUp.actAsUsual(false);
  const { bench, state } = workUp;
  if (!bench || !state) throw new Error('expected a work-up');
  expect(stepWords({ do: 'add', reagent: 'thiocyanate', dose: { g: 3 } }, bench)).toBe('ammonium thiocyanate, 3.00\u202fg');
  const alkali = state.events.find(({ action }) => action.do === 'add' && action.reagent === 'NaOH');
  const acid = state.events.find(({ action }) => action.do === 'add' && action.reagent === 'acetic');
  if (!alkali || !acid) throw new Error('expected alkali and acid');
  expect(doneWords(alkali, bench)).toMatch(/ mol\/L NaOH \(\d+ drops?\), expected to settle at pH 8\.0 once the lumps of hydroxide have dissolved$/);
  // The meter goes beyond what was asked for, and with a swirl comes back to it.
  const at = state.events.indexOf(alkali);
  const { reading } = alkali;
  expect(reading?.pH).toBeGreaterThan(9);
  expect(reading && meterWords(alkali, reading)).toBe(`the meter right now: pH ${reading?.pH.toFixed(2)}`);
  expect(stepWords(alkali.action, bench)).toMatch(
    /until the pH stays at 8\.0 or just above it; right after the last drop the meter still reads otherwise, as lumps of hydroxide dissolve slowly$/,
  );
  const next = state.events[at + 1];
  expect(next?.reading && meterWords(next, next.reading)).toMatch(/^pH /);
  expect(stepWords(acid.action, bench)).toContain('or just below it; right after the last drop the meter still reads otherwise');
  const rested = state.events[state.events.indexOf(acid) + 1];
  expect(rested?.action.do).toBe('swirl');
  expect(acid.reading?.pH).toBeLessThan(6);
  expect(Math.abs((rested?.reading?.pH ?? 0) - 6)).toBeLessThan(Math.abs((acid.reading?.pH ?? 0) - 6));
});
