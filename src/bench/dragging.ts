import { movedEluent, movedReceiver, type Plan, withReceiverMoved } from '../../sim/history/index.ts';
import type { Log } from '../../sim/terms/types.ts';
import type { ColumnStore } from '../store/column-store.ts';
import { isOver } from '../store/over.ts';
import { tracked } from '../store/tracked.ts';

/** A move of a handle on the volume axis. */
export interface HandleMove {
  readonly entry: number;
  readonly kind: 'eluent' | 'receiver';
  readonly delivered_mL: number;
  readonly phase: 'move' | 'drop' | 'cancel';
}

/** Handles of the figure on their way: a change of eluent is tried out by the model, a change of receiver needs none. */
export class Dragging {
  /** A receiver being moved: the run as it would be. */
  @tracked moved: Plan | undefined;

  take(store: ColumnStore, { entry, kind, delivered_mL, phase }: HandleMove): void {
    const { plan } = store;
    if (!plan) return;
    this.moved = undefined;
    if (phase === 'cancel') return void store.dropPreview();
    if (phase === 'drop') return void dropped(store, (kind === 'receiver' ? movedReceiver : movedEluent)(plan.log, plan.events, entry, delivered_mL));
    if (kind === 'receiver') this.moved = withReceiverMoved(plan, entry, delivered_mL);
    else void store.tryOut(movedEluent(plan.log, plan.events, entry, delivered_mL));
  }
}

/** A run that was over is over again with its handle elsewhere. */
async function dropped(store: ColumnStore, log: Log): Promise<void> {
  const over = isOver(store);
  await store.replace(log, store.now);
  if (over) await store.seek(store.plan?.logEnd.time_min ?? store.now);
}
