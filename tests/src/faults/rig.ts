import { Session } from '../../../src/store/session.ts';
import { directThread } from '../store/rig.ts';

/** A short run that is quick to work out: the first lesson with a coarse grid. */
export async function shortSession(): Promise<Session> {
  const session = new Session(directThread(), undefined, 'a');
  await session.openRun({ base: 'cathode-leach', differences: { bed: { plates: 20, lanes: 5 } }, seed: 3, log: [] });
  return session;
}
