import { firstReceiver } from '../../sim/teach/index.ts';
import type { ColumnStore } from '../store/column-store.ts';

/** The receiver that stands under the tip before any has been put there. */
const UNNAMED = 0;

/** Labels by slot: those of the run and then those of the procedure, in order of use. */
export function receiversOf({ scenario, plan }: ColumnStore): string[] {
  const planned = (scenario?.procedure ?? []).flatMap((action) => (action.do === 'receiver' ? [action.label] : []));
  const labels = [...(plan?.labels ?? [])];
  const first = scenario && firstReceiver(scenario);
  if (first !== undefined && isUnnamed({ plan })) labels[UNNAMED] = first;
  return [...new Set([...labels, ...planned])];
}

/** Whether no receiver was named yet and nothing has dripped. */
export function isUnnamed({ plan }: Pick<ColumnStore, 'plan'>): boolean {
  return !plan?.events.some(({ action, refused, delivered_mL }) => !refused && (action?.do === 'receiver' || delivered_mL > 0));
}

export function underTip(store: ColumnStore): string {
  return receiversOf(store)[store.moment?.receiver ?? 0] ?? '';
}
