import { html, nothing, type TemplateResult } from 'lit';
import { styled } from '../../ui/styled.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import { fixed, percent } from '../../ui/text/format.ts';
import { amountOf, type Place } from './debrief-numbers.ts';

// Where every mmol of an ion is: one bar, a part a place, told apart by pattern and label as well as by shade.

/** Smaller parts would not be seen in the bar and are only listed, share of it. */
const SHARE_LEAST = 0.002;
/** Smaller amounts stand in the table only, mmol. */
const LISTED_MMOL = 5e-5;
const RECEIVER_PATTERNS = 4;

/** With the decimals of the sentence above; what is there but less is told as less. */
export function shareWords(share: number): string {
  return share > 0 && share < 0.0005 ? `less than ${percent(0.001, 1)}` : percent(share, 1);
}

/** `amounts`: also in mmol, not in per cent alone. */
export function whereBar(places: readonly Place[], ion: IonId, amounts: boolean): TemplateResult {
  const total = places.reduce((sum, place) => sum + amountOf(place, ion), 0);
  if (!(total > 0)) return html`<p>No ${IONS[ion].name} has been poured.</p>`;
  const parts = places.map((place, order) => ({
    place,
    amount: amountOf(place, ion),
    share: amountOf(place, ion) / total,
    pattern: place.kind === 'receiver' ? `r${order % RECEIVER_PATTERNS}` : place.kind,
  }));
  const shown = parts.filter(({ share }) => share >= SHARE_LEAST);
  return html`<figure class="where" ${styled({ '--ion': `var(--line-${ion})` })}>
    <div class="whole" aria-hidden="true">${shown.map(({ share, pattern }) => html`<span class="part ${pattern}" ${styled({ 'flex-grow': String(share) })}></span>`)}</div>
    <figcaption><table>
      <caption class="unseen">${IONS[ion].name} by place</caption>
      <tbody>${parts.map(({ place, amount, share, pattern }) =>
        amount >= LISTED_MMOL
          ? html`<tr><th scope="row"><span class="swatch ${pattern}" aria-hidden="true"></span>${place.label}</th>${amounts ? html`<td>${fixed(amount, 4)} mmol</td>` : nothing}<td>${shareWords(share)}</td></tr>`
          : nothing,
      )}</tbody>
    </table></figcaption>
  </figure>`;
}
