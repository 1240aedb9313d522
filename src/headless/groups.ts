import { classOf, GROUPS_MAX } from '../../sim/class/index.ts';
import type { Issue, Scenario } from '../../sim/terms/types.ts';

/** How many groups `--groups` asks for, or what is wrong with it. */
export function groupsFrom(text: string): number | Issue {
  const groups = Number(text);
  if (/^\d+$/.test(text) && groups >= 1 && groups <= GROUPS_MAX) return groups;
  return { path: '--groups', expected: `whole number 1 to ${GROUPS_MAX}`, received: `"${text.slice(0, 40)}"` };
}

/** What a class of so many groups will see, as JSON. Every column has one lane, for speed. */
export function groupsJson(scenario: Scenario, groups: number): string {
  const forecast = classOf({ ...scenario, values: { ...scenario.values, 'bed.lanes': 1 } }, groups);
  return `${JSON.stringify(forecast, null, 2)}\n`;
}
