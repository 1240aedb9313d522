import type { Results } from '../history/index.ts';
import type { Parameters, Scenario } from '../terms/types.ts';
import type { Receiver } from '../flask/index.ts';
import type { CalculationCheck, Readings } from './calculation.ts';
import { parseQuantity } from './quantity.ts';
import type { Sample } from './sample.ts';
import type { WorkUp } from './workup.ts';

// From a work-up to the readings for the reader's calculation, and to the result that is kept.

/** Result of one aliquot that went over the column, with what the column did to it. */
export interface KeptResult {
  readonly scenario: string;
  readonly seed: number;
  readonly receiver: string;
  readonly volume_mL: number;
  readonly acid_mmol: number;
  /** Shares of what was loaded that the receiver holds. */
  readonly recovered: number;
  readonly carried: number;
  /** Alkali as it was expected and as it was used, both for the same liquid: `alkali_for`. */
  readonly expected_mL: number | null;
  readonly NaOH_mL: number;
  /** Left out in results kept before both were told for the whole eluate: there each is for what was asked or titrated. */
  readonly alkali_for?: 'eluate';
  readonly titres_mL: readonly number[];
  /** mol/L in the unknown, of each titration and as the reader calculated it. */
  readonly found_M: readonly number[];
  readonly own_M: number | null;
  readonly true_M: number;
}

/** Part of an eluate that one portion is: of the flask it was made up in, else of the usual one. */
export function portionShareOf(values: Parameters, flask_mL: number | null | undefined): number {
  return values['workup.portion_mL'] / (flask_mL ?? values['workup.flask_mL']);
}

/** Whether two results are of one load: the same receiver of the same column. */
export function sameAliquot(a: KeptResult, b: KeptResult): boolean {
  return a.scenario === b.scenario && a.seed === b.seed && a.receiver === b.receiver;
}

/** What a result is made of. */
export interface Worked {
  readonly scenario: Scenario;
  readonly loaded: Results['loaded'] | undefined;
  /** Part of that which went on with the aliquot in hand; a run may load several. */
  readonly aliquotShare: number;
  readonly receiver: Receiver;
  readonly sample: Sample;
  readonly figures: WorkUp;
  /** As typed: alkali expected, and for what of the eluate it was asked; by what was titrated where that is not known. */
  readonly expected: string | undefined;
  readonly expectedFor: 'eluate' | 'portion' | undefined;
  /** Part of the eluate that a portion is, as it was asked for. */
  readonly portionShare: number;
  /** The reader's own calculation. */
  readonly own: CalculationCheck | undefined;
}

/** The readings from which the reader calculates: the last titration; undefined before there is one. */
export function readingsOf({ titrations, flask_mL, portion_mL }: WorkUp, values: Parameters): Readings | undefined {
  const titre = titrations.at(-1)?.titre;
  if (!titre) return undefined;
  const { initial_mL, final_mL } = titre;
  return { initial_mL, final_mL, EDTA_M: values['workup.EDTA_M'], flask_mL, portion_mL, sample_mL: values['workup.sample_mL'] };
}

/** The result of an aliquot as it would be kept; undefined before an end point was seen. */
export function resultOf({
  scenario,
  loaded,
  aliquotShare,
  receiver,
  sample,
  figures,
  expected,
  expectedFor,
  portionShare,
  own,
}: Worked): KeptResult | undefined {
  const titrations = figures.titrations.filter(({ titre }) => titre.pink);
  const last = titrations.at(-1);
  if (!last) return undefined;
  const alkali = expected === undefined ? undefined : parseQuantity(expected, 'volume');
  const titrated = figures.portion_mL / figures.flask_mL;
  const asked = (expectedFor ?? (titrated < 1 ? 'portion' : 'eluate')) === 'portion' ? portionShare : 1;
  return {
    scenario: scenario.id,
    seed: scenario.seed,
    receiver: receiver.label ?? '',
    volume_mL: receiver.volume_mL,
    acid_mmol: receiver.HCl_mmol,
    recovered: share(receiver.Co_mmol, loaded?.Co_mmol) / aliquotShare,
    carried: carriedInto(receiver, loaded ?? {}) / aliquotShare,
    expected_mL: alkali?.ok ? alkali.value / asked : null,
    NaOH_mL: last.NaOH_mL / titrated,
    alkali_for: 'eluate',
    titres_mL: titrations.map(({ titre }) => titre.read_mL),
    found_M: titrations.map(({ found_M }) => found_M),
    own_M: own?.steps.find(({ id }) => id === 'molarity')?.given ?? null,
    true_M: sample.Co_M,
  };
}

/** Largest share of an ion beside the cobalt. */
function carriedInto(receiver: Receiver, loaded: Readonly<Record<string, number | undefined>>): number {
  const others = Object.entries(loaded).filter(([key, mmol]) => key !== 'HCl_mmol' && key !== 'Co_mmol' && (mmol ?? 0) > 0);
  // Keys of the amounts of a run are those of a receiver.
  const held = receiver as Readonly<Record<string, unknown>>;
  return Math.max(0, ...others.map(([key, mmol]) => share(held[key] as number | undefined, mmol)));
}

function share(held: number | undefined, whole: number | undefined): number {
  return whole ? (held ?? 0) / whole : 0;
}
