import type { ColumnStore } from '../column-store.ts';

/** Whether `playProcedure` has something to run and is not refused: what was done in a try that counts stays. */
export function mayRunProcedure({ scenario, fixed, log }: Pick<ColumnStore, 'scenario' | 'fixed' | 'log'>): boolean {
  return scenario !== undefined && scenario.procedure.length > 0 && !(fixed && log.length > 0);
}
