// The figures that a handed-in run claims.
import { ACTIONS_MAX, LABEL_MAX, list, number, object, type Shape, text } from '../input/index.ts';
import { ION_IDS, type IonId } from '../terms/ions.ts';
import { RUN_MAX_MIN } from '../terms/limits.ts';
import type { Amounts } from '../terms/types.ts';

/** Amounts (mmol) and volume in one receiver, as the page showed them. */
export type ClaimedReceiver = Readonly<{ label: string; volume_mL: number } & Amounts>;

/** Results on the student's page when the run was handed in. */
export interface Claimed {
  readonly time_min: number;
  readonly delivered_mL: number;
  readonly receivers: readonly ClaimedReceiver[];
}

const RECEIVERS_MAX = ACTIONS_MAX + 1;
const amount = number({ min: 0, max: 1e6, unit: 'mmol' });
const volume = number({ min: 0, max: 1e6, unit: 'mL' });

/** One shape for each ion; the keys are made from the ions. */
const ionAmounts = Object.fromEntries(ION_IDS.map((ion) => [`${ion}_mmol`, amount])) as Readonly<Record<`${IonId}_mmol`, Shape<number>>>;

const receiverShape: Shape<ClaimedReceiver> = object('a receiver', { label: text(LABEL_MAX), volume_mL: volume, HCl_mmol: amount }, ionAmounts);

export const claimedShape: Shape<Claimed> = object(
  'claimed figures',
  {
    time_min: number({ min: 0, max: 2 * RUN_MAX_MIN, unit: 'min' }),
    delivered_mL: volume,
    receivers: list('receivers', receiverShape, 1, RECEIVERS_MAX),
  },
  {},
);
