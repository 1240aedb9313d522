import { scaleSqrt } from 'd3-scale';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { seriesStyle } from '../../plot/series.ts';
import { significant } from '../../ui/text/format.ts';
import type { Drawing } from '../drawing.ts';
import { textWidth } from './labels.ts';

// Scale of the streaks in numbers: one ramp per ion, square root from nothing to the top.

const PIECES = 24;
const BAR = 8;
const BAR_MOST = 120;
const GAP = 18;
const CAPTION = 'in the bed, mmol/mL';
/** From the bed down to the names and the ramps, px; on a phone the caption below them has to keep off the titles of the next row. */
const DOWN = { wide: 18, narrow: 12 } as const;

export function legend(drawing: Drawing, tops: readonly number[]): SVGTemplateResult {
  const {
    layout: { left, right, legend: row, narrow },
    plan,
  } = drawing;
  const captioned = narrow || plan.ions.length > 4 ? 0 : textWidth(CAPTION) + GAP;
  const share = (right - left - captioned + GAP) / plan.ions.length - GAP;
  const symbols = plan.ions.map((ion) => seriesStyle(ion).label);
  const symbolWidth = Math.max(...symbols.map(textWidth)) + 6;
  const bar = Math.max(18, Math.min(BAR_MOST, share - symbolWidth));
  const step = Math.min(share, bar + symbolWidth) + GAP;
  const start = captioned > 0 ? left + captioned : left;
  const y = row.top + (narrow ? DOWN.narrow : DOWN.wide);
  return svg`<g class="legend" aria-hidden="true">
    ${captioned > 0 ? svg`<text class="axis-title" x=${left} y=${y}>${CAPTION}</text>` : nothing}
    ${plan.ions.map((ion, i) => {
      const at = start + i * step;
      return svg`<text x=${at} y=${y} fill=${seriesStyle(ion).text}>${symbols[i]}</text>${ramp(ion, at + symbolWidth, y - 9, bar, tops[i + 1])}`;
    })}
    ${captioned > 0 ? nothing : svg`<text class="axis-title" x=${left} y=${y + 27}>${CAPTION}</text>`}
  </g>`;
}

function ramp(ion: Parameters<typeof seriesStyle>[0], left: number, top: number, width: number, most: number): SVGTemplateResult {
  const place = scaleSqrt()
    .domain([0, most])
    .range([left, left + width]);
  const { colour } = seriesStyle(ion);
  const step = width / PIECES;
  const values = width > 84 ? [0, most / 4, most] : width > 40 ? [0, most] : [most];
  return svg`${Array.from(
    { length: PIECES },
    (_, i) => svg`<rect x=${left + i * step} y=${top} width=${Math.min(2, PIECES - i) * step} height=${BAR}
    fill=${`color-mix(in oklab, ${colour} ${(100 * i) / (PIECES - 1)}%, var(--paper))`}></rect>`,
  )}
    <rect class="frame" x=${left} y=${top} width=${width} height=${BAR} fill="none"></rect>
    ${values.map(
      (value) => svg`<line class="tick" x1=${place(value)} x2=${place(value)} y1=${top + BAR} y2=${top + BAR + 3}></line>
      <text class="tick-text" x=${place(value)} y=${top + BAR + 5} text-anchor="middle" dominant-baseline="hanging">${significant(value, isRound(value) ? 1 : 2)}</text>`,
    )}`;
}

function isRound(value: number): boolean {
  return Math.abs(Number(value.toPrecision(1)) - value) < 1e-9 * value;
}
