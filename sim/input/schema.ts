// The JSON Schema of scenario files, for editors and other programs. What it cannot say (a tube taller than its bed,
// times that go forward, names that refer to something) only the reader checks.
import type { JsonSchema } from './reading.ts';
import { scenarioShape } from './scenario.ts';

/** JSON Schema, draft-07, of a scenario file. */
export function schemaOf(): JsonSchema {
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'Bandfall scenario',
    description:
      'One column run: what is packed, what is poured, and how a good operator proceeds. Only what differs from the defaults. Written by npm run schema; do not edit.',
    ...scenarioShape.schema,
  };
}
