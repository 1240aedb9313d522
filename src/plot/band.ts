import { nothing, svg, type SVGTemplateResult } from 'lit';

// Marked stretches of an axis: a filled band, and a bracket with its label.

export interface BandOptions {
  /** Ends along the axis, px, in any order. */
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly height: number;
  readonly colour: string;
  readonly label?: string;
  readonly text?: string;
  /** Hatched instead of plain, so that it differs without colour. */
  readonly hatched?: boolean;
}

export interface BracketOptions {
  readonly from: number;
  readonly to: number;
  /** Line of the bracket, px; its ends point up by `reach`. */
  readonly at: number;
  readonly reach?: number;
  readonly label: string;
}

/** Between two lines of a hatching, px. */
const HATCH = 6;
/** Mean width of a character of the label at its size, px; a label that cannot fit is left out, its place is read elsewhere. */
const CHARACTER = 7;
const LABEL_BELOW = 16;

/** A filled stretch, its label inside when it fits. */
export function band(options: BandOptions): SVGTemplateResult {
  const left = Math.min(options.from, options.to);
  const width = Math.abs(options.to - options.from);
  const { top, height, label, text = 'var(--ink)' } = options;
  const fill = options.hatched ? hatching(left, width, options) : svg`<rect x=${left} y=${top} width=${width} height=${height} fill=${options.colour}></rect>`;
  const shown =
    label && fits(label, width)
      ? svg`<text class="band-label ${options.hatched ? 'haloed' : ''}" x=${left + width / 2} y=${top + height / 2} fill=${text} text-anchor="middle" dominant-baseline="central">${label}</text>`
      : nothing;
  return svg`<g class="band">${fill}${shown}${label ? svg`<title>${label}</title>` : nothing}</g>`;
}

/** A bracket under a stretch, such as one receiver. */
export function bracket({ from, to, at, reach = 6, label }: BracketOptions): SVGTemplateResult {
  const left = Math.min(from, to);
  const right = Math.max(from, to);
  const shown = fits(label, right - left)
    ? svg`<text class="bracket-label" x=${(left + right) / 2} y=${at + LABEL_BELOW} text-anchor="middle">${label}</text>`
    : nothing;
  return svg`<g class="bracket"><path d="M${left} ${at - reach}V${at}H${right}V${at - reach}" fill="none"></path>${shown}<title>${label}</title></g>`;
}

function fits(label: string, width: number): boolean {
  return label.length * CHARACTER <= width;
}

/** Lines at 45 degrees clipped to the rectangle by arithmetic, so that no id is needed inside a shadow root. */
function hatching(left: number, width: number, { top, height, colour }: BandOptions): SVGTemplateResult {
  const count = Math.ceil((width + height) / HATCH);
  const strokes = Array.from({ length: count }, (_, index) => {
    const reach = (index + 0.5) * HATCH;
    const from = [left + Math.max(0, reach - height), top + Math.min(height, reach)];
    const to = [left + Math.min(width, reach), top + Math.max(0, reach - width)];
    return `M${from.join(' ')}L${to.join(' ')}`;
  });
  return svg`<path d=${strokes.join('')} stroke=${colour} stroke-width="1.5" fill="none"></path>`;
}
