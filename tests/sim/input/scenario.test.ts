import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FIELDS, parameterDefaults } from '../../../sim/terms/fields.ts';
import { parseScenario, readScenario } from '../../../sim/input/scenario.ts';
import type { Issue } from '../../../sim/terms/types.ts';

const bad = new URL('../../fixtures/bad/', import.meta.url);
const expected: Record<string, { paths: string[] }> = JSON.parse(readFileSync(new URL('expected.json', bad), 'utf8'));

const least = {
  title: 'Least',
  purpose: 'What a scenario cannot do without.',
  ions: ['Co', 'Ni'],
  liquids: { acid: { label: '9 M HCl', HCl_M: 9 } },
};

const issuesOf = (json: unknown): readonly Issue[] => {
  const read = readScenario(json, 'test');
  return read.ok ? [] : read.issues;
};

describe('scenario reader', () => {
  test('fills in every default', () => {
    expect(readScenario(least, 'least')).toEqual({
      ok: true,
      scenario: {
        ...least,
        id: 'least',
        notice: [],
        sources: [],
        liquids: { acid: { label: '9 M HCl', HCl_M: 9, ions: {} } },
        values: parameterDefaults(),
        curves: {},
        faults: [],
        procedure: [],
        seed: 1,
      },
    });
  });

  test('takes each parameter at both ends of its range and refuses it just outside, naming range and unit', () => {
    const room = { column: { tube_cm: 200 }, bench: { start_head_mm: 0 }, resin: { pore_L_per_L: 0.05 } };
    for (const [path, field] of Object.entries(FIELDS)) {
      const [group = '', name = ''] = path.split('.');
      const withValue = (value: number) => ({ ...least, ...room, [group]: { ...room[group as keyof typeof room], [name]: value } });
      for (const end of [field.min, field.max]) {
        const outOfRange = issuesOf(withValue(end)).filter((issue) => issue.path === path && /^(whole )?number/.test(issue.expected));
        expect(outOfRange, `${path} = ${end}`).toEqual([]);
      }
      for (const outside of [field.min - 1, field.max + 1]) {
        const [issue] = issuesOf(withValue(outside)).filter((each) => each.path === path);
        expect(issue?.expected, path).toContain(`${field.min} to ${field.max}${field.unit === '' ? '' : ` ${field.unit}`}`);
        expect(issue?.received).toContain(String(outside));
      }
    }
  });

  test.each(Object.entries(expected))('finds everything wrong in %s', (name, { paths }) => {
    const read = parseScenario(readFileSync(new URL(`${name}.json`, bad), 'utf8'), name);
    expect(read).not.toHaveProperty('scenario');
    expect(read.ok ? [] : read.issues.map((issue) => issue.path).sort()).toEqual([...paths].sort());
  });

  test('names the nearest known key', () => {
    const [issue] = issuesOf({ ...least, bed: { lenght_cm: 7 } });
    expect(issue).toEqual({ path: 'bed.lenght_cm', expected: 'a key of bed, nearest known: length_cm', received: '"lenght_cm"' });
  });

  test('names both lengths when the tube is shorter than the bed', () => {
    expect(issuesOf({ ...least, bed: { length_cm: 20 } })).toEqual([
      { path: 'bed.length_cm', expected: 'below column.tube_cm (20 cm), the tube must be taller than the bed', received: '20 cm' },
    ]);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, '7', null, true, [7], {}])('refuses %s as a number', (value) => {
    expect(issuesOf({ ...least, bed: { length_cm: value } }).map(({ path }) => path)).toEqual(['bed.length_cm']);
  });

  test.each(['', '   ', 'a\nb', 'x'.repeat(61), 5])('refuses %j as a label', (label) => {
    expect(issuesOf({ ...least, liquids: { acid: { label, HCl_M: 9 } } }).map(({ path }) => path)).toEqual(['liquids.acid.label']);
  });

  test('takes nothing from what objects inherit', () => {
    const inherited = Object.create({ ...least, seed: 5 });
    expect(issuesOf(inherited).map(({ path }) => path)).toEqual(['title', 'purpose', 'ions', 'liquids']);
    expect(issuesOf(JSON.parse(`{"__proto__": ${JSON.stringify(least)}}`)).map(({ path }) => path)).toContain('__proto__');
    expect(issuesOf({ ...least, procedure: [{ do: 'pour', liquid: 'constructor', volume_mL: 1 }] }).map(({ path }) => path)).toEqual(['procedure[0].liquid']);
  });

  test('lists no more than 200 issues and says that there are more', () => {
    const strangers = Object.fromEntries(Array.from({ length: 5000 }, (_, i) => [`stranger${i}`, i]));
    const issues = issuesOf({ ...least, ...strangers });
    expect(issues).toHaveLength(201);
    expect(issues.at(-1)?.received).toBe('more; the rest are not listed');
  });

  test('bears an object that contains itself', () => {
    const loop: Record<string, unknown> = { ...least };
    loop['bed'] = loop;
    expect(issuesOf(loop)).toEqual([{ path: 'scenario', expected: 'at most 20 objects or lists inside one another', received: 'more' }]);
  });
});

describe('scenario reader, for anything at all', () => {
  const complete = ({ path, expected: wanted, received }: Issue) =>
    [path, wanted, received].every((part) => typeof part === 'string' && part.length > 0 && part.length < 600);

  test('never throws, and every issue has path, expected and received', () => {
    fc.assert(
      fc.property(fc.anything({ maxDepth: 4 }), (value) => {
        expect(issuesOf(value).filter((issue) => !complete(issue))).toEqual([]);
      }),
      { seed: 11, numRuns: 1000 },
    );
  });

  test('never throws on a sound scenario with one value replaced by anything', () => {
    const keys = ['title', 'purpose', 'notice', 'sources', 'ions', 'liquids', 'bed', 'curves', 'faults', 'procedure', 'seed', '$schema', 'other'];
    fc.assert(
      fc.property(fc.constantFrom(...keys), fc.jsonValue({ maxDepth: 4 }), (key, value) => {
        const read = readScenario({ ...least, [key]: value }, 'test');
        expect(read.ok || (read.issues.length > 0 && read.issues.every(complete))).toBe(true);
      }),
      { seed: 12, numRuns: 2000 },
    );
  });

  test('never throws on any text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        const read = parseScenario(text, 'test');
        expect(read.ok).toBe(false);
        expect(read.ok ? [] : read.issues.every(complete)).toBe(true);
      }),
      { seed: 13, numRuns: 1000 },
    );
  });
});
