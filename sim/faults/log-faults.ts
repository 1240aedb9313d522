import type { Action, Fault, Log, Scenario } from '../terms/types.ts';
import type { FaultKind } from '../terms/fault-kinds.ts';
import { eluents, LABEL_MAX, sampleLiquids } from '../input/index.ts';
import { POUR_MAX } from '../terms/limits.ts';
import { endOf, inserted, shiftedReceiver } from './receiver-shift.ts';

// Operator mistakes as changes of the log. Each takes the log of a careful operator and returns that of a careless one.

type Pour = Extract<Action, { do: 'pour' }>;
type LogFault = (scenario: Scenario, log: Log, severity: number, fault: Fault) => Log;

/** What severity 1 stands for: mm of liquid above the bed, mL, share of a vessel. All chosen. */
export const HEAD_MAX_MM = 30;
export const SHIFT_MAX_ML = 6;
export const SPILL_MAX = 0.5;
/** Largest pour that counts as a rinse of the wall, mL. */
const RINSE_MAX_ML = 1.5;

export const LOG_FAULTS: Readonly<Partial<Record<FaultKind, LogFault>>> = {
  'deep-head': (scenario, log, severity) => withWaitsBeforeSample(scenario, log, severity * HEAD_MAX_MM),
  'water-rinse': (scenario, log, severity) => poured(log, rinsesOf(scenario, log), (pour) => split(pour, severity, eluents(scenario).water)),
  'short-conditioning': (scenario, log, severity) => poured(log, conditioningOf(scenario, log), (pour) => scaled(pour, 1 - severity)),
  'wrong-bottle': (scenario, log, severity) => poured(log, [longestWash(scenario, log)], (pour) => split(pour, severity, eluents(scenario).water).reverse()),
  'load-volume': (scenario, log, severity) => poured(log, sampleEntries(scenario, log), (pour) => scaled(pour, 1 + severity)),
  'receiver-early': (scenario, log, severity) => shiftedReceiver(scenario, log, -severity * SHIFT_MAX_ML),
  'receiver-late': (scenario, log, severity) => shiftedReceiver(scenario, log, severity * SHIFT_MAX_ML),
  'stopped-early': (scenario, log, severity) => cutEnd(scenario, log, severity),
  'fast-flow': (_, log, severity) =>
    severity > 0 ? log.map((action) => (action.do === 'clamp' && action.open_percent > 0 ? { ...action, open_percent: 100 } : action)) : log,
  spill: (_, log, severity) => inserted(log, endOf(log), { do: 'spill', share: severity * SPILL_MAX }),
  'no-recondition': secondCycle,
};

export function sampleEntries(scenario: Scenario, log: Log): number[] {
  const samples = sampleLiquids(scenario);
  return entries(log, (pour) => samples.includes(pour.liquid));
}

/** Pours of acid before the first sample. */
export function conditioningOf(scenario: Scenario, log: Log): number[] {
  const { acid } = eluents(scenario);
  const first = sampleEntries(scenario, log)[0] ?? 0;
  return entries(log, (pour) => pour.liquid === acid).filter((i) => i < first);
}

/** Pours of the releasing eluent after the last sample. */
export function elutionOf(scenario: Scenario, log: Log): number[] {
  const { water } = eluents(scenario);
  const last = sampleEntries(scenario, log).at(-1) ?? 0;
  return entries(log, (pour) => pour.liquid === water).filter((i) => i > last);
}

/** Small pours of acid straight after the last sample; at least the first. */
function rinsesOf(scenario: Scenario, log: Log): number[] {
  const wash = washOf(scenario, log);
  const small = wash.findIndex((i) => volumeAt(log, i) > RINSE_MAX_ML);
  return wash.slice(0, Math.max(1, small < 0 ? wash.length : small));
}

function washOf(scenario: Scenario, log: Log): number[] {
  const { acid } = eluents(scenario);
  const last = sampleEntries(scenario, log).at(-1) ?? 0;
  return entries(log, (pour) => pour.liquid === acid).filter((i) => i > last);
}

function longestWash(scenario: Scenario, log: Log): number {
  return washOf(scenario, log).reduce((best, i) => (best < 0 || volumeAt(log, i) > volumeAt(log, best) ? i : best), -1);
}

function entries(log: Log, wanted: (pour: Pour) => boolean): number[] {
  return log.flatMap((action, i) => (action.do === 'pour' && wanted(action) ? [i] : []));
}

function volumeAt(log: Log, entry: number): number {
  const action = log[entry];
  return action?.do === 'pour' ? action.volume_mL : 0;
}

/** Replaces the pours at these entries. */
function poured(log: Log, at: readonly number[], change: (pour: Pour) => Pour[]): Log {
  return log.flatMap((action, i): Action[] => (action.do === 'pour' && at.includes(i) ? change(action) : [action]));
}

function scaled(pour: Pour, factor: number): Pour[] {
  return factor > 1e-9 ? [{ ...pour, volume_mL: Math.min(POUR_MAX, pour.volume_mL * factor) }] : [];
}

/** A pour of which a share comes from another bottle. */
function split(pour: Pour, share: number, other: string | undefined): Pour[] {
  if (other === undefined || share <= 0) return [pour];
  const { at_min: _min, at_mL: _mL, ...plain } = pour;
  return [...scaled(pour, 1 - share), ...scaled(share < 1 ? plain : pour, share).map((part) => ({ ...part, liquid: other }))];
}

function withWaitsBeforeSample(scenario: Scenario, log: Log, mm: number): Log {
  const samples = sampleEntries(scenario, log);
  return log.map((action, i) =>
    action.do === 'wait' && 'liquid_mm' in action.until && samples.includes(i + 1)
      ? { ...action, until: { liquid_mm: Math.max(action.until.liquid_mm, mm) } }
      : action,
  );
}

/** Less of the releasing eluent, from the end; what was waited for afterwards is still waited for. */
function cutEnd(scenario: Scenario, log: Log, severity: number): Log {
  const elution = elutionOf(scenario, log);
  let less = severity * elution.reduce((sum, i) => sum + volumeAt(log, i), 0);
  const left = new Map<number, number>();
  for (const i of [...elution].reverse()) {
    const cut = Math.min(less, volumeAt(log, i));
    left.set(i, volumeAt(log, i) - cut);
    less -= cut;
  }
  return log.flatMap((action, i): Action[] =>
    action.do === 'pour' && left.has(i) ? ((left.get(i) ?? 0) > 1e-9 ? [{ ...action, volume_mL: left.get(i) ?? 0 }] : []) : [action],
  );
}

/** Added to the name of a receiver used again. */
const SECOND = ', second';

/** A second aliquot on the same bed; severity is the share of its conditioning acid that is saved. */
function secondCycle(scenario: Scenario, log: Log, severity: number): Log {
  if (log.some((action) => action.at_min !== undefined || action.at_mL !== undefined)) return log;
  const again = log.map(
    (action): Action => (action.do === 'receiver' ? { ...action, label: `${action.label.slice(0, LABEL_MAX - SECOND.length)}${SECOND}` } : action),
  );
  return [...log, ...poured(again, conditioningOf(scenario, log), (pour) => scaled(pour, 1 - severity))];
}
