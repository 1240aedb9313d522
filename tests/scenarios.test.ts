import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { FIELDS } from '../sim/fields.ts';
import { own } from '../sim/reading.ts';
import { parseScenario } from '../sim/scenario.ts';
import { schemaOf } from '../sim/schema.ts';

const folder = new URL('../scenarios/', import.meta.url);
const textOf = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const names = readdirSync(folder).filter((name) => name.endsWith('.json') && name !== 'schema.json');
const validate = new Ajv({ strictRequired: false }).compile(schemaOf());

test('the stored schema is the one that the code gives (if not: npm run schema)', () => {
  expect(JSON.parse(textOf('schema.json'))).toEqual(JSON.parse(JSON.stringify(schemaOf())));
});

describe.each(names)('%s', (name) => {
  const read = parseScenario(textOf(name), name);

  test('is read without an issue and agrees with the schema', () => {
    expect(read.ok ? [] : read.issues).toEqual([]);
    expect(validate(JSON.parse(textOf(name))), JSON.stringify(validate.errors)).toBe(true);
  });

  test('says what it is for, where it comes from, what to notice, and how a good operator proceeds', () => {
    if (!read.ok) throw new Error(`${name} is not sound`);
    for (const part of [read.scenario.sources, read.scenario.notice, read.scenario.procedure]) expect(part.length).toBeGreaterThan(0);
  });

  test('names no parameter that is at its default', () => {
    const json: unknown = JSON.parse(textOf(name));
    const idle = Object.entries(FIELDS).filter(([path, field]) => {
      const [group = '', key = ''] = path.split('.');
      return own(own(json, group), key) === field.default;
    });
    expect(idle.map(([path]) => path)).toEqual([]);
  });
});
