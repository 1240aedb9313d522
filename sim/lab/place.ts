import { isRecord, own, plausible } from '../input/index.ts';
import type { FieldPath } from '../terms/fields.ts';

// Single values of the JSON of a scenario, by their path as the reader writes it: `bed.length_cm`, `procedure[3].volume_mL`.

/** An object that is left without a key goes as well, but for these, which a scenario must have. */
const KEPT_EMPTY = ['liquids', 'ions', 'procedure'];

/** `procedure[3].volume_mL` is procedure, 3, volume_mL. */
export function partsOf(path: string): string[] {
  return path
    .replaceAll('[', '.')
    .replaceAll(']', '')
    .split('.')
    .filter((part) => part !== '');
}

/** The value there; undefined where there is none. */
export function valueAt(json: unknown, path: string): unknown {
  return partsOf(path).reduce<unknown>((value, part) => (Array.isArray(value) ? value[Number(part)] : own(value, part)), json);
}

/** A copy with this value there; undefined takes the value away, and what it leaves empty. What is missing on the way is added. */
export function withValueAt(json: unknown, path: string, value: unknown): unknown {
  return replaced(json, partsOf(path), value);
}

/** What a parameter is in the scenario as it stands: as written, by the grade of resin, or by default; undefined if it is not allowed. */
export function effective(json: unknown, path: FieldPath): number | undefined {
  return plausible(json, path);
}

function replaced(json: unknown, [key = '', ...rest]: readonly string[], value: unknown): unknown {
  const before = Array.isArray(json) ? json[Number(key)] : own(json, key);
  const part = rest.length === 0 ? value : replaced(before, rest, value);
  const gone = part === undefined || (rest.length > 0 && value === undefined && isEmpty(part) && !KEPT_EMPTY.includes(key));
  if (Array.isArray(json)) return listWith(json, Number(key), gone ? undefined : part);
  const others = Object.entries(isRecord(json) ? json : {});
  if (gone) return Object.fromEntries(others.filter(([name]) => name !== key));
  return Object.fromEntries(others.some(([name]) => name === key) ? others.map(([name, old]) => [name, name === key ? part : old]) : [...others, [key, part]]);
}

function listWith(list: readonly unknown[], at: number, part: unknown): unknown[] {
  if (part === undefined) return list.filter((_, i) => i !== at);
  return at >= list.length ? [...list, part] : list.map((old, i) => (i === at ? part : old));
}

function isEmpty(part: unknown): boolean {
  return isRecord(part) && Object.keys(part).length === 0;
}
