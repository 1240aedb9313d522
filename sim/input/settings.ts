// `--set path=value`: changes single values of the JSON of a scenario before it is read.
import { FIELDS } from '../terms/fields.ts';
import { addIssue, clip, isRecord, oneOf, own } from './told.ts';
import type { Issue } from '../terms/types.ts';

export type SettingsResult = { readonly ok: true; readonly json: unknown } | { readonly ok: false; readonly issues: readonly Issue[] };

/** Keys that reach into what every object has. */
const INHERITED = ['__proto__', 'constructor', 'prototype'];
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** A changed copy of the JSON; `settings` are like `bed.length_cm=5` or `procedure[2].volume_mL=4`. Whether the values are allowed is for the reader to say. */
export function applySettings(json: unknown, settings: readonly string[]): SettingsResult {
  const issues: Issue[] = [];
  const known = settings.length > 0 ? settablePaths(json) : [];
  let changed = json;
  for (const setting of settings) {
    const equals = setting.indexOf('=');
    const path = setting.slice(0, Math.max(0, equals)).trim();
    if (equals < 0) addIssue(issues, '--set', 'path=value, such as bed.length_cm=5', `"${clip(setting)}"`);
    else if (!known.includes(path)) addIssue(issues, '--set', oneOf('a path of the scenario', known, path), `"${clip(path)}"`);
    else changed = withValue(changed, keysOf(path), valueOf(setting.slice(equals + 1).trim()));
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, json: changed };
}

/** Every parameter, and every single value that the file itself has or could have in its liquids and faults. */
export function settablePaths(json: unknown): string[] {
  const paths = new Set<string>([...Object.keys(FIELDS), 'resin.grade', 'seed']);
  for (const path of leavesOf(json, '')) paths.add(path);
  const listed = own(json, 'ions');
  const liquids = own(json, 'liquids');
  for (const name of isRecord(liquids) ? Object.keys(liquids).filter(isOwnName) : []) {
    for (const ion of Array.isArray(listed) ? listed : []) if (isOwnName(String(ion))) paths.add(`liquids.${name}.ions.${ion}`);
  }
  const faults = own(json, 'faults');
  for (const i of Array.isArray(faults) ? faults.keys() : []) {
    for (const key of ['severity', 'side_deg', 'depth_share']) paths.add(`faults[${i}].${key}`);
  }
  return [...paths];
}

function leavesOf(value: unknown, path: string): string[] {
  if (Array.isArray(value)) return value.flatMap((part: unknown, i) => leavesOf(part, `${path}[${i}]`));
  if (!isRecord(value)) return [path];
  const keys = Object.keys(value).filter((key) => isOwnName(key) && !/[.[\]=]/.test(key));
  return keys.flatMap((key) => leavesOf(value[key], path === '' ? key : `${path}.${key}`));
}

function isOwnName(key: string): boolean {
  return !INHERITED.includes(key);
}

function keysOf(path: string): string[] {
  return path.replaceAll('[', '.').replaceAll(']', '').split('.');
}

function valueOf(text: string): unknown {
  if (NUMBER.test(text)) return Number(text);
  if (text === 'true' || text === 'false') return text === 'true';
  return text.length > 1 && text.startsWith('"') && text.endsWith('"') ? text.slice(1, -1) : text;
}

/** A copy with one value replaced; objects that are missing on the way are added. */
function withValue(json: unknown, [key = '', ...rest]: readonly string[], value: unknown): unknown {
  const part = rest.length === 0 ? value : withValue(Array.isArray(json) ? json[Number(key)] : own(json, key), rest, value);
  if (Array.isArray(json)) return json.map((old: unknown, i) => (i === Number(key) ? part : old));
  return { ...(isRecord(json) ? json : {}), [key]: part };
}
