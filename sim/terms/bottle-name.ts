import type { Scenario } from './types.ts';

/** What stands on the bottle of a liquid, or its key where the lab has no such bottle. */
export function bottleName(liquid: string, liquids: Scenario['liquids']): string {
  return liquids[liquid]?.label ?? liquid;
}
