import { nothing, type TemplateResult } from 'lit';
import { getDirectiveClass, isDirectiveResult, isTemplateResult } from 'lit/directive-helpers.js';
import { styled, type StyleValues } from '../../src/ui/styled.ts';

// Writes a Lit template as text without a browser, for stored drawings. Elements and attributes only: event, property and
// boolean bindings and directives are refused, because a drawing must not depend on them.

/** Markup with the numbers of attributes rounded to 2 decimals and white space collapsed; one element a line. */
export function markup(value: unknown): string {
  return rounded(written(value))
    .replace(/\s+/g, ' ')
    .replace(/ ?(\/?)> ?/g, '$1>')
    .replace(/ </g, '<')
    .replace(/>(?=<[^/])/g, '>\n')
    .trim();
}

/** Points that a line of a stored drawing keeps of its run; the rest is left to tests of numbers. */
const POINTS_MAX = 12;

/** Markup as it is stored: few enough points for a person to read, whole px. */
export function sketch(value: unknown): string {
  return markup(value)
    .replace(/(?:L-?[\d.]+[ ,]-?[\d.]+)+/g, thinned)
    .replace(/="[^"]*"/g, (attribute) => attribute.replace(/-?\d+\.\d+/g, (number) => String(Math.round(Number(number)) || 0)));
}

function thinned(run: string): string {
  const points = run.split('L').slice(1);
  const every = Math.ceil(points.length / POINTS_MAX);
  return points
    .filter((_, i) => (points.length - 1 - i) % every === 0)
    .map((point) => `L${point}`)
    .join('');
}

function written(value: unknown): string {
  if (value === nothing || value === undefined || value === null) return '';
  if (Array.isArray(value)) return value.map(written).join('');
  if (isTemplateResult(value)) return template(value as TemplateResult);
  if (typeof value === 'string' || typeof value === 'number') return escaped(String(value));
  throw new Error(`markup: expected a template, text or number, received ${typeof value}`);
}

function template({ strings, values }: TemplateResult): string {
  return strings.reduce((text, next, place) => part(text, values[place - 1]) + next);
}

function part(before: string, value: unknown): string {
  const bare = /\s([.?@]?[\w:-]+)=$/.exec(before);
  if (bare && /^[.?@]/.test(bare[1] ?? '')) throw new Error(`markup: expected attributes and children, received the binding ${bare[1]}`);
  if (bare) return value === nothing ? before.slice(0, bare.index) : `${before}"${escaped(String(value))}"`;
  return before + (isDirectiveResult(value) ? styleAttribute(value) : written(value));
}

/** The one directive a drawing may have: styles, which are written as the attribute that a browser is not given. */
function styleAttribute(value: unknown): string {
  if (getDirectiveClass(value) !== getDirectiveClass(styled({}))) throw new Error('markup: expected no directive but styled()');
  // What a directive was given is part of its result.
  const [styles] = (value as { readonly values: readonly [StyleValues] }).values;
  const text = Object.entries(styles).map(([name, style]) => `${name}: ${style}`);
  return `style="${escaped(text.join('; '))}"`;
}

function rounded(text: string): string {
  return text.replace(/="[^"]*"/g, (attribute) => attribute.replace(/-?\d+\.\d{3,}(e-?\d+)?/g, (number) => String(Number(Number(number).toFixed(2)) || 0)));
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
