import { area } from 'd3-shape';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { collectedAt, deliveredAtEnd, type FractionTargets, keptHolds, keptOf, pouredOf, togetherOf } from '../../../sim/history/index.ts';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { percent } from '../../ui/text/format.ts';
import type { Drawing } from '../drawing.ts';
import type { Measured } from '../streaks/measured.ts';
import type { Worded } from './labels.ts';
import { insideOf } from './predictions.ts';
import { type Effluent, effluentScales } from './row-effluent.ts';

// What the kept fraction lacks of the target, painted where it left: under its curve before the change and after the stop.

/** Less than this share of what was poured is not worth a word. */
const WORD_SHARE = 5e-4;
const LINE_PX = 17;

export interface Loss {
  readonly from_mL: number;
  readonly to_mL: number;
  readonly amount_mmol: number;
  readonly where: 'before' | 'after' | 'behind';
}

/** Where the target was lost, mL and mmol; what never left stands at the end of the run. */
export function lossesOf({ plan }: Pick<Drawing, 'plan'>, targets: FractionTargets): Loss[] {
  const { target } = targets;
  const kept = keptOf(plan, targets);
  const end_mL = deliveredAtEnd(plan);
  // Of a day this would call lost what another of its receivers holds.
  if (!kept || togetherOf(plan, targets)) return [];
  const poured_mmol = pouredOf(plan, target);
  const after_mmol = collectedAt(plan, target, end_mL) - collectedAt(plan, target, kept.to_mL);
  const behind_mmol = poured_mmol - collectedAt(plan, target, end_mL);
  // What the receivers hold decides, as in the debrief: the drop that hung at the tip fell into the next.
  const before_mmol = poured_mmol * (1 - keptHolds(plan, targets).recovered) - after_mmol - behind_mmol;
  const all: Loss[] = [
    { where: 'before', from_mL: 0, to_mL: kept.from_mL, amount_mmol: before_mmol },
    { where: 'after', from_mL: kept.to_mL, to_mL: end_mL, amount_mmol: after_mmol },
    { where: 'behind', from_mL: end_mL, to_mL: end_mL, amount_mmol: behind_mmol },
  ];
  return all.filter(({ amount_mmol }) => amount_mmol > WORD_SHARE * poured_mmol);
}

export function lossMarks(worked: Measured, targets: FractionTargets, logScale: boolean): SVGTemplateResult | typeof nothing {
  const losses = lossesOf(worked, targets);
  const curve = worked.curves.find(({ id }) => id === targets.target);
  if (losses.length === 0 || !curve) return nothing;
  return svg`<g class=${lookOf(worked, targets, losses)}>${losses.map((loss) => paint(worked, curve, loss, logScale))}</g>`;
}

/** How much was lost where, beside it. */
export function lossWishes(worked: Measured, targets: FractionTargets): Worded[] {
  const losses = lossesOf(worked, targets);
  const look = `${lookOf(worked, targets, losses)} note`;
  return losses.map((loss, line) => ({ ...wish(worked, targets.target, loss, line), look }));
}

/** Losses that the targets allow are reported, not marked as mistakes. */
function lookOf({ plan }: Measured, { target, recovered }: FractionTargets, losses: readonly Loss[]): string {
  const share = losses.reduce((sum, { amount_mmol }) => sum + amount_mmol, 0) / pouredOf(plan, target);
  return share > 1 - recovered ? 'lost' : 'lost allowed';
}

function paint(worked: Measured, { xs, ys }: Effluent, { from_mL, to_mL }: Loss, logScale: boolean): SVGTemplateResult {
  const { metal } = effluentScales(worked, worked.curves, logScale);
  const { bottom } = worked.layout.effluent;
  const [least = 0] = metal.domain();
  const places = xs.flatMap((mL, i) => (mL >= from_mL && mL <= to_mL ? [i] : []));
  const path = area<number>()
    .digits(1)
    .x((i) => worked.x(xs[i]))
    .y0(bottom)
    .y1((i) => metal(Math.max(least, ys[i])));
  return svg`<path d=${path(places) ?? ''}></path>`;
}

/** As a share of what was poured, since an amount would give the result of a titration away. Before the change they stand on its left, after it on the right, one line lower each. */
function wish({ plan, x, layout }: Measured, ion: IonId, { where, from_mL, to_mL, amount_mmol }: Loss, line: number): Omit<Worded, 'look'> {
  const lost = percent(amount_mmol / pouredOf(plan, ion));
  const y = layout.effluent.top + 30 + LINE_PX * line;
  const left = { x: (where === 'before' ? x(to_mL) : x(from_mL)) - 6, y, anchor: 'end' } as const;
  const right = { x: x(from_mL) + 6, y, anchor: 'start' } as const;
  return {
    texts: [
      `${lost} ${IONS[ion].symbol} ${{ before: 'lost before', after: 'lost after', behind: 'left behind' }[where]}`,
      `${lost} ${where === 'behind' ? 'left' : 'lost'}`,
    ],
    places: where === 'before' ? [left] : [right, left],
    within: insideOf(layout, layout.effluent),
  };
}
