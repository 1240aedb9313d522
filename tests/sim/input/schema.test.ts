import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { FIELDS } from '../../../sim/terms/fields.ts';
import { parseJson } from '../../../sim/input/json.ts';
import { own } from '../../../sim/input/told.ts';
import { schemaOf } from '../../../sim/input/schema.ts';

const bad = new URL('../../fixtures/bad/', import.meta.url);
const expected: Record<string, { schema: boolean }> = JSON.parse(readFileSync(new URL('expected.json', bad), 'utf8'));
// An independent validator of JSON Schema draft-07; `strict` also refuses keywords it does not know.
const validate = new Ajv({ strict: true, strictRequired: false }).compile(schemaOf());

describe('scenario schema', () => {
  test('has every parameter with its label, range and default', () => {
    const properties = own(schemaOf(), 'properties');
    for (const [path, field] of Object.entries(FIELDS)) {
      const [group = '', name = ''] = path.split('.');
      const rule = own(own(own(properties, group), 'properties'), name);
      expect(rule, path).toMatchObject({ title: field.label, minimum: field.min, maximum: field.max, default: field.default });
      expect(own(rule, 'description'), path).toContain(field.status);
    }
  });

  test.each(Object.entries(expected))('judges %s as it should', (name, { schema }) => {
    const parsed = parseJson(readFileSync(new URL(`${name}.json`, bad), 'utf8'), name);
    expect(parsed.ok && validate(parsed.json)).toBe(!schema);
  });
});
