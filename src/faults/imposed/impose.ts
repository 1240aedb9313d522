import { imposed, sameLog } from '../../../sim/faults/index.ts';
import { isBedFault } from '../../../sim/flaws/index.ts';
import { logWithActionsAt } from '../../../sim/history/index.ts';
import { readScenario } from '../../../sim/input/index.ts';
import type { Action, Fault, Issue } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { patched } from '../../store/keep/difference.ts';
import type { Json } from '../../store/keep/saved.ts';
import type { Session } from '../../store/session.ts';

// What the instructor does to a run: faults from the start, faults at this moment, and taking them away again.

/** A fault that is imposed, and its place: in the scenario, or in the log at a moment of the run. */
export interface Imposed {
  readonly fault: Fault;
  /** Index in the list of the scenario, or in the log. */
  readonly at: number;
  readonly from: 'start' | 'log';
  readonly time_min: number;
  readonly delivered_mL: number;
}

/** Everything imposed on a run, those from the start first. */
export function imposedOn(session: Session): readonly Imposed[] {
  const { faults, store } = session;
  const start = faults.map((fault, at): Imposed => ({ fault, at, from: 'start', time_min: 0, delivered_mL: 0 }));
  const during = store.log.flatMap((action, at): Imposed[] => {
    if (action.do !== 'fault') return [];
    const event = store.plan?.events.find(({ entry }) => entry === at);
    return event?.refused ? [] : [{ fault: action.fault, at, from: 'log', time_min: event?.time_min ?? 0, delivered_mL: event?.delivered_mL ?? 0 }];
  });
  return [...start, ...during];
}

/** Whether a fault can come in the middle of a run: only one of the bed can. */
export function canComeNow({ kind }: Fault): boolean {
  return isBedFault(kind) && kind !== 'carry-over';
}

/** Imposes a fault from the start, in place of one of its kind. False with `session.issues` when the scenario refuses it. */
export function imposeFromStart(session: Session, fault: Fault): Promise<boolean> {
  return withFaults(session, [...session.faults.filter(({ kind }) => kind !== fault.kind), fault]);
}

/** Imposes a fault of the bed at the moment shown; later actions of the log stay. */
export function imposeNow(store: ColumnStore, fault: Fault): Promise<void> {
  const { plan, moment } = store;
  if (!plan || !moment) return Promise.resolve();
  return store.replace(logWithActionsAt(plan, moment, [{ do: 'fault', fault }]), store.now);
}

/** Takes actions at the moment shown, all or none; later actions of the log stay. Resolves to the first refusal. */
export async function takeAtOnce(store: ColumnStore, actions: readonly Action[]): Promise<Issue | undefined> {
  const { plan, moment } = store;
  if (!plan || !moment) return undefined;
  const { entry } = moment;
  await store.replace(logWithActionsAt(plan, moment, actions), store.now);
  const refused = store.plan?.events.find((event) => event.refused && event.entry >= entry && event.entry < entry + actions.length)?.refused;
  if (refused) await store.undo();
  return refused;
}

export async function takeAway(session: Session, { from, at }: Imposed): Promise<void> {
  const { store, faults } = session;
  if (from === 'log')
    await store.replace(
      store.log.filter((_, i) => i !== at),
      store.now,
    );
  else
    await withFaults(
      session,
      faults.filter((_, i) => i !== at),
    );
}

/** No fault from the start and none in the log. */
export async function takeAllAway(session: Session): Promise<void> {
  const { store } = session;
  const plain = store.log.filter((action) => action.do !== 'fault');
  if (plain.length < store.log.length) await store.replace(plain, store.now);
  if (session.faults.length > 0) await withFaults(session, []);
}

/** Keeps the log of the run if it is more than the procedure; otherwise takes the procedure as these faults change it. */
async function withFaults(session: Session, faults: readonly Fault[]): Promise<boolean> {
  const { store, json, base } = session;
  const { log, now, scenario } = store;
  const plain = log.filter((action) => action.do !== 'fault');
  // Faults are JSON: kinds and numbers.
  const next = patched(json, { faults: faults as unknown as Json });
  const read = readScenario(next, base);
  const untouched = plain.length === 0 || (scenario !== undefined && sameLog(plain, scenario.procedure));
  const kept = log.some((action) => action.do === 'fault') || !untouched;
  return session.change(next, kept || !read.ok ? log : imposed(read.scenario).procedure, now);
}
