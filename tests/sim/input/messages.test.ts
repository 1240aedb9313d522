import { describe, expect, it } from 'vitest';
import { readLog } from '../../../sim/input/log.ts';
import { inWords } from '../../../sim/input/reading.ts';
import { readScenario } from '../../../sim/input/scenario.ts';
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
});

describe('names', () => {
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
