import { type HandedIn, handedInText, WHO_MAX } from '../../../sim/handed/index.ts';
import { inWords, text } from '../../../sim/input/index.ts';
import type { Issue } from '../../../sim/terms/types.ts';
import { packed } from '../keep/packed.ts';
import type { Outcome } from '../keep/saved.ts';
import type { Session } from '../session.ts';
import { claimedOf } from './claimed.ts';
import { underOf } from './given.ts';

const whoShape = text(WHO_MAX);

/** The run as it is handed in under a name or code; not ok if there is nothing to hand in. */
export function handedIn(session: Session, who: string): Outcome<HandedIn> {
  const issues: Issue[] = [];
  const name = whoShape.read(who.trim(), 'name or code', issues);
  if (name === undefined) return { ok: false, message: `hand in: ${inWords(issues)}` };
  const { base, differences, seed, log, predictions = [] } = session.saved();
  const { given } = session;
  const scenario = JSON.stringify(differences) === '{}' ? base : { base, differences };
  const task = given && { under: underOf(given), answers: given.answers };
  if (given?.ended) return { ok: true, value: { who: name, scenario, seed, ...given.ended, ...task } };
  const claimed = claimedOf(session.store);
  if (!claimed) return { ok: false, message: 'hand in: expected a finished computation, received a run that is still being computed' };
  if (log.length === 0) return { ok: false, message: 'hand in: expected a run in which something was done, received a run without actions' };
  return { ok: true, value: { who: name, scenario, seed, log, predictions, claimed, ...task } };
}

/** Text of a handed-in run for an address, sealed if its faults were hidden, since others may still be looking for them. */
export function encodeHandedIn(run: HandedIn, seal = false): Promise<Outcome<string>> {
  return packed(handedInText(run, 0), seal);
}
