import { svg, type SVGTemplateResult } from 'lit';
import { IONS } from '../../sim/terms/ions.ts';
import type { IonId } from '../../sim/terms/types.ts';
import type { Drawing } from './drawing.ts';

// What the empty rows ask for while the run is seen by eye.

/** Asks for predictions of the ion that can be seen. */
export function eyeWords({ layout: { depth, effluent, left, right, narrow } }: Drawing, ion: IonId): SVGTemplateResult {
  const name = IONS[ion].name.replace(/\(.*\)/, '');
  const middle = (left + right) / 2;
  const line = (said: string, y: number) => svg`<text class="row-title haloed" x=${middle} y=${y} text-anchor="middle">${said}</text>`;
  return svg`<g class="words">
    ${line(narrow ? `press: front of ${name}?` : `Where will the front of the ${name} be? Press ahead of now to mark it.`, depth.bottom - 10)}
    ${line(narrow ? `press: ${name} leaves?` : `Where does the ${name} begin to leave? Press to mark it; the end of the run shows it.`, effluent.top + 18)}
  </g>`;
}
