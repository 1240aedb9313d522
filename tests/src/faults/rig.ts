import { Session } from '../../../src/store/session.ts';
import { directThread } from '../store/rig.ts';

/** A short run that is quick to work out: a lesson with a coarse grid, by default the first. */
export async function shortSession(base = 'cathode-leach'): Promise<Session> {
  const session = new Session(directThread(), undefined, 'a');
  await session.openRun({ base, differences: { bed: { plates: 20, lanes: 5 } }, seed: 3, log: [] });
  return session;
}
