import { receiverName } from '../../ui/text/receiver-words.ts';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { millilitres } from '../../ui/text/format.ts';
import type { Drawing } from '../drawing.ts';
import { fits, textWidth } from './labels.ts';
import { endedAt, type MovedChange, type Receiving, receivings } from './stretches.ts';

// The receivers as brackets under the axis.

/** Line of the brackets below the top of the row, px. */
export const BRACKET_DROP = 14;
const REACH = 7;
const LABEL_DROP = 18;

export function receiverRow(drawing: Drawing, moved?: MovedChange, until_mL?: number): SVGTemplateResult {
  const {
    layout: { receivers, left, narrow },
    plan,
  } = drawing;
  const y = receivers.top + BRACKET_DROP;
  return svg`<g class="receivers">
    ${narrow ? nothing : svg`<text class="row-title" x=${left - 8} y=${y} text-anchor="end" dominant-baseline="central">receiver</text>`}
    ${endedAt(receivings(plan, moved), until_mL).map((receiving) => bracket(drawing, receiving, y))}
  </g>`;
}

function bracket({ x, layout: { right } }: Drawing, { from_mL, to_mL, label: named }: Receiving, y: number): SVGTemplateResult {
  const label = receiverName(named);
  const from = Math.min(x(from_mL) + 1, right);
  const to = Math.max(from, Math.min(x(to_mL) - 1, right));
  const long = `${label} ${millilitres(to_mL - from_mL)}`;
  const text = [long, label, shortened(label, to - from)].find((candidate) => candidate !== '' && fits(candidate, to - from - 10));
  return svg`<g class="bracket"><title>${`${long}: from ${millilitres(from_mL)} to ${millilitres(to_mL)}`}</title>
    <path d=${`M${from} ${y - REACH}V${y}H${to}V${y - REACH}`} fill="none"></path>
    ${text ? svg`<text class="bracket-label" x=${(from + to) / 2} y=${y + LABEL_DROP} text-anchor="middle">${text}</text>` : nothing}</g>`;
}

function shortened(label: string, width: number): string {
  const characters = Math.floor(width / textWidth('x')) - 1;
  return characters >= 2 ? `${label.slice(0, characters)}.` : '';
}
