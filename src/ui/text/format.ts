// Every number on the page is written here: minus sign, significant figures, thin no-break space before the unit.

const MINUS = '\u2212';
const THIN_SPACE = '\u202f';
const UNKNOWN = '\u2013';
/** Outside these the number is written with a power of ten. */
const PLAIN_FROM = 1e-4;
const PLAIN_BELOW = 1e7;
/** Whole parts of this size and more are grouped in threes (SI Brochure, 9th ed., 5.4.4: groups of three, a space, never a comma; recalled). */
const GROUP_FROM = 1e4;

/** `value` to a number of significant figures; an en dash when it is not a number. */
export function significant(value: number, figures = 3): string {
  if (!Number.isFinite(value)) return UNKNOWN;
  const rounded = Number(value.toPrecision(figures));
  if (rounded === 0) return '0';
  const size = Math.abs(rounded);
  if (size < PLAIN_FROM || size >= PLAIN_BELOW) return powerOfTen(value, figures);
  return fixed(rounded, Math.max(0, figures - 1 - Math.floor(Math.log10(size))));
}

/** `value` with a number of decimals. */
export function fixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return UNKNOWN;
  const text = Math.abs(value).toFixed(decimals);
  return (value < 0 && Number(text) !== 0 ? MINUS : '') + grouped(text);
}

/** A number with its unit. */
export function quantity(value: number, unit: string, figures = 3): string {
  return withUnit(significant(value, figures), unit);
}

/** Text of a number followed by its unit; an unknown number has none. */
export function withUnit(text: string, unit: string): string {
  return unit === '' || text === UNKNOWN ? text : `${text}${THIN_SPACE}${unit}`;
}

/** Volume, mL. */
export function millilitres(value_mL: number, decimals = 1): string {
  return withUnit(fixed(value_mL, decimals), 'mL');
}

/** Volume as it is planned, mL: a whole one without decimals. */
export function plannedMillilitres(value_mL: number): string {
  return millilitres(value_mL, value_mL % 1 === 0 ? 0 : 1);
}

/** Amount, mmol. */
export function millimoles(value_mmol: number, decimals = 3): string {
  return withUnit(fixed(value_mmol, decimals), 'mmol');
}

/** Molarity, mol/L. */
export function molarity(value_M: number, figures = 3): string {
  return quantity(value_M, 'mol/L', figures);
}

/** A share of 0 to 1 as a percentage. */
export function percent(share: number, decimals = 1): string {
  return withUnit(fixed(share * 100, decimals), '%');
}

/** Model time: seconds below ten minutes, then whole minutes, then hours. */
export function duration(value_min: number): string {
  if (!Number.isFinite(value_min)) return UNKNOWN;
  const seconds = Math.round(value_min * 60);
  if (seconds < 60) return withUnit(String(seconds), 's');
  if (seconds < 600) return `${withUnit(String(Math.floor(seconds / 60)), 'min')} ${withUnit(String(seconds % 60), 's')}`;
  const minutes = Math.round(value_min);
  return minutes < 60 ? withUnit(String(minutes), 'min') : `${withUnit(String(Math.floor(minutes / 60)), 'h')} ${withUnit(String(minutes % 60), 'min')}`;
}

const SPOKEN_UNITS: Readonly<Record<string, string>> = {
  mL: 'millilitres',
  mmol: 'millimoles',
  min: 'minutes',
  s: 'seconds',
  cm: 'centimetres',
  mm: 'millimetres',
  'mol/L': 'moles per litre',
  'mL/min': 'millilitres per minute',
  'mmol/mL': 'millimoles per millilitre',
  '%': 'percent',
};

/** A number with its unit in words, for a screen reader. */
export function spoken(value: number, unit: string, figures = 3): string {
  if (!Number.isFinite(value)) return 'unknown';
  const number = significant(value, figures).replace(MINUS, 'minus ').replaceAll(THIN_SPACE, '');
  return unit === '' ? number : `${number} ${SPOKEN_UNITS[unit] ?? unit}`;
}

function powerOfTen(value: number, figures: number): string {
  const [digits = '', exponent = '0'] = value.toExponential(figures - 1).split('e');
  return `${digits.replace('-', MINUS)}×10${raised(Number(exponent))}`;
}

function raised(exponent: number): string {
  return [...String(exponent)].map((sign) => (sign === '-' ? '⁻' : '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(sign)])).join('');
}

function grouped(text: string): string {
  if (Number(text) < GROUP_FROM) return text;
  const [whole = '', decimals] = text.split('.');
  const groups = whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
  return decimals === undefined ? groups : `${groups}.${decimals}`;
}

/** "1 aliquot", "3 aliquots". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}
