// Reading what is typed into a number field, and the arithmetic of its slider and arrow keys.

export interface NumberRange {
  readonly label: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly integer?: boolean;
}

export type NumberReading = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string };

/** Number of slider positions; about one per pixel of a wide slider. */
export const SLIDER_STEPS = 1000;

/** Digits kept after stepping, so that 0.1 + 0.2 does not show as 0.30000000000000004. */
const STEP_FIGURES = 10;

export function readNumber(text: string, range: NumberRange): NumberReading {
  const value = parseNumber(text);
  const inside = value !== undefined && value >= range.min && value <= range.max && (!range.integer || Number.isInteger(value));
  if (inside) return { ok: true, value };
  const noun = range.integer ? 'a whole number from ' : '';
  const unit = range.unit === '' ? '' : ` ${range.unit}`;
  return { ok: false, message: `${range.label}: expected ${noun}${range.min} to ${range.max}${unit}, received ${text.trim() || 'nothing'}` };
}

/** Decimal point or decimal comma, power of ten, any minus sign. Groups of thousands are refused: 1,000 could be either. */
export function parseNumber(text: string): number | undefined {
  const plain = text
    .replace(/\s/g, '')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain)) return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}

/** `value` moved by `steps` and kept in range. */
export function stepped(value: number, steps: number, step: number, range: NumberRange): number {
  const moved = Number((value + steps * step).toPrecision(STEP_FIGURES));
  return Math.min(range.max, Math.max(range.min, range.integer ? Math.round(moved) : moved));
}

/** Slider position, 0 to SLIDER_STEPS. On a log slider equal ratios are equally far apart. */
export function sliderPosition(value: number, range: NumberRange, log: boolean): number {
  const at = log ? Math.log(value / range.min) / Math.log(range.max / range.min) : (value - range.min) / (range.max - range.min);
  return Math.min(SLIDER_STEPS, Math.max(0, at * SLIDER_STEPS)) || 0;
}

/** Value at a slider position: the multiple of `step` nearest to it, three figures on a log slider. */
export function sliderValue(position: number, step: number, range: NumberRange, log: boolean): number {
  const share = position / SLIDER_STEPS;
  if (log) return Number((range.min * (range.max / range.min) ** share).toPrecision(3));
  return stepped(0, Math.round((range.min + share * (range.max - range.min)) / step), step, range);
}
