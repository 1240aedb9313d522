import { html, nothing } from 'lit';
import type { FractionTargets } from '../../sim/history/index.ts';
import type { ColumnStore } from '../store/column-store.ts';
import type { dropAt } from '../store/drop.ts';
import { tracked } from '../store/tracked.ts';
import type { Moment } from '../store/threads/planner.ts';
import { duration, fixed, millilitres, significant } from '../ui/text/format.ts';
import { askedBriefly } from '../ui/text/task/asked-words.ts';

/** How large a drop is: fetched when the first one falls. */
class Drops {
  @tracked private size: typeof dropAt | undefined;
  private asked = false;

  get sizeAt(): typeof dropAt | undefined {
    if (!this.asked) {
      this.asked = true;
      import('../store/drop.ts').then(
        (drop) => (this.size = drop.dropAt),
        () => (this.asked = false),
      );
    }
    return this.size;
  }
}

const DROPS = new Drops();

/** What a bench shows, name and value: cylinder, drops, ruler, clock. */
export function readingsOf(store: ColumnStore, moment: Moment): (readonly [name: string, value: string])[] {
  return [
    ['delivered', millilitres(moment.delivered_mL)],
    ['drops', dripping(store, moment)],
    ['above the bed', moment.level_cm > 0 ? `${fixed(moment.level_cm * 10, 0)} mm` : 'none'],
    ['clock', duration(store.now)],
  ];
}

/** While the clock stands still nothing drips, however far the clamp is open. */
function dripping({ scenario, playing }: ColumnStore, moment: Moment): string {
  if (!scenario || moment.flow <= 0) return 'none';
  if (!playing) return 'paused';
  const drop_mL = DROPS.sizeAt?.(scenario, moment);
  return drop_mL === undefined ? 'counting' : `${significant(moment.flow / drop_mL, 2)} / min`;
}

/** The same in one line, for a screen that has no room for the list; before anything has dripped, what is asked for. */
export function atAGlance(store: ColumnStore, targets: FractionTargets | undefined) {
  const { moment } = store;
  if (!moment) return nothing;
  if (targets && moment.delivered_mL === 0) return html`<span>${askedBriefly(targets)}</span>`;
  const [delivered, drops, above, clock] = readingsOf(store, moment).map(([, value]) => value);
  return html`${delivered} · drops ${drops} · ${moment.ails.dry ? 'bed dry' : `${above} above`} · ${clock}`;
}
