import { receiverName } from '../../ui/text/receiver-words.ts';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { onLine } from '../../plot/place-labels.ts';
import { millilitres } from '../../ui/text/format.ts';
import type { Drawing } from '../drawing.ts';
import { drawnWords, fits, placedWords, textWidth, type Worded } from './labels.ts';
import { endedAt, type MovedChange, type Receiving, receivings } from './stretches.ts';

// The receivers as brackets under the axis.

/** Line of the brackets below the top of the row, px: two tiers of handles, one on it and one below the names, end above the verdict. */
export const BRACKET_DROP = 6;
const REACH = 7;
const LABEL_DROP = 18;
/** A shorter bracket has no name, px. */
const LEAST_NAMED = 16;

export function receiverRow(drawing: Drawing, moved?: MovedChange, until_mL?: number): SVGTemplateResult {
  const {
    layout: { receivers, left, narrow },
    plan,
  } = drawing;
  const y = receivers.top + BRACKET_DROP;
  const spans = endedAt(receivings(plan, moved), until_mL).map((receiving) => spanOf(drawing, receiving));
  const names = spans.toSorted((a, b) => b.to - b.from - (a.to - a.from)).map((span) => nameWish(drawing, span, y));
  return svg`<g class="receivers">
    ${narrow ? nothing : svg`<text class="row-title" x=${left - 8} y=${y} text-anchor="end" dominant-baseline="central">receiver</text>`}
    ${spans.filter(({ from, to }) => to > from).map((span) => bracket(span, y))}
    ${drawnWords(placedWords(names, { apart: 8 }))}
  </g>`;
}

/** A stay of a receiver, px. */
interface Stay extends Receiving {
  readonly from: number;
  readonly to: number;
}

function spanOf({ x, layout: { right } }: Drawing, receiving: Receiving): Stay {
  const from = Math.min(x(receiving.from_mL) + 1, right);
  return { ...receiving, label: receiverName(receiving.label), from, to: Math.max(from, Math.min(x(receiving.to_mL) - 1, right)) };
}

function bracket({ label, from_mL, to_mL, from, to }: Stay, y: number): SVGTemplateResult {
  return svg`<g class="bracket"><title>${`${label} ${millilitres(to_mL - from_mL)}: from ${millilitres(from_mL)} to ${millilitres(to_mL)}`}</title>
    <path d=${`M${from} ${y - REACH}V${y}H${to}V${y - REACH}`} fill="none"></path></g>`;
}

/** The name of a receiver under its bracket, with its volume where both have room in it; beyond its ends it may reach where no other name stands. */
function nameWish({ layout: { left, width } }: Drawing, { label, from_mL, to_mL, from, to }: Stay, at: number): Worded {
  const y = at + LABEL_DROP;
  const long = `${label} ${millilitres(to_mL - from_mL)}`;
  return {
    texts: [...(fits(long, to - from - 10) ? [long] : []), ...(to - from >= LEAST_NAMED ? [label, shortened(label, to - from)] : [])],
    places: [{ x: (from + to) / 2, y, anchor: 'middle' }],
    within: onLine(y, Math.min(left, 4), width - 4),
    look: 'bracket-label',
  };
}

function shortened(label: string, width: number): string {
  return `${label.slice(0, Math.max(1, Math.floor((width - 10) / textWidth('x')) - 1))}.`;
}
