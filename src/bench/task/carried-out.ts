import type { ColumnStore } from '../../store/column-store.ts';
import type { Moment } from '../../store/threads/planner.ts';

/**
 * Whether what was pressed is still being carried out, so that another pour has to wait. A run that merely plays waits for nobody: its
 * liquid may sink into the bed. Nor is there anything to wait for where nothing flows.
 */
export function isCarriedOut({ playing, entry, log }: Pick<ColumnStore, 'playing' | 'entry' | 'log'>, { flow }: Pick<Moment, 'flow'>): boolean {
  return playing && flow > 0 && entry < log.length;
}
