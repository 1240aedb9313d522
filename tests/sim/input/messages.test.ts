import { describe, expect, it } from 'vitest';
import { readLog } from '../../../sim/input/log.ts';
import { note, object } from '../../../sim/input/reading.ts';
import { describe as told, inWords } from '../../../sim/input/told.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { caseOf } from '../run/case.ts';

// Messages have a bound whatever is sent, and names have no signs that cannot be seen.

const sound = { title: 't', purpose: 'p', ions: ['Co'], liquids: { water: { label: 'w', HCl_M: 0 } } };

describe('messages', () => {
  it('stay short when the input is long: the whole of them, and the line they are put into', () => {
    const long = 'A'.repeat(60_000);
    const hostile = [
      {
        ...sound,
        ions: Array.from({ length: 8 }, () => long),
        liquids: { water: { label: long, HCl_M: 0, ions: Object.fromEntries(Array.from({ length: 20 }, (_, i) => [`${long}${i}`, 1])) } },
      },
      { ...sound, liquids: Object.fromEntries(Array.from({ length: 20 }, (_, i) => [`${long}${i}`, {}])) },
      { ...sound, [long]: 1, procedure: Array.from({ length: 500 }, () => ({ do: long, liquid: long })) },
    ];
    for (const json of hostile) {
      const read = readScenario(json, 'long');
      if (read.ok) throw new Error('expected issues');
      expect(JSON.stringify(read.issues).length).toBeLessThan(201 * 1000);
      expect(inWords(read.issues).length).toBeLessThan(4000);
    }
  });

  it('are worked out for no more unknown keys than are listed, so that a hundred thousand cost no more', () => {
    let looked = 0;
    const issues = new Proxy<Issue[]>([], {
      get(target, key) {
        if (key === 'length') looked += 1;
        return Reflect.get(target, key) as unknown;
      },
    });
    const keys = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`key${i}`, 1]));
    expect(object('a scenario', {}, { title: note(9) }).read(keys, '', issues)).toBeUndefined();
    expect(issues).toHaveLength(201);
    expect(looked).toBeLessThan(5 * 201);
  });
});

describe('a received value', () => {
  it('is shown by its beginning, and its length is told', () => {
    expect(told('A'.repeat(60_000))).toBe(`"${'A'.repeat(40)}…" (60000 characters)`);
    expect(told({ ['k'.repeat(60_000)]: 1 })).toBe(`an object with ${'k'.repeat(40)}…`);
  });
});

// Unicode 15: format characters (Cf), fillers, variation selectors and the joiner of graphemes; recalled.
const unseen = [
  '\u202e',
  '\u2066',
  '\u200b',
  '\u200d',
  '\ufeff',
  '\u00ad',
  '\u2028',
  '\u0085',
  '\u3164',
  '\u115f',
  '\ud800',
  '\u{e0041}',
  '\ufe0e',
  '\u{e0100}',
  '\u034f',
  '\u180b',
];

describe('names', () => {
  it.each(unseen)('are refused with %j in them, and the message writes the sign out', (sign) => {
    const read = readLog([{ do: 'receiver', label: `co${sign}balt` }], caseOf());
    if (read.ok) throw new Error('expected issues');
    expect(read.issues).toHaveLength(1);
    expect(read.issues[0].received).not.toContain(sign);
    expect(read.issues[0].received).toContain(`\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`);
  });

  it.each([
    ['a sign that needs a letter comes first', '\u0301cobalt'],
    ['five signs stand on one letter', `co${'\u0335'.repeat(5)}balt`],
  ])('are refused where %s', (_, label) => {
    const read = readLog([{ do: 'receiver', label }], caseOf());
    expect(read.ok ? [] : read.issues.map(({ path }) => path)).toEqual(['log[0].label']);
  });

  it('may be in any script', () => {
    for (const label of ['кобальт', '钴', 'كوبالت', 'Co²⁺ – 1', 'é', 'e\u0301', 'หนึ่ง', 'बी', '🧪'])
      expect(readLog([{ do: 'receiver', label }], caseOf()).ok).toBe(true);
  });
});

describe('free text', () => {
  const read = (value: string): string | undefined => note(20).read(value, 'reason', []);

  it.each(unseen.filter((sign) => !['\u200d', '\ufe0e'].includes(sign)))('shows that there is a sign where %j is, and is no longer for it', (sign) => {
    expect(read(`co${sign}balt`)).toBe('co\ufffdbalt');
    expect(read(sign.repeat(20 / sign.length))?.length).toBeLessThanOrEqual(20);
  });

  it('reads the same again', () => {
    const once = read('a\u202eb\u{e0041}c') ?? '';
    expect(read(once)).toBe(once);
  });

  it('keeps new lines, any script, and pictures of several parts', () => {
    for (const value of ['one\ntwo\r\n\tthree', 'кобальт', 'כחול', 'می\u200cروم', '👩\u200d🔬', '\u2764\ufe0f', '']) expect(read(value)).toBe(value);
  });
});
