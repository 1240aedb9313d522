import type { FractionTargets, Results } from '../history/index.ts';
import type { IonId } from '../terms/types.ts';
import type { MistakeKind } from './mistake.ts';
import { amountIn } from './placed.ts';

// What was done otherwise than the procedure writes, and was no mistake.

type Limit = 'recovered' | 'carried' | 'acid';
type Met = Readonly<Record<Limit, boolean>>;

/**
 * What is judged at the bench rather than read from the procedure, by the limits of the task that it bears on: where the run met them, it
 * was judged well, however far from what was written.
 */
const JUDGED: Readonly<Partial<Record<MistakeKind, readonly Limit[]>>> = {
  'short-wash': ['carried'],
  'long-wash': ['recovered'],
  'stopped-early': ['recovered'],
  'receiver-late': ['recovered'],
  'receiver-early': ['carried', 'acid'],
};

/** Which limits these receivers meet together; each by itself that of acid. */
export function metBy(
  { target, unwanted, recovered, carried, acid_mmol = Number.POSITIVE_INFINITY }: FractionTargets,
  labels: readonly string[],
  results: Results,
): Met {
  const mine = results.receivers.filter(({ label }) => labels.includes(label));
  const shareOf = (ion: IonId): number => {
    const loaded = amountIn(results.loaded, ion);
    return loaded > 0 ? mine.reduce((sum, receiver) => sum + amountIn(receiver, ion), 0) / loaded : 0;
  };
  return {
    recovered: shareOf(target) >= recovered,
    carried: unwanted.every((ion) => shareOf(ion) <= carried),
    acid: mine.every(({ HCl_mmol }) => HCl_mmol <= acid_mmol),
  };
}

export function judgedWell(kind: MistakeKind, met: Met): boolean {
  return JUDGED[kind]?.every((limit) => met[limit]) ?? false;
}
