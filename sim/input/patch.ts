import { isRecord } from './told.ts';

/** `base` with a merge patch applied (RFC 7396: objects merge key by key, null removes a key, all else is replaced); neither is changed. */
export function merged(base: unknown, patch: unknown): unknown {
  if (!isRecord(patch)) return patch;
  const from = isRecord(base) ? base : {};
  const kept = Object.entries(from).filter(([key]) => !Object.hasOwn(patch, key));
  const put = Object.entries(patch)
    .filter(([, value]) => value !== null)
    .map(([key, value]): [string, unknown] => [key, merged(Object.hasOwn(from, key) ? from[key] : null, value)]);
  // fromEntries defines own keys, so a key called __proto__ stays an ordinary key.
  return Object.fromEntries([...kept, ...put]);
}
