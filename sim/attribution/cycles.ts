import { eluents, sampleLiquids } from '../input/index.ts';
import type { Action, Scenario } from '../terms/types.ts';
import type { Step } from './placed.ts';

// A log read as cycles of conditioning, load, wash and elution, so that two logs can be compared part by part.

export type PourStep = Step & { readonly action: Extract<Action, { do: 'pour' }> };
export type ReceiverStep = Step & { readonly action: Extract<Action, { do: 'receiver' }> };

export interface Cycle {
  readonly conditioning: readonly PourStep[];
  readonly load: readonly PourStep[];
  /** Pours between load and elution, of acid and of what should have been acid. */
  readonly wash: readonly PourStep[];
  readonly elution: readonly PourStep[];
  /** Change of receiver nearest to the beginning of the elution. */
  readonly receiver: ReceiverStep | undefined;
}

/** The cycles of a log, one per load. */
export function cyclesOf(scenario: Scenario, steps: readonly Step[]): Cycle[] {
  const samples = sampleLiquids(scenario);
  const { acid, water } = eluents(scenario);
  const pours = steps.filter((step): step is PourStep => step.action.do === 'pour');
  const groups = loadsOf(pours, samples);
  let conditioning = lastAcid(pours.slice(0, groups[0]?.from ?? 0), acid, water);
  return groups.map(({ from, to }, g) => {
    const next = groups[g + 1]?.from ?? pours.length;
    const between = pours.slice(to, next);
    const kept = g + 1 < groups.length ? lastAcid(between, acid, water) : [];
    const own = between.slice(0, between.length - kept.length);
    const lastWash = own.findLastIndex(({ action }) => action.liquid === acid);
    const cycle = {
      conditioning,
      load: pours.slice(from, to),
      wash: own.slice(0, lastWash + 1),
      elution: own.slice(lastWash + 1).filter(({ action }) => action.liquid === water),
    };
    conditioning = kept;
    return { ...cycle, receiver: nearestReceiver(steps, cycle, pours[next]) };
  });
}

export function volumeOf(pours: readonly PourStep[]): number {
  return pours.reduce((sum, { action }) => sum + action.volume_mL, 0);
}

function loadsOf(pours: readonly PourStep[], samples: readonly string[]): { from: number; to: number }[] {
  const groups: { from: number; to: number }[] = [];
  pours.forEach(({ action }, i) => {
    if (!samples.includes(action.liquid)) return;
    const last = groups.at(-1);
    if (last?.to === i) last.to = i + 1;
    else groups.push({ from: i, to: i + 1 });
  });
  return groups;
}

/** The acid poured since the last water: what conditions the bed for the next load. */
function lastAcid(pours: readonly PourStep[], acid: string | undefined, water: string | undefined): PourStep[] {
  const from = pours.findLastIndex(({ action }) => action.liquid === water) + 1;
  return pours.slice(from).filter(({ action }) => action.liquid === acid);
}

function nearestReceiver(steps: readonly Step[], cycle: Pick<Cycle, 'load' | 'elution'>, next: PourStep | undefined): ReceiverStep | undefined {
  const start = cycle.elution[0]?.at_mL;
  const [from, to] = [steps.findIndex(({ id }) => id === cycle.load[0].id), next ? steps.findIndex(({ id }) => id === next.id) : steps.length];
  const changes = steps.slice(from, to).filter((step): step is ReceiverStep => step.action.do === 'receiver');
  if (start === undefined) return changes.at(-1);
  return changes.reduce<ReceiverStep | undefined>(
    (best, step) => (!best || Math.abs(step.at_mL - start) < Math.abs(best.at_mL - start) ? step : best),
    undefined,
  );
}
