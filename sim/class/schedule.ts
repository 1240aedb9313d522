// Tasks in time: each waits for others, for a free person and for a free piece of apparatus. The task with the longest path
// still to go starts first; nothing is interrupted.

export interface Task {
  readonly id: string;
  readonly label: string;
  readonly duration_min: number;
  readonly after: readonly string[];
  /** A piece of apparatus that only one task holds at a time; people are taken from the pool. */
  readonly apparatus?: string;
}

export interface Placed extends Task {
  readonly start_min: number;
  readonly end_min: number;
  /** 0 for the first person. */
  readonly person: number;
  /** The task whose end let this one start; undefined at time 0. */
  readonly heldBy: string | undefined;
}

export interface Schedule {
  readonly tasks: readonly Placed[];
  readonly length_min: number;
  /** Tasks that determine the length, first to last. */
  readonly critical: readonly string[];
}

/** Places every task; tasks that wait for one another in a circle are left out of `tasks`. */
export function scheduleOf(tasks: readonly Task[], people: number): Schedule {
  const ahead = waysAhead(tasks);
  const placed: Placed[] = [];
  const waiting = [...tasks].sort((a, b) => (ahead.get(b.id) ?? 0) - (ahead.get(a.id) ?? 0));
  let now = 0;
  while (waiting.length > 0) {
    const index = waiting.findIndex((task) => canStart(task, placed, now, people));
    if (index >= 0) {
      placed.push(place(waiting.splice(index, 1)[0], placed, now, people));
      continue;
    }
    const next = Math.min(...placed.map(({ end_min }) => end_min).filter((end) => end > now));
    if (!Number.isFinite(next)) break;
    now = next;
  }
  const length_min = Math.max(0, ...placed.map(({ end_min }) => end_min));
  return { tasks: placed, length_min, critical: criticalChain(placed, length_min) };
}

function canStart(task: Task, placed: readonly Placed[], now: number, people: number): boolean {
  const done = (id: string) => placed.some((other) => other.id === id && other.end_min <= now);
  const busy = placed.filter(({ end_min }) => end_min > now);
  return task.after.every(done) && busy.length < people && !busy.some(({ apparatus }) => apparatus !== undefined && apparatus === task.apparatus);
}

function place(task: Task, placed: readonly Placed[], now: number, people: number): Placed {
  const busy = new Set(placed.filter(({ end_min }) => end_min > now).map(({ person }) => person));
  const free = Array.from({ length: people }, (_, i) => i).filter((i) => !busy.has(i));
  const familiar = placed.filter(({ id }) => task.after.includes(id)).map(({ person }) => person);
  const person = free.find((i) => familiar.includes(i)) ?? free[0];
  return { ...task, start_min: now, end_min: now + task.duration_min, person, heldBy: holderOf(task, placed, now) };
}

/** Of the tasks that end now, the one that was waited for: an earlier task, or else the apparatus, or else a free person. */
function holderOf(task: Task, placed: readonly Placed[], now: number): string | undefined {
  const ending = placed.filter(({ end_min }) => end_min === now && now > 0);
  const holder =
    ending.find(({ id }) => task.after.includes(id)) ?? ending.find(({ apparatus }) => apparatus !== undefined && apparatus === task.apparatus) ?? ending[0];
  return holder?.id;
}

function criticalChain(placed: readonly Placed[], length_min: number): string[] {
  const chain: string[] = [];
  let task = placed.find(({ end_min }) => end_min === length_min);
  while (task) {
    chain.unshift(task.id);
    const { heldBy } = task;
    task = heldBy === undefined ? undefined : placed.find(({ id }) => id === heldBy);
  }
  return chain;
}

/** Longest path from the start of each task to the end of all, min. */
function waysAhead(tasks: readonly Task[]): Map<string, number> {
  const ways = new Map(tasks.map(({ id, duration_min }) => [id, duration_min]));
  for (let round = 0; round < tasks.length; round++) {
    for (const task of tasks) {
      for (const id of task.after) {
        const before = tasks.find((other) => other.id === id);
        if (before) ways.set(id, Math.max(ways.get(id) ?? 0, before.duration_min + (ways.get(task.id) ?? 0)));
      }
    }
  }
  return ways;
}
