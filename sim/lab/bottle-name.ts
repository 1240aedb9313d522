import { valueAt, withValueAt } from './place.ts';

// The name of a bottle follows its acid, as long as the name tells the molarity it had; a name of the lab's own stays.

const MOLARITY = /^(liquids\.[^.]+)\.HCl_M$/;

/** The JSON with the name of a bottle brought along, where the value that is set is the molarity of its acid. */
export function withNameOfAcid(json: unknown, path: string, value: unknown): unknown {
  const bottle = MOLARITY.exec(path)?.[1];
  if (bottle === undefined || typeof value !== 'number') return json;
  const [label, before] = [valueAt(json, `${bottle}.label`), valueAt(json, path)];
  if (typeof label !== 'string' || typeof before !== 'number') return json;
  return withValueAt(json, `${bottle}.label`, renamed(label, before, value));
}

/** "cathode leach in 9 M HCl" becomes "cathode leach in 8 M HCl"; "unknown" stays. */
export function renamed(label: string, before_M: number, after_M: number): string {
  const [told, tells] = [acidName(before_M), acidName(after_M)];
  if (label === told) return tells;
  // Water is a word of many names; only an acid is looked for inside of one, and not the 2.5 in 12.5.
  if (before_M === 0) return label;
  const at = label.indexOf(told);
  return at < 0 || /[\d.]/.test(label.charAt(at - 1)) ? label : `${label.slice(0, at)}${tells}${label.slice(at + told.length)}`;
}

/** What a bottle of acid is called if nobody has given it a name. */
export function acidName(HCl_M: number): string {
  return HCl_M === 0 ? 'water' : `${HCl_M} M HCl`;
}
