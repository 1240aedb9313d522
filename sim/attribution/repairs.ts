import type { Action } from '../terms/types.ts';
import type { PourStep } from './cycles.ts';
import { added, insertedBefore, moved, type Step } from './placed.ts';

// Repairs of a log, one mistake each; every one works on what the others have left.

export type Repair = (steps: readonly Step[]) => Step[];

/** Largest portion that is added, mL. */
const PORTION_ML = 5;

export function without(ids: readonly number[]): Repair {
  return (steps) => steps.filter(({ id }) => !ids.includes(id));
}

/** Changes the actions with these ids, keeping when they are taken. */
export function changed(ids: readonly number[], change: (action: Action) => Action): Repair {
  return (steps) => steps.map((step) => (ids.includes(step.id) ? { ...step, action: change(step.action) } : step));
}

/** Another volume for some pours; all that follows is taken that much later. */
export function rescaled(pours: readonly PourStep[], factor: number): Repair {
  return (steps) =>
    pours.reduce<Step[]>(
      (so, { id }) => {
        const at = so.findIndex((step) => step.id === id);
        const action = so[at]?.action;
        if (action?.do !== 'pour') return so;
        const volume_mL = action.volume_mL * factor;
        return [...so.slice(0, at), { ...so[at], action: { ...action, volume_mL } }, ...moved(so.slice(at + 1), volume_mL - action.volume_mL)];
      },
      [...steps],
    );
}

/** More of a liquid before a step, in portions that the tube holds. */
export function morePoured(liquid: string, volume_mL: number, before: number): Repair {
  return (steps) => {
    const next = steps.find(({ id }) => id === before);
    return next ? insertedBefore(steps, before, portions(liquid, volume_mL, next), volume_mL) : [...steps];
  };
}

/** More of a liquid at the end, let down to a millimetre. */
export function moreAtEnd(liquid: string, volume_mL: number): Repair {
  return (steps) => {
    const last = steps.findLast(({ action }) => action.do !== 'clamp' && action.do !== 'spill');
    const end = last ? steps.indexOf(last) + 1 : steps.length;
    const tail = steps.slice(end);
    const like = tail[0] ?? steps.at(-1);
    if (!like) return [...steps];
    const extra = portions(liquid, volume_mL, { ...like, at_mL: endOf(steps) });
    return [...steps.slice(0, end), ...extra, ...moved(tail, volume_mL)];
  };
}

/** Less of some pours, the last first. */
export function lessPoured(pours: readonly PourStep[], volume_mL: number): Repair {
  return (steps) => {
    let left = volume_mL;
    let so = [...steps];
    for (const pour of [...pours].reverse()) {
      const cut = Math.min(left, pour.action.volume_mL);
      if (cut <= 0) break;
      left -= cut;
      so = pour.action.volume_mL - cut < 1e-9 ? removed(so, pour.id, cut) : rescaled([pour], 1 - cut / pour.action.volume_mL)(so);
    }
    return so;
  };
}

/** A change of receiver taken so much after another step. */
export function receiverAfter(id: number, reference: number, offset_mL: number, label?: string): Repair {
  return (steps) => {
    const anchor = steps.find((step) => step.id === reference);
    const change = steps.find((step) => step.id === id);
    if (!anchor) return [...steps];
    const at_mL = Math.max(0, anchor.at_mL + offset_mL);
    const step = change ?? added({ do: 'receiver', label: label ?? '' }, at_mL, anchor);
    const rest = steps.filter((other) => other !== change);
    const next = rest.findIndex((other) => other.at_mL > at_mL + 1e-9);
    const to = next < 0 ? rest.length : next;
    return [...rest.slice(0, to), { ...step, at_mL }, ...rest.slice(to)];
  };
}

/** A step taken later, when more liquid has run down, to this level; what follows is not taken before it. */
export function postponed(id: number, volume_mL: number, level_cm: number): Repair {
  return (steps) => {
    const at = steps.findIndex((step) => step.id === id);
    return steps.map((step, i) => (i === at ? { ...step, at_mL: step.at_mL + volume_mL, level_cm } : step));
  };
}

function removed(steps: readonly Step[], id: number, volume_mL: number): Step[] {
  const at = steps.findIndex((step) => step.id === id);
  return at < 0 ? [...steps] : [...steps.slice(0, at), ...moved(steps.slice(at + 1), -volume_mL)];
}

function portions(liquid: string, volume_mL: number, like: Step): Step[] {
  const count = Math.ceil(volume_mL / PORTION_ML - 1e-9);
  return Array.from({ length: count }, (_, n) => added({ do: 'pour', liquid, volume_mL: volume_mL / count }, like.at_mL + (n * volume_mL) / count, like));
}

/** Delivered volume when all steps are done. */
function endOf(steps: readonly Step[]): number {
  return steps.reduce((most, { at_mL }) => Math.max(most, at_mL), 0);
}
