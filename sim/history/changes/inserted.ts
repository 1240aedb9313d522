import type { Action, Log } from '../../terms/types.ts';
import type { Plan } from '../plan.ts';

/** The log with actions at this moment of its run; a wait that is under way continues after it for the rest. */
export function logWithActionsAt(
  plan: Pick<Plan, 'log' | 'events'>,
  moment: { readonly time_min: number; readonly delivered_mL: number; readonly entry: number },
  actions: readonly Action[],
): Log {
  const { log, events } = plan;
  const { time_min, delivered_mL, entry } = moment;
  const since = events.findLast((event) => event.entry >= 0 && event.entry < entry);
  const ahead = log.slice(entry);
  const [next, ...rest] = ahead;
  const going =
    next?.do === 'wait' && next.at_min === undefined && next.at_mL === undefined
      ? [{ ...next, until: leftOf(next.until, time_min - (since?.time_min ?? 0), delivered_mL - (since?.delivered_mL ?? 0)) }, ...rest]
      : ahead;
  // The same actions with a time.
  const timed = actions.map((action) => ({ ...action, at_min: time_min }) as Action);
  return [...log.slice(0, entry), ...timed, ...going];
}

type Wait = Extract<Action, { do: 'wait' }>;

function leftOf(until: Wait['until'], waited_min: number, delivered_mL: number): Wait['until'] {
  if ('more_mL' in until) return { more_mL: Math.max(0, until.more_mL - delivered_mL) };
  if ('elapsed_min' in until) return { elapsed_min: Math.max(0, until.elapsed_min - waited_min) };
  return until;
}
