import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { type Receiver, receiverOf } from '../../../sim/flask/flask.ts';
import { workUp } from '../../../sim/report/workup.ts';
import { evenly } from '../../exact/even.ts';

const RECEIVER: Receiver = { volume_mL: 52, HCl_mmol: 36, Co_mmol: 0.5 };
/** Titration in portions of a volumetric flask, the alternative. */
const values = { ...parameterDefaults(), 'workup.titrations': 3, 'workup.burette_mL': 50, 'workup.acetone_mL': 40, 'workup.thiocyanate_g': 1 };
const run = (receiver: Receiver = RECEIVER, changed: Partial<typeof values> = {}, seed = 3) => workUp(receiver, { ...values, ...changed }, seed);

describe('a clean eluate in portions', () => {
  const result = run();

  it('refuses nothing and titrates three portions', () => {
    expect(result.refused).toEqual([]);
    expect(result.titrations).toHaveLength(3);
  });

  it('finds the cobalt within the error budget by tolerances', () => {
    expect(Math.abs(result.cobalt?.bias_percent ?? Number.NaN)).toBeLessThan(1.5 * result.budgets[0].relative_percent);
    expect(result.cobalt?.found_M).toBeCloseTo((result.cobalt?.found_mmol ?? 0) / values['workup.sample_mL'], 12);
  });

  it('predicts the alkali for all the acid and uses that, drops and hydroxide apart', () => {
    expect(result.NaOH_whole_mL).toBeCloseTo(6, 10);
    for (const { NaOH_mL, NaOH_predicted_mL } of result.titrations) {
      expect(NaOH_predicted_mL).toBeCloseTo(1.5, 10);
      expect(NaOH_mL).toBeGreaterThan(NaOH_predicted_mL - 0.01);
      expect(NaOH_mL).toBeLessThan(NaOH_predicted_mL + 0.15);
    }
  });

  it('warms each portion by about n dH / (V 4.18)', () => {
    for (const { warming_K } of result.titrations) expect(Math.abs(warming_K - (9 * 55.8) / (26.5 * 4.18))).toBeLessThan(0.6);
  });

  it('adds the indicator near pH 6 (common practice, no source)', () => {
    for (const { pH } of result.titrations) expect(Math.abs(pH.indicator - 6)).toBeLessThan(0.4);
  });

  it('explains its bias: the causes add up to it exactly', () => {
    for (const { causes, bias_percent } of result.titrations) expect(causes.reduce((sum, { percent }) => sum + percent, 0)).toBeCloseTo(bias_percent, 8);
  });

  it('comes out the same again, and with other readings under another seed or replicate', () => {
    expect(run()).toEqual(result);
    const titres = (other: ReturnType<typeof run>) => other.titrations.map(({ titre }) => titre.read_mL);
    expect(titres(run(RECEIVER, {}, 4))).not.toEqual(titres(result));
    expect(titres(workUp(RECEIVER, values, 3, undefined, 1))).not.toEqual(titres(result));
  });
});

const cause = (result: ReturnType<typeof run>, name: string) => {
  const { causes } = result.titrations[0];
  return causes.find((item) => item.cause === name)?.percent ?? Number.NaN;
};

describe('each cause of bias is named with its sign', () => {
  it('nickel counts as cobalt, mole for mole once it has reacted', () => {
    const result = run({ ...RECEIVER, Ni_mmol: 0.01 });
    expect(cause(result, 'nickel') + cause(result, 'overrun')).toBeGreaterThan(1.5);
    expect(cause(result, 'nickel')).toBeLessThan(2.1);
    expect(cause(run(), 'nickel')).toBeCloseTo(0, 6);
  });

  it('zinc counts too', () => {
    expect(cause(run({ ...RECEIVER, Zn_mmol: 0.01 }), 'other metals')).toBeGreaterThan(1.8);
  });

  it('no added acetate and fine alkali make the pH drift and the end point late', () => {
    const drifting = run(RECEIVER, { 'workup.acetate_mL': 0, 'workup.neutral_pH': 7.2, 'bench.NaOH_M': 0.5, 'workup.drop_mL': 0.02 });
    expect(cause(drifting, 'pH drift')).toBeGreaterThan(1);
    expect(Math.abs(cause(run(), 'pH drift'))).toBeLessThan(0.2);
  });

  it('little acetone makes it early', () => {
    const weak = run(RECEIVER, { 'workup.acetone_mL': 8 });
    expect(cause(weak, 'indicator') + cause(weak, 'acetone')).toBeLessThan(-3);
    expect(weak.cobalt?.bias_percent).toBeLessThan(run().cobalt?.bias_percent ?? Number.NaN);
  });

  it('large drops make it late', () => {
    expect(cause(run(RECEIVER, { 'workup.drop_mL': 0.2 }), 'drop')).toBeGreaterThanOrEqual(0);
  });

  it('an indicator added to an acid flask makes it late', () => {
    expect(cause(run(RECEIVER, { 'workup.indicator_pH': 3.7, 'workup.acetic_M': 6 }), 'pH at the start')).toBeGreaterThan(0.5);
  });
});

describe('the receiver decides', () => {
  it('acid collected 4 mL early costs its alkali: 36 mmol more are 6 mL of 6 mol/L', () => {
    const early = run({ ...RECEIVER, volume_mL: 56, HCl_mmol: 72 });
    expect(early.NaOH_whole_mL - run().NaOH_whole_mL).toBeCloseTo(6, 10);
    expect(early.titrations[0].warming_K).toBeGreaterThan(run().titrations[0].warming_K * 1.7);
  });

  it('an eluate that does not fit goes into the next larger flask', () => {
    expect(run({ ...RECEIVER, volume_mL: 130 }).flask_mL).toBe(250);
  });

  it('an eluate without cobalt gives no titre and no nonsense', () => {
    const empty = run({ volume_mL: 50, HCl_mmol: 5 });
    expect(empty.titrations).toEqual([]);
    expect(empty.cobalt).toBeNull();
    expect(empty.refused.map(({ received }) => received)).toContain('no blue to lose');
  });

  it('an empty receiver refuses every step', () => {
    const nothing = run({ volume_mL: 0, HCl_mmol: 0 });
    expect(nothing.refused).toHaveLength(nothing.state.events.length);
    expect(nothing.cobalt).toBeNull();
  });
});

test('the eluate can be titrated whole, without flask or portion', () => {
  const result = workUp({ volume_mL: 40, HCl_mmol: 2, Co_mmol: 0.2 }, values, 5, [
    { do: 'add', reagent: 'NaOH', dose: { until: { pH: 8 } } },
    { do: 'add', reagent: 'acetate', dose: { mL: 3 } },
    { do: 'add', reagent: 'acetic', dose: { until: { pH: 6 } } },
    { do: 'swirl', min: 3 },
    { do: 'add', reagent: 'thiocyanate', dose: { g: 1.5 } },
    { do: 'add', reagent: 'acetone', dose: { mL: 45 } },
    { do: 'add', reagent: 'EDTA', dose: { until: 'pink' } },
  ]);
  expect(result.refused).toEqual([]);
  expect(Math.abs(result.cobalt?.bias_percent ?? Number.NaN)).toBeLessThan(2);
});

test('receiverOf reads a receiver of the results, absent ions as none', () => {
  const receiver = receiverOf({ label: 'cobalt', volume_mL: 50, HCl_mmol: 12, Co_mmol: 0.4 });
  expect(receiver).toMatchObject({ label: 'cobalt', volume_mL: 50, HCl_mmol: 12, Co_mmol: 0.4, Ni_mmol: 0 });
});

test('any receiver is worked up to finite figures whose causes add up', () => {
  const mmol = (max: number) => evenly(0, max);
  const receiver = fc.record({
    volume_mL: evenly(0.5, 400),
    HCl_mmol: mmol(300),
    Co_mmol: mmol(3),
    Ni_mmol: mmol(0.3),
    Mn_mmol: mmol(0.2),
    Cu_mmol: mmol(0.1),
    Zn_mmol: mmol(0.1),
    Fe3_mmol: mmol(0.1),
    Fe2_mmol: mmol(0.05),
    Cd_mmol: mmol(0.05),
  });
  fc.assert(
    fc.property(receiver, fc.integer({ min: 0, max: 99 }), (held, seed) => {
      const result = run(held, { 'workup.titrations': 1 }, seed);
      expect(result.titrations.length + result.refused.length).toBeGreaterThan(0);
      for (const { causes, bias_percent, titre } of result.titrations) {
        expect(Number.isFinite(bias_percent)).toBe(true);
        expect(titre.read_mL).toBeLessThanOrEqual(50.1);
        expect(Math.abs(causes.reduce((sum, { percent }) => sum + percent, 0) - bias_percent)).toBeLessThan(1e-6 * (1 + Math.abs(bias_percent)));
      }
    }),
    { seed: 71, numRuns: 15 },
  );
});
