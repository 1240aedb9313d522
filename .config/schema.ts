// Writes scenarios/schema.json from the parameter table and the shapes of the reader: npx tsx .config/schema.ts
import { writeFileSync } from 'node:fs';
import { schemaOf } from '../sim/schema.ts';

writeFileSync(new URL('../scenarios/schema.json', import.meta.url), `${JSON.stringify(schemaOf(), null, 2)}\n`);
