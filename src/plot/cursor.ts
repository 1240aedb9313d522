import { nothing, svg, type SVGTemplateResult } from 'lit';

export interface CursorOptions {
  /** Place on the shared axis, px. */
  readonly at: number;
  readonly top: number;
  readonly bottom: number;
  readonly label?: string;
  /** Right end of the drawing, px: the label changes sides before it. */
  readonly right?: number;
  /** `now` is the state of the run, `look` follows the pointer. */
  readonly kind?: 'now' | 'look';
}

/** Room that the label needs on the right, px. */
const LABEL_ROOM = 60;

/** A line through all rows of a figure at one place of their shared axis. */
export function cursor({ at, top, bottom, label, right = Infinity, kind = 'now' }: CursorOptions): SVGTemplateResult {
  const turned = at + LABEL_ROOM > right;
  return svg`<g class="cursor ${kind}" pointer-events="none"><line x1=${at} x2=${at} y1=${top} y2=${bottom}></line>${
    label ? svg`<text x=${at + (turned ? -5 : 5)} y=${top} text-anchor=${turned ? 'end' : 'start'} dominant-baseline="hanging">${label}</text>` : nothing
  }</g>`;
}
