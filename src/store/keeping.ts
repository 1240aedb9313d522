import type { CalculationCheck, Readings } from '../../sim/report/calculation.ts';
import { checkCalculation } from '../../sim/report/calculation.ts';
import { parseQuantity } from '../../sim/report/quantity.ts';
import type { Session } from './session.ts';
import type { KeptResult } from './keep/work-up.ts';

// From the readings of a work-up to what is kept of it.

/** What the reader calculates from: the last titration; undefined before there is one. */
export function readingsOf({ workUp }: Session): Readings | undefined {
  const { figures, values } = workUp;
  const titre = figures?.titrations.at(-1)?.titre;
  if (!figures || !titre || !values) return undefined;
  return {
    initial_mL: titre.initial_mL,
    final_mL: titre.final_mL,
    EDTA_M: values['workup.EDTA_M'],
    flask_mL: figures.flask_mL,
    aliquot_mL: figures.aliquot_mL,
    sample_mL: values['workup.sample_mL'],
  };
}

/** The reader's own calculation, checked; undefined before there are readings. */
export function ownCalculation(session: Session): CalculationCheck | undefined {
  const readings = readingsOf(session);
  return readings && checkCalculation(readings, session.workUp.saved.answers);
}

/** The result of this aliquot as it would be kept; undefined before an end point was seen. */
export function resultOf(session: Session): KeptResult | undefined {
  const { workUp, store } = session;
  const { figures, receiver, sample, saved } = workUp;
  const titrations = figures?.titrations.filter(({ titre }) => titre.pink) ?? [];
  if (!figures || !receiver || !sample || !store.scenario || titrations.length === 0) return undefined;
  const loaded = store.moment?.results.loaded;
  const others = Object.entries(loaded ?? {}).filter(([key, mmol]) => key !== 'HCl_mmol' && key !== 'Co_mmol' && (mmol ?? 0) > 0);
  const share = (held: number | undefined, whole: number | undefined): number => (whole ? (held ?? 0) / whole : 0);
  const expected = saved.expected === undefined ? undefined : parseQuantity(saved.expected, 'volume');
  const own = ownCalculation(session)?.steps.find(({ id }) => id === 'molarity')?.given;
  return {
    scenario: store.scenario.id,
    seed: store.scenario.seed,
    receiver: receiver.label ?? '',
    volume_mL: receiver.volume_mL,
    acid_mmol: receiver.HCl_mmol,
    recovered: share(receiver.Co_mmol, loaded?.Co_mmol),
    // Keys of the amounts of a run are those of a receiver.
    carried: Math.max(0, ...others.map(([key, mmol]) => share((receiver as Readonly<Record<string, unknown>>)[key] as number | undefined, mmol))),
    expected_mL: expected?.ok ? expected.value : null,
    NaOH_mL: titrations[titrations.length - 1].NaOH_mL,
    titres_mL: titrations.map(({ titre }) => titre.read_mL),
    found_M: titrations.map(({ found_M }) => found_M),
    own_M: own ?? null,
    true_M: sample.Co_M,
  };
}
