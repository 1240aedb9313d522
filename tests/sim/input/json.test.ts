import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEPTH_MAX, jsonFault, parseJson, TEXT_MAX } from '../../../sim/input/json.ts';

// The oracle is the engine's own JSON.parse.
const sound = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

describe('JSON reader', () => {
  test('agrees with JSON.parse on what is JSON, for random texts of JSON pieces', () => {
    const pieces = fc.array(
      fc.constantFrom('{', '}', '[', ']', ',', ':', '"a"', '"b"', '1', '-0.5e3', '01', '1.', 'true', 'nul', ' ', '\n', '"\\u00e9"', '"\\x"', "'"),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(pieces, (parts) => {
        const text = parts.join('');
        const fault = jsonFault(text);
        if (fault?.expected.startsWith('a key not yet')) return;
        expect(fault === undefined).toBe(sound(text));
      }),
      { seed: 1, numRuns: 5000 },
    );
  });

  test('gives the same value as JSON.parse, for random JSON', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        expect(parseJson(text, 'scenario')).toEqual({ ok: true, json: JSON.parse(text) });
      }),
      { seed: 2 },
    );
  });

  test('never throws, and gives three texts, for any text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const parsed = parseJson(text, 'log');
        if (!parsed.ok) for (const issue of parsed.issues) for (const part of [issue.path, issue.expected, issue.received]) expect(part).toBeTruthy();
      }),
      { seed: 3 },
    );
  });

  test('gives line and column of the first fault', () => {
    expect(parseJson('{\n  "a": 1\n  "b": 2\n}', 'scenario')).toEqual({
      ok: false,
      issues: [{ path: 'scenario, line 3, column 3', expected: 'a comma or the closing bracket', received: '"b": 2' }],
    });
    expect(parseJson('', 'log')).toMatchObject({ issues: [{ path: 'log, line 1, column 1', received: 'the end of the text' }] });
  });

  test('refuses a key given twice, however it is written', () => {
    expect(parseJson('{"a":1,"\\u0061":2}', 'scenario')).toMatchObject({ issues: [{ expected: 'a key not yet used in this object' }] });
  });

  test(`accepts ${DEPTH_MAX} brackets inside one another and no more`, () => {
    const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth);
    expect(parseJson(nested(DEPTH_MAX), 'scenario').ok).toBe(true);
    expect(parseJson(nested(DEPTH_MAX + 1), 'scenario').ok).toBe(false);
    expect(parseJson('['.repeat(TEXT_MAX), 'scenario').ok).toBe(false);
  });

  test('refuses a text over a million characters and bears one just below', () => {
    expect(parseJson(`"${'a'.repeat(TEXT_MAX)}"`, 'scenario')).toMatchObject({ issues: [{ path: 'scenario', received: '1000002 characters' }] });
    expect(parseJson(`"${'\\n'.repeat(TEXT_MAX / 2 - 2)}"`, 'scenario').ok).toBe(true);
  });

  test('ignores the mark that some editors put before the first character', () => {
    expect(parseJson('\ufeff{}', 'scenario')).toEqual({ ok: true, json: {} });
  });
});
