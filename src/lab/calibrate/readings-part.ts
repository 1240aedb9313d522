import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import type { Scenario } from '../../../sim/terms/types.ts';
import { LiveElement } from '../../store/live-element.ts';
import { emit } from '../../ui/emit.ts';
import { count } from '../../ui/text/format.ts';
import { controlStyles } from '../../ui/styles.ts';
import { columnsFor, type Meaning, type MeasurementsResult } from '../fit/measurements.ts';
import { foldStyles, partStyles } from '../sections/styles.ts';
import { EXAMPLE, FLOW_TEST } from './example.ts';

/** Problems of the table that are listed at once. */
const LISTED = 12;
/** Lines of the box. */
const ROWS_LEAST = 8;
const ROWS_MOST = 24;

/**
 * The table of readings: a box to type or paste into, what its columns mean, and what is wrong with it.
 *
 * @fires bf-readings - {text} with the present text
 */
@customElement('bf-readings')
export class ReadingsPart extends LiveElement {
  static override styles = [
    controlStyles,
    foldStyles,
    partStyles,
    css`
      textarea { font-family: ui-monospace, monospace; font-size: var(--text-small) !important; min-height: 0; white-space: pre; overflow-x: auto; }
      .scroll { overflow-x: auto; }
      table { border-collapse: collapse; font-size: var(--text-small); }
      th, td { padding: 0.2em 1em 0.2em 0; text-align: left; vertical-align: top; font-weight: 400; }
      tbody tr + tr > * { border-top: 1px solid var(--rule); }
      code { font-size: inherit; overflow-wrap: anywhere; }
      @media (min-width: 40rem) { th code { white-space: nowrap; } }
      pre { margin: 0; font-size: var(--text-small); white-space: pre-wrap; }
      ol { margin: 0; padding: 0; list-style: none; }
      .doubt { margin: 0; padding-left: 1.25em; font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) scenario: Scenario | undefined;
  @property() text = '';
  @property({ attribute: false }) read: MeasurementsResult | undefined;
  /** What may be wrong with readings that can be read. */
  @property({ attribute: false }) doubts: readonly string[] = [];

  override render() {
    const { scenario, text, read } = this;
    if (!scenario) return nothing;
    const issues = read && !read.ok ? read.issues : [];
    return html`<label class="text">Readings: a heading row with the column names, then one row for each reading, typed or pasted from a spreadsheet. Separate the cells by commas, semicolons or tabs, write decimals with a point, and leave a cell empty if nothing was measured.
        <textarea spellcheck="false" autocomplete="off" rows=${Math.min(ROWS_MOST, Math.max(ROWS_LEAST, text.split('\n').length + 1))} aria-invalid=${issues.length > 0 ? 'true' : 'false'} .value=${live(text)} @input=${this.type}></textarea></label>
      ${issues.length > 0 ? html`<ol class="problem" role="alert" aria-label="What is wrong with the table">${issues.slice(0, LISTED).map(({ path, expected, received }) => html`<li>${path}: expected ${expected}; received ${received}</li>`)}${issues.length > LISTED ? html`<li>and ${issues.length - LISTED} more</li>` : nothing}</ol>` : nothing}
      ${read?.ok ? html`<p class="soft" role="status">${count(read.measurements.length, 'reading')}.${text === EXAMPLE ? ' They are invented for the shipped lesson on cobalt and nickel from a cathode leach; no real column was measured.' : ''}</p>` : nothing}
      ${doubtList(this.doubts)}
      ${text === '' ? html`<div class="row"><button type="button" @click=${() => this.put(EXAMPLE)}>Fill in an invented example</button></div>` : nothing}
      <details><summary>What the columns mean</summary>${this.columns(scenario)}</details>`;
  }

  private columns(scenario: Scenario) {
    const { flow_test_min, ...rest } = columnsFor(scenario);
    return html`<div class="scroll" role="region" aria-label="Columns" tabindex="0"><table>
      <thead><tr><th scope="col">column</th><th scope="col">what it is</th><th scope="col">standard deviation</th></tr></thead>
      <tbody>
        <tr><th scope="row"><code>delivered_mL</code></th><td>volume in the cylinder since the start of the run, when the reading was taken or the fraction ended</td><td></td></tr>
        <tr><th scope="row"><code>from_mL</code></th><td>volume delivered when a fraction began</td><td></td></tr>
        ${Object.entries(rest).map(meaningRow)}
        <tr><th scope="row"><code>flow_test_mL</code></th><td>volume that ran out in a flow test: before the run, nothing poured yet, clamp fully open, bed and liquid as the column is stored</td><td></td></tr>
        ${meaningRow(['flow_test_min', flow_test_min])}
        <tr><th scope="row"><code>flow_test_head_mm</code></th><td>liquid above the bed when that test began</td><td></td></tr>
        <tr><th scope="row"><code>flow_test_end_mm</code></th><td>liquid above the bed when it ended; leave it empty if nothing was poured on, and enter the same height if the level was kept</td><td></td></tr>
      </tbody></table></div>
      <p class="soft">Flow is read in two places. A test before the run (so many mL in so many minutes, with so much liquid above the bed) has a row of its own: flow_test_mL, flow_test_min and flow_test_head_mm, as in the invented table below. Flow during the run, while the column is conditioned too, is flow_mL_per_min with its delivered_mL.</p>
      <pre>${FLOW_TEST}</pre>
      <p class="soft">Drops are counted to get the flow: the volume of one drop is what a number of them gave, 62 drops that gave 3.0 mL are 0.048 mL each; drops per minute times this is flow_mL_per_min, 20 a minute 0.97 mL/min.</p>
      <p class="soft">The standard deviations are common practice for ruler, cylinder and watch; they have no source.</p>`;
  }

  private type(event: Event & { target: HTMLTextAreaElement }) {
    this.put(event.target.value);
  }

  private put(text: string) {
    emit<{ text: string }>(this, 'bf-readings', { text });
  }
}

function meaningRow([name, { how, unit, absolute, relative }]: readonly [string, Meaning]) {
  return html`<tr><th scope="row"><code>${name}</code></th><td>${how}</td><td>± ${absolute} ${unit}${relative > 0 ? ` and ${100 * relative} %` : nothing}</td></tr>`;
}

function doubtList(lines: readonly string[]) {
  return lines.length === 0
    ? nothing
    : html`<ul class="doubt" role="status" aria-label="What may be wrong with the readings">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-readings': ReadingsPart;
  }
}
