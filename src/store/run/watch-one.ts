import { own } from '../../../sim/input/index.ts';
import { SEED_USUAL } from '../../../sim/math/random.ts';
import type { Json } from '../keep/saved.ts';
import type { ColumnStore } from '../column-store.ts';

/** What it takes of a session. */
interface Watchable {
  readonly shipped: Json;
  readonly json: Json;
  readonly store: ColumnStore;
  begunOn(changes: { readonly [key: string]: Json }): Promise<boolean>;
  freshColumn(drawn: number): Promise<boolean>;
  say(text: string): void;
}

/**
 * Puts the scenario's procedure on the bench from its start, on the column it was written for and without a fault that it was written
 * without. False if that was refused.
 */
export async function toWatch(session: Watchable): Promise<boolean> {
  const { shipped, json, store } = session;
  const seed = Number(own(shipped, 'seed') ?? SEED_USUAL);
  const [ours, theirs] = [json, shipped].map((one) => own(one, 'faults') ?? []);
  const imposed = JSON.stringify(ours) !== JSON.stringify(theirs);
  // Faults are JSON: kinds and numbers.
  const begun = imposed ? session.begunOn({ seed, faults: theirs as Json }) : store.scenario?.seed === seed || session.freshColumn(seed);
  if (!(await begun)) return false;
  if (imposed) session.say('What was imposed on this column was taken away: the run to watch is shown without it.');
  if (!store.scenario) return false;
  await store.replace(store.scenario.procedure, 0);
  return true;
}
