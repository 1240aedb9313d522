import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { IONS } from '../../sim/ions.ts';
import type { Moment } from '../store/planner.ts';
import type { ColumnStore } from '../store/column-store.ts';
import { Watch } from '../store/watch.ts';
import { duration, fixed, millilitres, molarity } from '../ui/format.ts';
import '../ui/readout.ts';
import '../ui/table.ts';

/** What the column shows at this moment, and where every ion is. */
@customElement('bf-now')
export class NowPanel extends LitElement {
  static override styles = css`
    :host { display: grid; gap: var(--gap); }
  `;

  @property({ attribute: false }) store: ColumnStore | undefined;
  private readonly watch = new Watch(this);

  override willUpdate() {
    this.watch.follow(this.store);
  }

  override render() {
    const { store } = this;
    if (!store?.moment || !store.scenario) return nothing;
    return html`
      <bf-readout heading="Now" .readings=${readingsOf(store, store.moment)}></bf-readout>
      <bf-table caption="Where it is, mmol" .columns=${columnsOf(store)} .rows=${rowsOf(store, store.moment)}></bf-table>`;
  }
}

function readingsOf(store: ColumnStore, moment: Moment) {
  const drop = store.scenario?.values['column.drop_mL'] ?? 0.05;
  const last = moment.tip.length / (store.plan?.components ?? 1);
  return [
    { label: 'delivered', value: millilitres(moment.delivered_mL) },
    { label: 'flow', value: `${fixed(moment.flow, 2)} mL/min`, note: `${Math.round(moment.flow / drop)} drops/min` },
    { label: 'liquid above the bed', value: moment.level_cm > 0 ? `${fixed(moment.level_cm * 10, 0)} mm` : 'at the bed top' },
    { label: 'leaving now', value: `${molarity(moment.tip[last - 1] ?? 0, 2)} HCl` },
    { label: 'model time', value: duration(store.now) },
  ];
}

function columnsOf(store: ColumnStore) {
  const ions = store.scenario?.ions ?? [];
  return [
    { key: 'place', label: 'place' },
    { key: 'volume', label: 'volume', unit: 'mL', show: (value: number) => fixed(value, 1) },
    ...ions.map((ion) => ({ key: ion, label: IONS[ion].symbol, unit: 'mmol', show: (value: number) => fixed(value, 3) })),
    { key: 'HCl', label: 'HCl', unit: 'mmol', show: (value: number) => fixed(value, 1) },
  ];
}

function rowsOf(store: ColumnStore, moment: Moment) {
  const { results } = moment;
  const ions = store.scenario?.ions ?? [];
  const row = (place: string, volume: number | undefined, amounts: Readonly<Record<string, unknown>>) => ({
    place,
    volume,
    ...Object.fromEntries(ions.map((ion) => [ion, Number(amounts[`${ion}_mmol`] ?? 0)])),
    HCl: Number(amounts['HCl_mmol'] ?? 0),
  });
  return [
    row('above the bed', moment.headVolume, results.inHead),
    row('on the bed', undefined, results.onBed),
    row('below the bed', undefined, results.inTip),
    ...results.receivers.map((receiver) => row(receiver.label, receiver.volume_mL, receiver)),
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-now': NowPanel;
  }
}
