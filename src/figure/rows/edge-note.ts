import { bandAt, frameAt } from '../../../sim/history/index.ts';
import { elementOf, type IonId } from '../../../sim/terms/ions.ts';
import { onLine } from '../../plot/place-labels.ts';
import type { Drawing } from '../drawing.ts';
import type { Worded } from './labels.ts';

/** Baseline below the row, px. */
const DROP = 16;

/** By eye, what the lines round the band are: its colour shows beyond them, paler and paler (`EDGE_SHARE` of the model). Nothing while there is no band. */
export function edgeWishes({ layout, plan }: Drawing, ion: IonId, now_mL: number): Worded[] {
  if (!bandAt(plan, ion, frameAt(plan, now_mL))) return [];
  const { depth, left, right } = layout;
  const y = depth.bottom + DROP;
  const name = elementOf(ion);
  return [
    {
      texts: [
        `line: edge of the ${name}, half as strong in colour as its band; a paler tint runs ahead`,
        `line: half the ${name}’s colour; a tint runs ahead`,
        'line: half the colour',
      ],
      places: [{ x: left, y, anchor: 'start' }],
      within: onLine(y, Math.min(left, 8), right),
      look: 'row-title',
    },
  ];
}
