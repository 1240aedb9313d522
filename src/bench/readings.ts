import { html, nothing } from 'lit';
import type { ColumnStore } from '../store/column-store.ts';
import { dropAt } from '../store/drop.ts';
import type { Moment } from '../store/threads/planner.ts';
import { duration, fixed, millilitres } from '../ui/text/format.ts';

/** What a bench shows, name and value: cylinder, drops, ruler, clock. */
export function readingsOf(store: ColumnStore, moment: Moment): (readonly [name: string, value: string])[] {
  const drops = store.scenario && moment.flow > 0 ? `${Math.round(moment.flow / dropAt(store.scenario, moment))} / min` : 'none';
  return [
    ['delivered', millilitres(moment.delivered_mL)],
    ['drops', drops],
    ['above the bed', moment.level_cm > 0 ? `${fixed(moment.level_cm * 10, 0)} mm` : 'none'],
    ['clock', duration(store.now)],
  ];
}

/** The same in one line, for a screen that has no room for the list. */
export function atAGlance(store: ColumnStore) {
  const { moment } = store;
  if (!moment) return nothing;
  const [delivered, drops, above, clock] = readingsOf(store, moment).map(([, value]) => value);
  return html`${delivered} · drops ${drops} · ${above} above · ${clock}`;
}
