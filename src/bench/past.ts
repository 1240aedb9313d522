import { html } from 'lit';
import { deliveredOf, frameAtTime } from '../../sim/history/index.ts';
import type { ColumnStore } from '../store/column-store.ts';
import { millilitres } from '../ui/text/format.ts';

// Looking back along a run.

/** Says that the present is elsewhere, with the way to it. */
export function past(store: ColumnStore) {
  return html`<p class="past" role="status">Looking back at ${millilitres(store.moment?.delivered_mL ?? 0)} delivered.
      <button type="button" class="primary" @click=${() => store.lookBack(undefined)}>Return to the present</button></p>`;
}

/** Volume delivered by the present, mL, whatever is looked at. */
export function presentVolume({ plan, present, moment }: ColumnStore): number {
  return present === undefined || !plan ? (moment?.delivered_mL ?? 0) : deliveredOf(plan, frameAtTime(plan, present));
}
