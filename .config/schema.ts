import { writeFileSync } from 'node:fs';
import { schemaOf } from '../sim/input/schema.ts';

// Writes the JSON Schema of scenario files, for editors that complete and check them.
writeFileSync(new URL('../scenarios/schema.json', import.meta.url), `${JSON.stringify(schemaOf(), null, 2)}\n`);
