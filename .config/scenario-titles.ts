import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

const NAME = 'virtual:scenario-titles';

/** A module of scenario ids and titles, so that the list of scenarios can be shown without loading them. */
export function scenarioTitles(folder: string): Plugin {
  return {
    name: 'scenario-titles',
    resolveId: (id) => (id === NAME ? `\0${NAME}` : undefined),
    load: (id) => (id === `\0${NAME}` ? `export const titles = ${JSON.stringify(titlesIn(folder))};` : undefined),
  };
}

function titlesIn(folder: string): Record<string, string> {
  const names = readdirSync(folder).filter((name) => name.endsWith('.json') && name !== 'schema.json');
  return Object.fromEntries(names.map((name) => [name.slice(0, -'.json'.length), JSON.parse(readFileSync(join(folder, name), 'utf8')).title]));
}
