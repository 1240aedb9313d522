// When the actions of the log are due: what a wait waits for, and how far a step may go until then.
import { AT, frontDepth } from '../column/index.ts';
import { flowInto, levelOf } from '../flow/index.ts';
import { issuesOf } from '../input/index.ts';
import { RUN_MAX_MIN } from '../terms/limits.ts';
import type { Action, Issue, Until } from '../terms/types.ts';
import { apply } from './apply.ts';
import { leftOut } from './left-out.ts';
import { note, type Run } from './state.ts';
import type { Limits } from './step.ts';

/** Takes every action that is due now, and remembers when a wait began. */
export function takeDue(run: Run): void {
  const s = run.bed.scalar;
  while (s[AT.entry] < run.log.length) {
    const action = run.log[s[AT.entry]];
    const [wrong] = wrongWith(run, action);
    if (!wrong && !isDue(run, action)) return;
    if (action.do === 'wait' && !wrong) {
      if (s[AT.entryTime] < 0) {
        s[AT.entryTime] = s[AT.time];
        s[AT.entryDelivered] = s[AT.delivered];
      }
      if (!isOver(run, action.until)) return;
    }
    const skipped = wrong ? undefined : leftOut(run, action);
    const refused = wrong ?? (action.do === 'wait' || skipped ? undefined : apply(run, action));
    const what = skipped === undefined ? { action, ...(refused && { refused }) } : { note: skipped };
    run.events.push({ entry: s[AT.entry], time_min: s[AT.time], delivered_mL: s[AT.delivered], ...what });
    s[AT.entry] += 1;
    s[AT.entryTime] = -1;
    s[AT.changed] = s[AT.time];
  }
}

/** What is wrong with an action by itself; looked at once. */
function wrongWith(run: Run, action: Action): readonly Issue[] {
  const known = run.checked.get(action);
  if (known) return known;
  const found = issuesOf(action, run.scenario);
  run.checked.set(action, found);
  return found;
}

function isDue(run: Run, action: Action): boolean {
  const s = run.bed.scalar;
  if (action.at_min !== undefined) return s[AT.time] >= action.at_min;
  if (action.at_mL !== undefined) return s[AT.delivered] >= action.at_mL || (!flows(run) && gaveUp(run, `${action.at_mL} mL delivered`));
  return true;
}

function isOver(run: Run, until: Until): boolean {
  if (isReached(run, until)) return true;
  return !('time_min' in until || 'elapsed_min' in until) && !flows(run) && gaveUp(run, inWordsOf(until));
}

function isReached(run: Run, until: Until): boolean {
  const s = run.bed.scalar;
  if ('time_min' in until) return s[AT.time] >= until.time_min;
  if ('elapsed_min' in until) return s[AT.time] >= s[AT.entryTime] + until.elapsed_min;
  if ('delivered_mL' in until) return s[AT.delivered] >= until.delivered_mL;
  if ('more_mL' in until) return s[AT.delivered] >= s[AT.entryDelivered] + until.more_mL;
  if ('liquid_mm' in until) return s[AT.headVolume] <= headFor(run, until.liquid_mm) + 1e-9;
  return frontDepth(run.bed, run.column, until.ion, until.edge) >= until.depth_cm;
}

/** What a wait that only flow can end waits for. */
function inWordsOf(until: Exclude<Until, { time_min: number } | { elapsed_min: number }>): string {
  if ('delivered_mL' in until) return `${until.delivered_mL} mL delivered`;
  if ('more_mL' in until) return `${until.more_mL} mL more`;
  if ('liquid_mm' in until) return `liquid ${until.liquid_mm} mm above the bed`;
  return `${until.ion} ${until.edge} edge at ${until.depth_cm} cm`;
}

/** A wait for something that only flow can bring ends when nothing flows. */
function gaveUp(run: Run, wanted: string): true {
  const why = run.bed.scalar[AT.clampOpen] <= 0 ? 'the clamp is shut' : 'the liquid is at the bed top';
  note(run, `wait ended: ${why}; waited for ${wanted}`);
  return true;
}

function headFor(run: Run, mm: number): number {
  return (run.column.section * mm) / 10;
}

function flows({ bed, column }: Run): boolean {
  return flowInto(bed, column, levelOf(bed, column)) > 0;
}

/** The next thing the log waits for, as limits of a step. */
export function limitsOf(run: Run, limits: Limits): void {
  const s = run.bed.scalar;
  limits.time = RUN_MAX_MIN;
  limits.delivered = Number.POSITIVE_INFINITY;
  limits.head = 0;
  if (s[AT.entry] >= run.log.length) return;
  const action = run.log[s[AT.entry]];
  if (action.at_min !== undefined && s[AT.time] < action.at_min) limits.time = action.at_min;
  else if (action.at_mL !== undefined && s[AT.delivered] < action.at_mL) limits.delivered = action.at_mL;
  else if (action.do === 'wait') limitsOfWait(run, action.until, limits);
}

function limitsOfWait(run: Run, until: Until, limits: Limits): void {
  const s = run.bed.scalar;
  if ('time_min' in until) limits.time = until.time_min;
  else if ('elapsed_min' in until) limits.time = s[AT.entryTime] + until.elapsed_min;
  else if ('delivered_mL' in until) limits.delivered = until.delivered_mL;
  else if ('more_mL' in until) limits.delivered = s[AT.entryDelivered] + until.more_mL;
  else if ('liquid_mm' in until) limits.head = Math.min(headFor(run, until.liquid_mm), s[AT.headVolume]);
}
