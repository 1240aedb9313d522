import type { ScaleContinuousNumeric } from 'd3-scale';
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { fixed, significant } from '../ui/text/format.ts';

export type Scale = ScaleContinuousNumeric<number, number>;

export interface AxisOptions {
  readonly scale: Scale;
  readonly side: 'bottom' | 'top' | 'left' | 'right';
  /** Where the axis line stands: y of a bottom or top axis, x of a left or right one, px. */
  readonly at: number;
  /** Quantity and unit; shown as `title, unit`. */
  readonly title?: string;
  readonly unit?: string;
  readonly ticks?: number;
  /** Text of a tick; otherwise as many decimals as the step needs, the same for all. */
  readonly show?: (value: number) => string;
  /** Length of the faint grid lines, px; 0 for none. */
  readonly grid?: number;
}

const TICK = 5;
const TICK_GAP = 4;
/** From the axis line to the middle of its title, px. */
const TITLE_BELOW = 34;
/** From the tick text to the middle of a title beside it, px. */
const TITLE_BESIDE = 14;
/** Mean width of a figure of the tick text, px. */
const FIGURE = 8.5;

/** An axis with ticks where d3 puts them, its title and unit. Coordinates are px of the drawing. */
export function axis(options: AxisOptions): SVGTemplateResult {
  const [start = 0, end = 0] = options.scale.range();
  const flat = isFlat(options);
  const line = flat
    ? svg`<line class="axis-line" x1=${start} x2=${end} y1=${options.at} y2=${options.at}></line>`
    : svg`<line class="axis-line" x1=${options.at} x2=${options.at} y1=${start} y2=${end}></line>`;
  const values = tickValues(options);
  const show = options.show ?? tickText(values);
  return svg`<g class="axis ${options.side}" aria-hidden="true">${line}${values.map((value) => tick(options, value, show(value)))}${axisTitle(options, values.map(show))}</g>`;
}

/** Tick values d3 chooses; on a log scale only those with a leading 1 when there is no room for all. */
export function tickValues({ scale, ticks = 6 }: Pick<AxisOptions, 'scale' | 'ticks'>): number[] {
  const values = scale.ticks(ticks);
  if (values.length <= 2 * ticks) return values;
  return values.filter((value) => Number.isInteger(Math.round(Math.log10(value) * 1e9) / 1e9));
}

/** Equal steps share their decimals; on a log axis every tick is one figure. */
function tickText(values: readonly number[]): (value: number) => string {
  const [first = 0, second = 0, third = 2 * second - first] = values;
  const step = second - first;
  const even = Math.abs(third - second - step) < 1e-6 * Math.abs(step);
  if (!even || step === 0) return (value) => significant(value, 1);
  const decimals = Math.max(0, -Math.floor(Math.log10(Math.abs(step)) + 1e-9));
  return (value) => fixed(value, decimals);
}

function tick(options: AxisOptions, value: number, text: string): SVGTemplateResult {
  const place = options.scale(value);
  const out = options.side === 'bottom' || options.side === 'right' ? 1 : -1;
  const tip = options.at + out * TICK;
  const inner = options.at - out * (options.grid ?? 0);
  if (isFlat(options)) {
    const baseline = options.side === 'bottom' ? 'hanging' : 'auto';
    return svg`${options.grid ? svg`<line class="grid" x1=${place} x2=${place} y1=${options.at} y2=${inner}></line>` : nothing}
      <line class="tick" x1=${place} x2=${place} y1=${options.at} y2=${tip}></line>
      <text class="tick-text" x=${place} y=${tip + out * TICK_GAP} text-anchor="middle" dominant-baseline=${baseline}>${text}</text>`;
  }
  return svg`${options.grid ? svg`<line class="grid" x1=${options.at} x2=${inner} y1=${place} y2=${place}></line>` : nothing}
    <line class="tick" x1=${options.at} x2=${tip} y1=${place} y2=${place}></line>
    <text class="tick-text" x=${tip + out * TICK_GAP} y=${place} text-anchor=${out < 0 ? 'end' : 'start'} dominant-baseline="middle">${text}</text>`;
}

function axisTitle(options: AxisOptions, texts: readonly string[]): SVGTemplateResult | typeof nothing {
  if (!options.title) return nothing;
  const text = options.unit ? `${options.title}, ${options.unit}` : options.title;
  const [start = 0, end = 0] = options.scale.range();
  if (isFlat(options)) {
    const y = options.at + (options.side === 'bottom' ? TITLE_BELOW : -TITLE_BELOW);
    return svg`<text class="axis-title" x=${Math.max(start, end)} y=${y} text-anchor="end" dominant-baseline="middle">${text}</text>`;
  }
  const away = TICK + TICK_GAP + FIGURE * Math.max(0, ...texts.map((shown) => shown.length)) + TITLE_BESIDE;
  const x = options.at + (options.side === 'left' ? -away : away);
  const turn = options.side === 'left' ? -90 : 90;
  const middle = (start + end) / 2;
  return svg`<text class="axis-title" transform="translate(${x} ${middle}) rotate(${turn})" text-anchor="middle" dominant-baseline="middle">${text}</text>`;
}

function isFlat({ side }: Pick<AxisOptions, 'side'>): boolean {
  return side === 'bottom' || side === 'top';
}
