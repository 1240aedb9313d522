/// <reference path="./scenario-titles.d.ts" />
import { titles } from 'virtual:scenario-titles';
import { emptyBench } from '../../../sim/lab/index.ts';
import type { Json } from '../keep/saved.ts';

// The scenarios that ship with the page: titles at once, the rest of a scenario when it is opened.

const PLACE = '../../../scenarios/';
/** The scenario a new visitor meets. */
export const FIRST_SCENARIO = 'cathode-leach';
/** Where a new lab may start from; it is opened like a scenario but not listed. */
export const EMPTY_BENCH = 'empty-bench';

const files = import.meta.glob<Json>(['../../../scenarios/*.json', '!../../../scenarios/schema.json'], { import: 'default' });

export interface CatalogEntry {
  readonly id: string;
  readonly title: string;
}

/** Every scenario, the first one first, then by title. */
export function catalog(): CatalogEntry[] {
  const all = Object.entries(titles).map(([id, title]) => ({ id, title }));
  return all.sort((a, b) => Number(b.id === FIRST_SCENARIO) - Number(a.id === FIRST_SCENARIO) || a.title.localeCompare(b.title));
}

/** The title of a scenario; its id where it is none of these. */
export function titleOf(id: string): string {
  return titles[id] ?? id;
}

/** The JSON of a scenario; undefined when there is none of that id. Rejects when it cannot be fetched. */
export async function scenarioJson(id: string): Promise<Json | undefined> {
  // JSON by the way it is made.
  if (id === EMPTY_BENCH) return emptyBench() as Json;
  return files[`${PLACE}${id}.json`]?.();
}
