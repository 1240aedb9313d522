import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { REAGENTS, type Dose, type WorkUpAction } from '../../../sim/workup/actions.ts';
import { benchOf, inHand, startOf, type WorkUpState } from '../../../sim/workup/bench.ts';
import type { Receiver } from '../../../sim/flask/flask.ts';
import { playWorkUp, workUpStep } from '../../../sim/workup/play.ts';
import { defaultProcedure } from '../../../sim/workup/procedure.ts';
import { evenly } from '../../exact/even.ts';

const RECEIVER: Receiver = { volume_mL: 52, HCl_mmol: 36, Co_mmol: 0.5, Ni_mmol: 0.002 };
/** In portions of a volumetric flask; the tests need the first one only. */
const values = { ...parameterDefaults(), 'workup.titrations': 2, 'workup.burette_mL': 50 };
const bench = benchOf(values, 3);
const whole = defaultProcedure(RECEIVER, values);
const usual = whole.slice(
  0,
  whole.findLastIndex((action) => action.do === 'portion'),
);
const add = (reagent: (typeof REAGENTS)[number], dose: Dose): WorkUpAction => ({ do: 'add', reagent, dose });
const refusal = (state: WorkUpState) => state.events[state.events.length - 1].refused;
const after = (count: number) => playWorkUp(RECEIVER, usual.slice(0, count), bench);
const EVERY_STEP: readonly WorkUpAction[] = [
  { do: 'transfer', rinses: 2, rinse_mL: 5 },
  { do: 'make up', to_mL: 100 },
  { do: 'portion', mL: 10 },
  add('NaOH', { mL: 1 }),
  add('thiocyanate', { g: 1 }),
  add('EDTA', { until: 'pink' }),
  { do: 'swirl', min: 1 },
  { do: 'wait', min: 1 },
];
const steady = benchOf({ ...values, 'bench.hand': 0 }, 3);
/** The whole eluate is in the portion in hand: as much as a 20 mL pipette of this bench takes. */
const usedUp = (): WorkUpState => playWorkUp({ volume_mL: steady.apparatus.pipette(20), HCl_mmol: 10, Co_mmol: 0.1 }, [{ do: 'portion', mL: 20 }], steady);
const untilThiocyanate = usual.findIndex((action) => action.do === 'add' && action.reagent === 'thiocyanate') + 1;

describe('an action that cannot be done is refused and changes nothing', () => {
  const cases: [string, WorkUpState, WorkUpAction, string][] = [
    ['EDTA before the indicator', after(untilThiocyanate - 1), add('EDTA', { drops: 1 }), 'no thiocyanate'],
    ['acetic acid into thiocyanate', after(untilThiocyanate), add('acetic', { mL: 1 }), 'acid into thiocyanate'],
    ['hydrochloric acid into thiocyanate', after(untilThiocyanate), add('HCl', { drops: 3 }), 'acid into thiocyanate'],
    ['thiocyanate into acid', after(3), add('thiocyanate', { g: 1 }), 'pH 0.4'],
    ['a volume of nothing', after(3), add('NaOH', { mL: 0 }), '0 mL'],
    ['a negative volume', after(3), add('NaOH', { mL: -3 }), '-3 mL'],
    ['a volume that is no number', after(3), add('NaOH', { mL: Number.NaN }), 'NaN mL'],
    ['more than the flask holds', after(3), add('water', { mL: 499 }), '499.00 mL'],
    ['alkali weighed in', after(3), add('NaOH', { g: 1 }), '1 g'],
    ['a flask that is too small', startOf(RECEIVER, bench), { do: 'make up', to_mL: 50 }, '50 mL'],
    ['a portion larger than the flask', startOf(RECEIVER, bench), { do: 'portion', mL: 60 }, '60 mL'],
    ['a pH that this acid never reaches', after(4), add('acetic', { until: { pH: 1 } }), '1'],
    ['an end point without blue', playWorkUp(RECEIVER, usual, bench), add('EDTA', { until: 'pink' }), 'no blue to lose'],
    ...EVERY_STEP.map((action): [string, WorkUpState, WorkUpAction, string] => [
      `an empty flask: ${action.do}`,
      startOf({ volume_mL: 0, HCl_mmol: 0 }, bench),
      action,
      'an empty one',
    ]),
    ['a portion from an eluate that is used up', usedUp(), { do: 'portion', mL: 20 }, 'an empty one'],
    ['more than the burette holds', after(untilThiocyanate + 1), add('EDTA', { mL: 60 }), '60.1'],
    ['an unknown action', after(3), { do: 'boil' } as unknown as WorkUpAction, 'boil'],
  ];

  it.each(cases)('%s', (_, state, action, received) => {
    const next = workUpStep(state, action, bench);
    expect(refusal(next)?.received).toContain(received);
    expect(refusal(next)?.expected).not.toBe('');
    expect({ ...next, events: [] }).toEqual({ ...state, events: [] });
  });

  it('with the hazard named for acid into thiocyanate', () => {
    const next = workUpStep(after(untilThiocyanate), add('acetic', { mL: 1 }), bench);
    expect(next.events[next.events.length - 1].notes).toContainEqual(expect.objectContaining({ kind: 'caution', hazard: 'thiocyanate' }));
  });

  it('when strong acid and strong alkali would boil', () => {
    const strong = startOf({ volume_mL: 30, HCl_mmol: 270, Co_mmol: 0.5 }, benchOf({ ...values, 'bench.NaOH_M': 12 }, 3));
    // 48 K from neutralising alone (computed beforehand for 9 M acid and 6 M alkali); 12 M alkali brings less water to warm.
    const next = workUpStep(strong, add('NaOH', { mL: 22.5 }), benchOf({ ...values, 'bench.NaOH_M': 12 }, 3));
    expect(refusal(next)?.expected).toContain('boil');
    expect(inHand(next).volume_mL).toBe(30);
  });
});

test('a portion that took all of the eluate is swirled and titrated on', () => {
  const next = workUpStep(usedUp(), { do: 'swirl', min: 1 }, steady);
  expect(refusal(next)).toBeUndefined();
  expect(inHand(next).volume_mL).toBeCloseTo(20, 1);
});

test('a burette that would run empty says at which reading', () => {
  const next = workUpStep(after(untilThiocyanate + 1), add('EDTA', { mL: 60 }), bench);
  expect(refusal(next)?.expected).toBe('at most the 50 mL at which the burette is empty');
});

test('alkali after ammonium thiocyanate is let be, with a warning of ammonia', () => {
  const next = workUpStep(after(untilThiocyanate), add('NaOH', { mL: 2 }), bench);
  expect(refusal(next)).toBeUndefined();
  expect(next.events[next.events.length - 1].notes.map(({ text }) => text).join()).toContain('ammonia');
});

test('EDTA drop by drop reaches the same end as until pink, to a drop', () => {
  const start = after(usual.length - 1);
  let state = workUpStep(start, add('EDTA', { mL: 12 }), bench);
  while (!state.titres[0].pink) state = workUpStep(state, add('EDTA', { drops: 1 }), bench);
  const whole = workUpStep(start, add('EDTA', { until: 'pink' }), bench).titres[0];
  expect(Math.abs(state.titres[0].delivered_mL - whole.delivered_mL)).toBeLessThanOrEqual(0.0501);
  expect(state.titres).toHaveLength(1);
});

test('the flask is pink as eluate, blue with indicator in acetone, without any blue at the end', () => {
  const events = playWorkUp(RECEIVER, usual, bench).events;
  const seen = (reagent: string) => events.find(({ action }) => action.do === 'add' && action.reagent === reagent)?.reading?.appearance;
  expect(events[2].reading?.appearance.liquid).toContain('pink');
  expect(seen('NaOH')?.solid).toContain('cobalt hydroxide');
  expect(seen('acetone')?.liquid).toBe('blue');
  expect(seen('EDTA')?.liquid).toMatch(/^(pale pink|colourless)$/);
});

test('blue comes back while waiting when nickel is left in the cobalt', () => {
  const nickel = { ...RECEIVER, Ni_mmol: 0.05 };
  const fast = benchOf({ ...values, 'workup.pour_mL_min': 30 }, 3);
  const state = playWorkUp(nickel, usual, fast);
  expect(state.titres[0].blueReturned).toBeGreaterThan(0);
  expect(state.titres[0].delivered_mL).toBeGreaterThan(state.titres[0].firstPink_mL ?? Number.NaN);
});

describe('laws of the bench', () => {
  const volume = evenly(0.05, 30);
  const dose: fc.Arbitrary<Dose> = fc.oneof(
    volume.map((mL) => ({ mL })),
    fc.integer({ min: 1, max: 40 }).map((drops) => ({ drops })),
    evenly(1, 12).map((pH) => ({ until: { pH } })),
    fc.constant({ until: 'pink' as const }),
    evenly(0.1, 3).map((g) => ({ g })),
  );
  const action: fc.Arbitrary<WorkUpAction> = fc.oneof(
    { weight: 1, arbitrary: fc.constantFrom(60, 100, 250).map((to_mL) => ({ do: 'make up' as const, to_mL })) },
    { weight: 2, arbitrary: fc.constantFrom(5, 10, 25).map((mL) => ({ do: 'portion' as const, mL })) },
    { weight: 8, arbitrary: fc.record({ do: fc.constant('add' as const), reagent: fc.constantFrom(...REAGENTS), dose }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant('wait' as const), min: evenly(0.1, 20) }) },
  );

  it('cobalt and nickel are all in the flasks, nothing is negative and dissolved cobalt never exceeds the total', () => {
    fc.assert(
      fc.property(fc.array(action, { maxLength: 14 }), (log) => {
        const state = playWorkUp(RECEIVER, log, bench);
        const flasks = [state.eluate, ...state.putAside, ...(state.portion ? [state.portion] : [])];
        for (const ion of ['Co', 'Ni'] as const) {
          const total = flasks.reduce((sum, { amounts }) => sum + amounts[ion], 0);
          expect(Math.abs(total / (RECEIVER[`${ion}_mmol`] ?? 0) - 1)).toBeLessThan(1e-9);
        }
        for (const flask of flasks) {
          expect(Math.min(flask.volume_mL, flask.acetone_mL, ...Object.values(flask.amounts))).toBeGreaterThanOrEqual(-1e-12);
          for (const [ion, mmol] of Object.entries(flask.solid)) expect(mmol).toBeLessThanOrEqual(flask.amounts[ion as 'Co'] + 1e-9);
          expect(Number.isFinite(flask.temperature_C)).toBe(true);
        }
        for (const { reading } of state.events) if (reading) expect(Number.isFinite(reading.pH)).toBe(true);
      }),
      { seed: 31, numRuns: 60 },
    );
  });

  it('the same log gives the same state', () => {
    fc.assert(
      fc.property(fc.array(action, { maxLength: 8 }), (log) => {
        expect(playWorkUp(RECEIVER, log, bench)).toEqual(playWorkUp(RECEIVER, log, benchOf(values, 3)));
      }),
      { seed: 32, numRuns: 15 },
    );
  });
});
