// Stores the figures of the shipped scenarios anew: npm run golden. Say in the commit why they moved.
import { writeFileSync } from 'node:fs';
import { figuresOf, GOLDEN, scenarioOf } from './figures.ts';

for (const name of GOLDEN) writeFileSync(new URL(`${name}.json`, import.meta.url), `${JSON.stringify(figuresOf(scenarioOf(name)), null, 2)}\n`);
