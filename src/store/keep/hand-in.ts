import { handedInText, WHO_MAX } from '../../../sim/handed/index.ts';
import { scenarioJson } from '../shipped/catalog.ts';
import type { Session } from '../session.ts';
import { patched } from './difference.ts';
import type { Outcome } from './saved.ts';

/** Text of the run as it is handed in under a name or code; not ok while there is nothing to hand in. */
export async function handedIn(session: Session, who: string): Promise<Outcome<string>> {
  const { plan, moment, busy, preview } = session.store;
  const { base, differences, seed, log, predictions = [] } = session.saved();
  if (who.trim() === '') return { ok: false, message: 'hand in: expected a name or code, received none' };
  if (who.trim().length > WHO_MAX)
    return { ok: false, message: `hand in: expected a name or code of at most ${WHO_MAX} characters, received ${who.trim().length}` };
  if (!plan || !moment || preview || busy) return { ok: false, message: 'hand in: expected a run at rest, received one that is still being worked out' };
  if (log.length === 0) return { ok: false, message: 'hand in: expected a run in which something was done, received an empty log' };
  // What was done counts to its end, even if the reader looks at an earlier moment.
  const { time_min, delivered_mL, receivers } = moment.time_min >= plan.logEnd.time_min ? moment.results : plan.results;
  const shipped = (await scenarioJson(base)) ?? {};
  const scenario = JSON.stringify(differences) === '{}' ? base : patched(shipped, differences);
  return { ok: true, value: handedInText({ who: who.trim(), scenario, seed, log, predictions, claimed: { time_min, delivered_mL, receivers } }) };
}
