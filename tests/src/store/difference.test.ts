import { assert, dictionary, jsonValue, letrec, property, string, type Arbitrary } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { differences, patched } from '../../../src/store/keep/difference.ts';
import type { Json } from '../../../src/store/keep/saved.ts';

const SEED = { seed: 20260824, numRuns: 300 };

// RFC 7396, JSON Merge Patch, appendix A: original, patch, result (recalled).
const CASES: readonly (readonly [Json, Json, Json])[] = [
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, null, null],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
];

/** JSON without null in objects, with keys drawn from few so that two values overlap. */
function plainJson(): Arbitrary<Json> {
  return letrec<{ node: Json; leaf: Json }>((tie) => ({
    leaf: jsonValue({ maxDepth: 1 }).map(withoutNull),
    node: dictionary(
      string({ maxLength: 1, unit: 'grapheme-ascii' }).map((key) => (key === '~' ? '__proto__' : key)),
      tie('leaf'),
    ).map((value) => value as Json),
  })).node;
}

function withoutNull(value: unknown): Json {
  if (Array.isArray(value)) return value.map(withoutNull);
  if (typeof value !== 'object' || value === null) return (value ?? 0) as Json;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, withoutNull(inner)]));
}

describe('patched', () => {
  test.each(CASES)('%j with %j is %j', (base, patch, result) => {
    expect(patched(base, patch)).toEqual(result);
  });
});

test('patched(base, differences(base, changed)) is changed', () => {
  assert(
    property(plainJson(), plainJson(), (base, changed) => {
      expect(patched(base, differences(base, changed))).toEqual(changed);
    }),
    SEED,
  );
});

test('differences(a, a) is empty', () => {
  assert(
    property(plainJson(), (value) => {
      expect(differences(value, structuredClone(value))).toEqual({});
    }),
    SEED,
  );
});

test('differences(...) names only what changed', () => {
  const base = { title: 'x', values: { 'bed.length_cm': 7, 'bed.lanes': 13 }, procedure: [1, 2] };
  const changed = { title: 'x', values: { 'bed.length_cm': 9, 'bed.lanes': 13 }, procedure: [1, 3] };
  expect(differences(base, changed)).toEqual({ values: { 'bed.length_cm': 9 }, procedure: [1, 3] });
});

test('differences(...) refuses a null it could not carry', () => {
  expect(() => differences({}, { a: { b: null } })).toThrow('b: expected a value other than null');
});

test('patched(...) leaves its arguments and the prototype of objects alone', () => {
  const base = Object.freeze({ a: Object.freeze({ b: 1 }) });
  const patch = JSON.parse('{"__proto__":{"polluted":1},"a":{"c":2}}') as Json;
  expect(patched(base, patch)).toMatchObject({ a: { b: 1, c: 2 } });
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});
