import type { Json } from '../../../src/store/keep/saved.ts';
import { Session } from '../../../src/store/session.ts';
import { directThread } from '../store/rig.ts';

// A session on a small column whose procedure was run to its end, with the cobalt receiver taken to the work-up bench.

/** Few lanes and cells: the work-up does not mind. */
const SMALL_BED = { plates: 30, lanes: 3 };

export async function collected(changes: Readonly<Record<string, Json>> = {}): Promise<Session> {
  const session = new Session(directThread(), undefined, 'a');
  await session.start(undefined);
  const json = session.json as Readonly<Record<string, Json>>;
  await session.change({ ...json, bed: SMALL_BED, ...changes });
  await session.store.replace(session.store.scenario?.procedure ?? [], 0);
  await session.store.seek(session.store.plan?.logEnd.time_min ?? 0);
  await session.workUp.load();
  session.workUp.take('cobalt');
  return session;
}
