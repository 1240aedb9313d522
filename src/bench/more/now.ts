import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { dropAt } from '../../store/drop.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import type { Moment } from '../../store/threads/planner.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import type { Session } from '../../store/session.ts';
import { LiveElement } from '../../store/live-element.ts';
import { duration, fixed, millilitres, molarity } from '../../ui/text/format.ts';
import { amountOf, placesOf } from '../debrief/debrief-numbers.ts';
import { amountsAsked } from '../../ui/text/amounts-asked.ts';
import '../../ui/readout.ts';

/** Places that hold less than this of everything are left out, mmol. */
const NOTHING_MMOL = 5e-4;
/** Acid below which drops are called free of it, mol/L. */
const NO_ACID_M = 0.005;

/** What the column shows at this moment, and where every ion is. */
@customElement('bf-now')
export class NowPanel extends LiveElement {
  static override styles = css`
    :host { display: grid; gap: var(--gap); min-width: 0; }
    table { width: 100%; border-collapse: collapse; font-size: var(--text-small); }
    caption { text-align: left; font-weight: 600; font-size: 1rem; padding-bottom: 0.125rem; }
    th, td { padding: 0.1em 0 0.1em 0.5em; text-align: right; font-weight: 400; white-space: nowrap; }
    th:first-child { text-align: left; padding-left: 0; white-space: normal; overflow-wrap: anywhere; }
    thead th { color: var(--soft); }
  `;

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { store, workUp } = this.session ?? {};
    if (!workUp || !store?.moment || !store.scenario) return nothing;
    return html`
      <bf-readout heading="Now" .readings=${readingsOf(store, store.moment)}></bf-readout>
      ${workUp.showsAmounts ? this.where(store, store.moment) : html`<div>${amountsAsked(workUp.askForAmounts)}</div>`}`;
  }

  private where({ scenario }: ColumnStore, { results }: Moment) {
    const ions = scenario?.ions ?? [];
    const places = placesOf(results).filter(
      (place) => place.kind === 'receiver' || [...ions, 'HCl' as const].some((component) => amountOf(place, component) > NOTHING_MMOL),
    );
    return html`<table>
      <caption>Where it is, mmol</caption>
      <thead><tr><td></td>${ions.map((ion) => html`<th scope="col">${IONS[ion].symbol}</th>`)}<th scope="col">HCl</th></tr></thead>
      <tbody>${places.map((place) => html`<tr><th scope="row">${place.label}</th>${ions.map((ion) => html`<td>${fixed(amountOf(place, ion), 3)}</td>`)}<td>${fixed(amountOf(place, 'HCl'), 1)}</td></tr>`)}</tbody>
    </table>`;
  }
}

function readingsOf(store: ColumnStore, moment: Moment) {
  const drop = store.scenario ? dropAt(store.scenario, moment) : Number.POSITIVE_INFINITY;
  const acid_M = moment.tip[moment.tip.length / (store.plan?.components ?? 1) - 1] ?? 0;
  return [
    { label: 'delivered', value: millilitres(moment.delivered_mL) },
    {
      label: 'flow',
      value:
        moment.flow > 0 ? `${fixed(moment.flow, 2)} mL/min, ${Math.round(moment.flow / drop)} drops/min${store.playing ? '' : ' when it last ran'}` : 'none',
    },
    { label: 'liquid above the bed', value: moment.level_cm > 0 ? `${fixed(moment.level_cm * 10, 0)} mm` : 'at the bed top' },
    { label: 'at the tip', value: acid_M < NO_ACID_M ? 'no HCl' : `${molarity(acid_M, 2)} HCl` },
    { label: 'model time', value: duration(store.now) },
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-now': NowPanel;
  }
}
