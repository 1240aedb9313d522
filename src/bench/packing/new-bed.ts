import { FAULTS, goesWithBed } from '../../../sim/faults/index.ts';
import type { Fault } from '../../../sim/terms/types.ts';
import { isHidden } from '../../store/keep/mystery.ts';
import type { Json } from '../../store/keep/saved.ts';
import { patched } from '../../store/keep/difference.ts';
import type { Session } from '../../store/session.ts';
import { emptied } from './empty.ts';

// A new bed in the tube on the bench: what was wrong with the bed before it went with that bed.

/** The tube on the bench, emptied, with nothing done yet. */
export async function emptyTube(session: Session): Promise<void> {
  await anotherBed(session, emptied(session.json));
}

/** Begins on another bed, as this JSON has it. Faults of the former bed are taken off, and that is said; hidden ones stay, since they are still to be found. */
export async function anotherBed(session: Session, json: Json): Promise<void> {
  const { faults, mystery } = session;
  const gone = isHidden(mystery) ? [] : faults.filter(goesWithBed);
  const kept = faults.filter((fault) => !gone.includes(fault));
  // Faults are JSON: kinds and numbers.
  const sound = gone.length === 0 ? json : patched(json, { faults: kept as unknown as Json });
  if ((await session.beginOther(sound)) && gone.length > 0) session.say(goneWords(gone, kept));
}

/** "The former bed is out of the tube, and its fault with it: channel. Still imposed: weak acid." */
export function goneWords(gone: readonly Fault[], kept: readonly Fault[]): string {
  const names = (faults: readonly Fault[]): string => faults.map(({ kind }) => FAULTS[kind].label).join(', ');
  const still = kept.length > 0 ? ` Still imposed, as not of that bed: ${names(kept)}.` : '';
  return `The former bed is out of the tube, and its ${gone.length === 1 ? 'fault' : 'faults'} with it: ${names(gone)}.${still}`;
}
