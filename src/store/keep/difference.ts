import { isRecord, merged } from '../../../sim/input/index.ts';
import type { Json } from './saved.ts';

// Differences between two JSON values as a merge patch (RFC 7396: objects merge key by key, null removes a key,
// everything else, arrays included, is replaced whole). Because null means "remove", an object in a changed value must not contain null.

type JsonObject = { readonly [key: string]: Json };

/** The smallest merge patch that makes `changed` out of `base`; `{}` when they are equal objects. */
export function differences(base: Json, changed: Json): Json {
  if (!isJsonObject(changed)) return changed;
  const from = isJsonObject(base) ? base : {};
  const dropped = Object.keys(from)
    .filter((key) => !Object.hasOwn(changed, key))
    .map((key): [string, Json] => [key, null]);
  const put = Object.entries(changed).flatMap(([key, value]) => keyDifference(own(from, key), key, value));
  return Object.fromEntries([...dropped, ...put]);
}

/** `base` with a merge patch applied; neither is changed. */
export function patched(base: Json, patch: Json): Json {
  // A merge of JSON is JSON.
  return merged(base, patch) as Json;
}

function keyDifference(before: Json | undefined, key: string, value: Json): [string, Json][] {
  if (value === null) throw new Error(`${key}: expected a value other than null, which removes the key in a merge patch`);
  if (before !== undefined && equal(before, value)) return [];
  return [[key, differences(before ?? null, value)]];
}

function equal(a: Json, b: Json): boolean {
  if (Array.isArray(a) || Array.isArray(b)) {
    return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((value, place) => equal(value, b[place]));
  }
  if (!isJsonObject(a) || !isJsonObject(b)) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && equal(own(a, key) ?? null, own(b, key) ?? null));
}

function own(value: JsonObject, key: string): Json | undefined {
  return Object.hasOwn(value, key) ? value[key] : undefined;
}

function isJsonObject(value: Json): value is JsonObject {
  return isRecord(value);
}
