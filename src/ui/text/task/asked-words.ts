import type { FractionTargets } from '../../../../sim/history/index.ts';
import { elementOf, symbolOf } from '../../../../sim/terms/ions.ts';
import { millimoles, percent } from '../format.ts';

/** What is asked of the fraction, in one short line. */
export function askedBriefly({ target, unwanted, recovered, carried, acid_mmol }: FractionTargets): string {
  const others = unwanted.map(symbolOf).join(', ');
  const most = [...(others ? [`${others} ≤ ${percent(carried)}`] : []), ...(acid_mmol === undefined ? [] : [`acid ≤ ${millimoles(acid_mmol, 0)}`])];
  return [`Goal: ${symbolOf(target)} ≥ ${percent(recovered)}`, ...most].join(' · ');
}

/** What is asked of the fraction, in one sentence. */
export function askedWords({ target, unwanted, recovered, carried, acid_mmol }: FractionTargets): string {
  const others = unwanted.map(elementOf).join(' or ');
  const most = [
    ...(others ? [`${percent(carried, 1)} of the ${others}`] : []),
    ...(acid_mmol === undefined ? [] : [`${millimoles(acid_mmol, 0)} of acid in its receiver`]),
  ];
  const least = `Collect ${percent(recovered, 1)} or more of the ${elementOf(target)}`;
  return most.length === 0 ? `${least}.` : `${least}, with at most ${most.join(' and at most ')}.`;
}
