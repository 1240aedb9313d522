import { beforeAll, describe, expect, test } from 'vitest';
import { balanceIn, restingBalance } from '../../../sim/flask/index.ts';
import { keptVerdict, pouredOf, spansOf, targetsOf } from '../../../sim/history/index.ts';
import { buretteReads, type WorkUpAction } from '../../../sim/workup/index.ts';
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
    ['titrating on beyond the blue', 'all', EDTA({ until: 'pink' }), /the blue has gone, the end point is reached: read the burette/],
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
  expect(doneWords(alkali, bench)).toMatch(/ mol\/L NaOH \(\d+ drops?\), so that the pH stays at 8\.0 or above it$/);
  // The meter goes beyond what was asked for, and with a swirl comes back to it.
  const at = state.events.indexOf(alkali);
  const { reading } = alkali;
  expect(reading?.pH).toBeGreaterThan(9);
  expect(reading && meterWords(alkali, reading)).toBe(`the meter right now: pH ${reading?.pH.toFixed(2)}`);
  expect(stepWords(alkali.action, bench)).toMatch(
    /until the pH stays at 8\.0 or above it; the last drop can carry it far, and the meter moves on while lumps of hydroxide dissolve$/,
  );
  const next = state.events[at + 1];
  expect(next?.reading && meterWords(next, next.reading)).toMatch(/^pH /);
  expect(stepWords(acid.action, bench)).toContain('or below it; the last drop can carry it far');
  const rested = state.events[state.events.indexOf(acid) + 1];
  expect(rested?.action.do).toBe('swirl');
  expect(acid.reading?.pH).toBeLessThan(6);
  expect(Math.abs((rested?.reading?.pH ?? 0) - 6)).toBeLessThan(Math.abs((acid.reading?.pH ?? 0) - 6));
});

test('a last drop that went too far is told with the pH it came to; lumps of hydroxide with the pH the meter comes to while they dissolve', async () => {
  const { workUp } = await collected();
  workUp.actAsUsual(false);
  const { bench, state } = workUp;
  const of = (reagent: string) => (state?.events ?? []).findIndex(({ action }) => action.do === 'add' && action.reagent === reagent);
  const said = (at: number) => (state?.events[at].notes ?? []).map(({ text }) => text).join(' ');
  const before = (at: number) => workUp.stateBefore(at + 1)?.eluate;
  const [alkali, acid] = [of('NaOH'), of('acetic')];
  const [basic, sour] = [before(alkali), before(acid)];
  if (!bench || !basic || !sour) throw new Error('expected a work-up');
  const chemistry = bench.around.chemistry;
  expect(said(alkali)).toContain(`Far basic, pH ${balanceIn(basic, chemistry).pH.toFixed(1)}: one drop of this alkali holds 0.30 mmol, more than was left`);
  // The usual step stops at the first drop that suffices, so it blames nobody; who runs in drop after drop is told so.
  expect(said(alkali)).toContain('nothing went wrong');
  const usual_mL = state?.events[alkali].used ?? Number.NaN;
  workUp.startAgain();
  for (let i = 0; i < alkali; i++) workUp.actAsUsual(true);
  const told = (drops: number) => (workUp.act({ do: 'add', reagent: 'NaOH', dose: { drops } })?.notes ?? []).map(({ text }) => text).join(' ');
  const drops = Math.round(usual_mL / bench.values['workup.drop_mL']);
  expect(told(drops - 1)).not.toContain('Far basic');
  expect(told(1)).toContain('nothing went wrong');
  expect(told(1)).toMatch(/Far basic, pH \d+\.\d: more alkali than the acid took\./);
  expect(said(acid)).toContain(`The meter is still on its way, to pH ${restingBalance(sour, chemistry).pH.toFixed(1)}.`);
  // The swirl that follows dissolves them, and the meter shows that pH.
  expect(said(acid + 1)).toBe('');
  expect(state?.events[acid + 1].reading?.pH).toBeCloseTo(restingBalance(sour, chemistry).pH, 1);
});

test('what EDTA ran in is told as the burette reads it, and its end by the blue', async () => {
  const { workUp } = await collected();
  workUp.actAsUsual(false);
  const { bench, state } = workUp;
  const last = state?.events.at(-1);
  if (!bench || !last) throw new Error('expected a titration');
  const final_mL = state?.titres.at(-1)?.final_mL.toFixed(2);
  expect(doneWords(last, bench)).toMatch(new RegExp(`EDTA.*: the burette reads ${final_mL}\u202fmL$`));
});

test('the burette is read before the first EDTA, and that reading is the initial one of the titre', async () => {
  const { workUp } = await collected();
  while (workUp.usual && !(workUp.usual.do === 'add' && workUp.usual.reagent === 'EDTA')) workUp.actAsUsual(true);
  const { bench, state } = workUp;
  if (!bench || !state) throw new Error('expected a flask');
  const before = buretteReads(state, bench);
  workUp.actAsUsual(true);
  const titre = workUp.state?.titres.at(-1);
  expect(titre?.initial_mL).toBe(before);
  expect(before).toBeGreaterThan(0);
  expect(workUp.state && buretteReads(workUp.state, bench)).toBe(titre?.final_mL);
});
