import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Spread } from '../../sim/report/index.ts';
import type { OutlierTest, Summary } from '../../sim/statistics/index.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { KEPT_MAX } from '../store/keep/work-up.ts';
import type { Row } from '../ui/text/csv.ts';
import { fixed, percent, significant, withUnit } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { KEPT_COLUMNS, keptRow } from './kept-rows.ts';
import {
  budgetPercent,
  comparedWords,
  type Reported,
  reportedOf,
  reportWords,
  scatters,
  sourceOf,
  SPREAD_WORDS,
  togetherWords,
  type Whose,
} from './reported.ts';
import '../ui/readout.ts';
import '../ui/segmented.ts';
import '../ui/table.ts';

const BUDGET = [
  { key: 'quantity', label: 'quantity' },
  { key: 'value', label: 'value' },
  { key: 'half', label: 'half-width' },
  { key: 'relative', label: 'relative', unit: '%', show: (value: number) => fixed(value, 3) },
  { key: 'share', label: 'share of the square', unit: '%', show: (value: number) => fixed(value, 0) },
];
const SPREADS: readonly { value: Spread; label: string }[] = [
  { value: 'triangular', label: 'a/√6, triangular' },
  { value: 'rectangular', label: 'a/√3, rectangular' },
  { value: 'tolerance', label: 'as it is' },
];

/** The kept aliquots set side by side: mean, spread, comparison, outliers, error budget. */
@customElement('bf-replicates')
export class ReplicateTable extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap); }
      h2 { margin: 0; }
      h3 { margin: 0; font-size: 1rem; }
      p { margin: 0; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .report { font-size: var(--text-large); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      .pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); gap: var(--gap) var(--gap-large); align-items: start; }
      .pair > div { display: grid; gap: var(--gap-small); grid-template-columns: minmax(0, 1fr); }
      ul { margin: 0; padding-left: 1.25em; }
      @media print { .drops, bf-segmented { display: none; } section { gap: 0.4rem; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private whose: Whose = 'page';
  /** At first as the glass of a bench is drawn. */
  @state() private spread: Spread = 'triangular';

  override render() {
    const { session } = this;
    const { kept } = session?.workUp.saved ?? { kept: [] };
    if (!session) return nothing;
    const reported = reportedOf(kept, this.whose);
    const { figures } = session.workUp;
    const budget = figures?.budgets.find(({ spread }) => spread === this.spread);
    const half_percent = budgetPercent(figures, this.spread);
    if (kept.length + (budget ? 1 : 0) > 0 && !session.workUp.showsAmounts) return this.waiting(kept.length);
    return html`<section aria-labelledby="heading">
      <h2 id="heading">Result</h2>
      ${
        kept.length === 0
          ? html`<p>No aliquot is kept yet. Titrate until the last blue has gone and stays away, then keep the result on the <a href="#workup">work-up</a> bench. Three aliquots, each over the column by itself, make a molarity with an uncertainty.</p>`
          : html`
        <bf-segmented label="molarity as calculated" .value=${this.whose} .choices=${[{ value: 'page', label: 'from the titres' }, { value: 'own', label: 'by you', disabled: kept.every(({ own_M }) => own_M === null) }]} @bf-change=${this.takeWhose}></bf-segmented>
        ${reported ? html`<p class="report"><strong>${reportWords(reported, half_percent)}</strong></p>` : nothing}
        <bf-table caption="Aliquots over the column" .columns=${KEPT_COLUMNS} .rows=${kept.map(keptRow)} turns></bf-table>
        <div class="row drops">${kept.map((_, i) => html`<button type="button" @click=${() => session.workUp.drop(i)}>Strike aliquot ${i + 1}</button>`)}</div>
        ${kept.length < KEPT_MAX ? html`<p class="soft">${KEPT_MAX - kept.length} more to come: the next receiver or the next aliquot, on the work-up bench.</p>` : nothing}
        ${reported ? this.statistics(reported) : nothing}`
      }
      ${
        budget && half_percent !== undefined
          ? html`<div><h3>Error budget of one titration</h3>
        <bf-segmented label="how a tolerance counts" .value=${this.spread} .choices=${SPREADS} @bf-change=${this.takeSpread}></bf-segmented>
        <p class="soft">${SPREAD_WORDS[this.spread]}</p>
        <bf-table caption="Relative contributions, which add as squares" .columns=${BUDGET} .rows=${budgetRows(budget)}></bf-table>
        <p>${togetherWords(budget, half_percent, figures?.titrations.length ?? 1, sourceOf(reported))}</p></div>`
          : nothing
      }
    </section>`;
  }

  /** Beside empty boxes stands no answer. */
  private waiting(kept: number) {
    return html`<section aria-labelledby="heading"><h2 id="heading">Result</h2>
      <p>${kept === 0 ? 'No aliquot is kept yet.' : kept === 1 ? 'One aliquot is kept.' : `${kept} aliquots are kept.`} Result, comparison and error budget are shown once you have a molarity of your own: fill in your calculation.</p>
      <div class="row"><button type="button" @click=${this.session?.workUp.askForAmounts}>Show them without</button></div></section>`;
  }

  private statistics(reported: Reported) {
    const { replicates, contrast } = reported;
    const compared = comparedWords(replicates, reported.true_M);
    return html`<div class="pair">
      ${
        replicates.summary
          ? html`<div><bf-readout heading="Aliquots, each loaded and collected by itself" level="3" .readings=${summaryReadings(replicates.summary)}></bf-readout>
        ${compared === '' ? nothing : html`<p>${compared}</p>`}</div>`
          : html`<p class="soft">One result has no spread: keep a second aliquot.</p>`
      }
      ${
        contrast?.titrations.summary
          ? html`<div><bf-readout heading="Titrations of one eluate" level="3" .readings=${summaryReadings(contrast.titrations.summary)}></bf-readout>
        <p class="soft">${contrast.text}</p>
        ${contrast.columnSpread === undefined ? nothing : html`<p>What the columns add to the spread of the titrations: s ${significant(contrast.columnSpread, 2)} mol/L.</p>`}</div>`
          : nothing
      }
      ${replicates.outliers.length > 0 ? html`<div><h3>Outlier tests</h3><ul>${replicates.outliers.map(outlierLine)}</ul><p class="soft">${replicates.outliers[0]?.caution}</p></div>` : nothing}
    </div>`;
  }

  private takeWhose(event: CustomEvent<{ value: string }>) {
    this.whose = event.detail.value === 'own' ? 'own' : 'page';
  }

  private takeSpread(event: CustomEvent<{ value: string }>) {
    this.spread = SPREADS.find(({ value }) => value === event.detail.value)?.value ?? 'triangular';
  }
}

function summaryReadings(summary: Summary) {
  const { n, mean, s, rsd_percent, t, halfWidth, level } = summary;
  const interval = { label: `${percent(level, 0)} interval, t = ${fixed(t, 3)}`, value: `± ${withUnit(significant(halfWidth, 2), 'mol/L')}` };
  return [
    { label: `mean of ${n}`, value: withUnit(significant(mean, 5), 'mol/L') },
    { label: 's (n − 1)', value: withUnit(significant(s, 2), 'mol/L') },
    { label: 'relative, 100 s / mean', value: withUnit(significant(rsd_percent, 2), '%') },
    ...(scatters(summary) ? [interval] : []),
  ];
}

function outlierLine({ test, suspect, statistic, critical, level, flagged }: OutlierTest) {
  return html`<li>${test} ${fixed(statistic, 3)} against ${fixed(critical, 3)} at ${level}: ${significant(suspect, 4)} mol/L is ${flagged ? 'flagged' : 'kept'}.</li>`;
}

function budgetRows({
  lines,
}: {
  readonly lines: readonly { quantity: string; value: number; tolerance: number; unit: string; relative_percent: number; share: number }[];
}): Row[] {
  return lines.map(({ quantity, value, tolerance, unit, relative_percent, share }) => ({
    quantity,
    value: withUnit(significant(value, 4), unit),
    half: withUnit(significant(tolerance, 2), unit),
    relative: relative_percent,
    share: share * 100,
  }));
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-replicates': ReplicateTable;
  }
}
