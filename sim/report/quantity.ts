// Numbers as people type them: with a unit or without, a decimal point or comma, a power of ten.
import { pow10 } from '../math/elementary.ts';

export type Dimension = 'volume' | 'molarity' | 'amount' | 'mass' | 'number';

export type Quantity =
  | {
      readonly ok: true;
      /** In mL, mol/L, mmol, mg or as it is. */
      readonly value: number;
      /** Significant figures typed. */
      readonly figures: number;
      /** Half of the last decimal typed, in the same unit as `value`. */
      readonly rounding: number;
      /** How it was understood where that was not certain; empty otherwise. */
      readonly note: string;
    }
  | { readonly ok: false; readonly expected: string; readonly received: string };

/** Size of each unit in the model's unit of its dimension. */
const UNITS: Readonly<Record<Exclude<Dimension, 'number'>, Readonly<Record<string, number>>>> = {
  volume: { mL: 1, ml: 1, cm3: 1, L: 1000, l: 1000, dm3: 1000, uL: 0.001, ul: 0.001 },
  molarity: {
    'mol/L': 1,
    'mol/l': 1,
    M: 1,
    'mol/dm3': 1,
    'molL-1': 1,
    'moldm-3': 1,
    'mmol/mL': 1,
    'mmol/ml': 1,
    'mmol/L': 0.001,
    'mmol/l': 0.001,
    mM: 0.001,
    'mmolL-1': 0.001,
    'umol/L': 1e-6,
    uM: 1e-6,
  },
  amount: { mmol: 1, mol: 1000, umol: 0.001 },
  mass: { mg: 1, g: 1000, ug: 0.001, kg: 1e6 },
};

const HOUSE: Readonly<Record<Dimension, string>> = { volume: 'mL', molarity: 'mol/L', amount: 'mmol', mass: 'mg', number: '' };
const NOUN: Readonly<Record<Dimension, string>> = { volume: 'a volume', molarity: 'a molarity', amount: 'an amount', mass: 'a mass', number: 'a number' };
/** Longest text read. */
const TEXT_MAX = 60;

const NUMBER = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))(?:e([+-]?\d+))?(.*)$/i;

/** Reads a typed quantity; without a unit the model's unit is assumed. Never guesses: what is not understood is refused with the reason. */
export function parseQuantity(text: string, dimension: Dimension): Quantity {
  const plain = plainText(text.slice(0, TEXT_MAX + 1));
  const expected = expectedText(dimension);
  const received = text.trim() === '' ? 'nothing' : text.trim().slice(0, TEXT_MAX);
  const match = text.length <= TEXT_MAX ? NUMBER.exec(plain) : null;
  if (!match) return { ok: false, expected, received };
  const [, digits, power, unit] = match;
  if (/^[.,]?\d/.test(unit) || /^[.,]/.test(unit)) return { ok: false, expected: `${expected}, with only one decimal mark`, received };
  if (/[±+]/.test(unit)) return { ok: false, expected: `${expected}, without an uncertainty`, received };
  const size = unit === '' ? 1 : unitSize(unit, dimension);
  if (size === undefined) return { ok: false, expected, received: otherDimension(unit, received) };
  const scale = size * pow10(Number(power ?? 0));
  const value = Number(digits.replace(',', '.')) * scale;
  if (!Number.isFinite(value)) return { ok: false, expected, received };
  const decimals = /[.,](\d*)$/.exec(digits)?.[1].length ?? 0;
  return { ok: true, value, figures: figuresIn(digits), rounding: 0.5 * pow10(-decimals) * scale, note: noteOn(digits, unit, dimension) };
}

function plainText(text: string): string {
  return text
    .replace(/[\s\u00a0\u202f]/g, '')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[µμ]/g, 'u')
    .replace(/³/g, '3')
    .replace(/[⁰¹²⁴-⁹⁻]+/g, superscript)
    .replace(/(\d)[x×*·]10\^?\(?([+-]?\d+)\)?/i, '$1e$2')
    .replace(/[·⋅]/g, '');
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

function superscript(marks: string): string {
  return [...marks].map((mark) => (mark === '⁻' ? '-' : String(SUPERSCRIPTS.indexOf(mark)))).join('');
}

function unitSize(unit: string, dimension: Dimension): number | undefined {
  if (dimension === 'number') return undefined;
  return Object.hasOwn(UNITS[dimension], unit) ? UNITS[dimension][unit] : undefined;
}

function expectedText(dimension: Dimension): string {
  if (dimension === 'number') return 'a number without a unit, such as 12.43 or 12,43';
  return `${NOUN[dimension]} in ${HOUSE[dimension]}, such as 0.0123 or 0,0123 ${HOUSE[dimension]}`;
}

function otherDimension(unit: string, received: string): string {
  const other = (Object.keys(UNITS) as (keyof typeof UNITS)[]).find((dimension) => Object.hasOwn(UNITS[dimension], unit));
  return other ? `${received}, which is ${NOUN[other]}` : `${received}; the unit "${unit}" is not known here`;
}

function figuresIn(digits: string): number {
  return digits.replace(/[+-]/, '').replace(/[.,]/, '').replace(/^0+/, '').length;
}

function noteOn(digits: string, unit: string, dimension: Dimension): string {
  const notes: string[] = [];
  if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(digits)) notes.push('the comma was read as a decimal mark');
  if (unit === '' && dimension !== 'number') notes.push(`without a unit it was taken as ${HOUSE[dimension]}`);
  return notes.join('; ');
}
