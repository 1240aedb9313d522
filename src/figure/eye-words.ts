import { nothing, svg, type SVGTemplateResult } from 'lit';
import { BEGINS_SHARE, progressOf } from '../../sim/history/index.ts';
import { elementOf } from '../../sim/terms/ions.ts';
import type { IonId } from '../../sim/terms/types.ts';
import { axis } from '../plot/axis.ts';
import { percent } from '../ui/text/format.ts';
import type { Drawing } from './drawing.ts';
import type { Worked } from './worked.ts';
import type { PredictionMark } from './rows/predictions.ts';

// What the rows hold and ask for while the run is seen by eye.

/** px between two lines of text. */
const LINE = 18;

/** Asks for predictions of the ion that can be seen, above the rows, until they are set. */
export function eyeWords(worked: Worked, now_mL: number, ion: IonId, marks: readonly PredictionMark[], gone = false): SVGTemplateResult {
  const { poured, left, narrow } = worked.layout;
  const { load_mL = Number.POSITIVE_INFINITY } = progressOf(worked.scenario, worked.plan.events);
  const said = eyeLines(elementOf(ion), marks, narrow, gone ? 'gone' : load_mL <= now_mL ? 'on' : 'before');
  const top = poured.top - 12 - LINE * (said.length - 1);
  return svg`<g class="words">${said.map((line, i) => svg`<text class=${i === 0 ? 'ask' : 'row-title'} x=${narrow ? 4 : left} y=${top + LINE * i}>${line}</text>`)}</g>`;
}

/**
 * Asks for each kind of prediction that has not been made yet; for none once the ion is seen to leave; when both have, it says how they
 * are moved. Before the sample is on the bed there is nothing to judge by: that predictions may be made is said, and none is asked for.
 */
export function eyeLines(name: string, marks: readonly PredictionMark[], narrow: boolean, ion: 'before' | 'on' | 'gone' = 'on'): string[] {
  if (ion === 'gone') return [];
  if (ion === 'before' && marks.length === 0)
    return narrow ? ['Once the sample is', 'on the bed, predict', 'here: tap ahead'] : ['Once the sample is on the bed, predict here: press right of “now”.'];
  const [depth, leaving] = [marks.some(({ depth_cm }) => depth_cm !== undefined), marks.some(({ depth_cm }) => depth_cm === undefined)];
  if (depth && leaving) return narrow ? ['Marked. Press', 'elsewhere to move'] : ['Marked. Press elsewhere to move a mark still ahead.'];
  if (narrow) {
    if (!depth) return [leaving ? 'Marked. Now press' : 'Predict: tap ahead', 'of “now”, where the', `${name}’s edge will be`];
    return ['Marked. In the strip:', `when does ${name}`, 'begin to leave?'];
  }
  return [
    depth || leaving ? 'Marked. There is one more to predict:' : 'Predict: press in the empty part, right of “now”.',
    ...(depth ? [] : [`In the bed: how deep will the ${name}’s edge be at that volume?`]),
    ...(leaving ? [] : [`In the strip below: where does the ${name} begin to leave (first ${percent(BEGINS_SHARE, 0)})?`]),
  ];
}

/** The row of the effluent without a scale: only when something leaves can be marked in it. */
export function eyeStrip({ layout: { effluent: row, left, right, narrow }, x }: Drawing): SVGTemplateResult {
  return svg`<g class="effluent">
    ${axis({ scale: x, side: 'bottom', at: row.bottom, ticks: narrow ? 3 : 10 })}
    <rect class="frame" x=${left} y=${row.top} width=${right - left} height=${row.bottom - row.top} fill="none"></rect>
    ${narrow ? nothing : svg`<text class="row-title" x=${left - 8} y=${(row.top + row.bottom) / 2} text-anchor="end" dominant-baseline="central">leaving</text>`}
  </g>`;
}
