import { availableParallelism } from 'node:os';
import { type ClassAnswer, type ClassTask, classForecast, classTasks, forClass, GROUPS_MAX } from '../../sim/class/index.ts';
import type { Issue, Scenario } from '../../sim/terms/types.ts';
import { inThreads } from './threads.ts';

/** More do not pay: a class is small. */
const THREADS_MOST = 8;

/** How many groups `--groups` asks for, or what is wrong with it. */
export function groupsFrom(text: string): number | Issue {
  const groups = Number(text);
  if (/^\d+$/.test(text) && groups >= 1 && groups <= GROUPS_MAX) return groups;
  return { path: '--groups', expected: `whole number 1 to ${GROUPS_MAX}`, received: `"${text.slice(0, 40)}"` };
}

/** What a class of so many groups will see, as JSON, worked out on all cores. */
export async function groupsJson(lab: Scenario, groups: number, threads = Math.min(THREADS_MOST, availableParallelism())): Promise<string> {
  const scenario = forClass(lab);
  const tasks = classTasks(groups);
  const answers = await inThreads<ClassTask, ClassAnswer>(new URL('./group-thread.ts', import.meta.url), scenario, tasks, threads);
  return `${JSON.stringify(classForecast(scenario, tasks, answers), null, 2)}\n`;
}
