import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { valueAt } from '../../../sim/lab/index.ts';
import { FIELDS } from '../../../sim/terms/fields.ts';
import { plotStyles } from '../../plot/styles.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import { quantity, significant } from '../../ui/text/format.ts';
import type { Calibration } from '../fit/calibrate.ts';
import type { FitAnswer } from '../fit/fit-worker.ts';
import { foldStyles, partStyles } from '../sections/styles.ts';
import { panelDrawing, residualDrawing } from './panel-drawing.ts';
import { type Panel, panelsOf } from './panels.ts';
import { misfitDoubt, sieveWords } from '../fit/doubts.ts';
import { beforeLoadWords, intervalWords, misfitWords, openWords, strongestTie, tiedWords } from './words.ts';
import '../../ui/table.ts';

const SIZE = { width: 360, height: 220 };
const NUMBERS = [
  { key: 'number', label: 'number' },
  { key: 'before', label: 'before' },
  { key: 'after', label: 'fitted' },
  { key: 'interval', label: '95 % interval' },
  { key: 'narrowed', label: 'width, compared with before' },
  { key: 'tie', label: 'strongest correlation' },
];
const READINGS = [
  { key: 'row', label: 'row', show: String },
  { key: 'column', label: 'reading' },
  { key: 'value', label: 'measured' },
  { key: 'before', label: 'model before' },
  { key: 'after', label: 'model after' },
  { key: 'residual', label: 'residual, in standard deviations' },
];

/** The result of a fit: the numbers, what is left open, and the readings with the model before and after. */
@customElement('bf-fit-result')
export class FitResult extends LiveElement {
  static override styles = [
    controlStyles,
    plotStyles,
    foldStyles,
    partStyles,
    css`
      :host { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); }
      .panels { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 20rem), 1fr)); gap: var(--gap); }
      figure { margin: 0; min-width: 0; }
      figcaption { font-weight: 600; font-size: var(--text-small); }
      svg.plot { width: 100%; max-width: 30rem; height: auto; }
      svg.plot .before { fill: none; stroke: var(--soft); stroke-width: 1.5; stroke-dasharray: 5 4; }
      svg.plot .after { fill: none; stroke: var(--accent); stroke-width: 2; }
      svg.plot .bar { stroke: var(--ink); stroke-width: 1; }
      svg.plot .read { fill: var(--ink); stroke: var(--paper); stroke-width: 1; }
      svg.plot .read.open { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
      svg.plot .within { fill: var(--wash); }
      .open { font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) answer: FitAnswer | undefined;
  /** JSON of the lab that was fitted. */
  @property({ attribute: false }) of: unknown;

  override render() {
    const { answer } = this;
    if (!answer) return html``;
    const { calibration } = answer;
    const { measurements } = calibration;
    const doubt = sieveWords(valueAt(this.of, 'resin.grade'), calibration);
    const misfit = misfitDoubt(calibration);
    return html`${misfit === '' ? nothing : html`<p class="open" role="status">${misfit}</p>`}<p>${misfitWords(calibration)}</p><p class="open">${openWords(calibration)}</p><p>${tiedWords(calibration)}</p>
      ${beforeLoadWords(calibration) === '' ? nothing : html`<p>${beforeLoadWords(calibration)}</p>`}
      ${doubt === '' ? nothing : html`<p class="open" role="status">${doubt}</p>`}
      <bf-table caption="Numbers" .columns=${NUMBERS} .rows=${numberRows(calibration)}></bf-table>
      <p class="soft">Before the fit, each number has an uncertainty that depends on its status; its interval follows from that and from the readings. It ends where the sum of squares, with all other numbers fitted again, is 3.84 above its least. The fit treats the column as a single lane, so uneven packing is not fitted.</p>
      <p class="soft">● reading with its 95 % bar (□ upper edge of the band); dashed line: model before the fit; solid line: model after it.</p>
      <div class="panels">${panelsOf(measurements).map((panel) => this.panel(panel, answer))}
        <figure><figcaption>Residuals</figcaption>
          <svg class="plot" viewBox="0 0 ${SIZE.width} ${SIZE.height}" role="img" aria-label="Residuals of ${measurements.length} readings along the run; they are listed below">${residualDrawing(measurements, SIZE)}</svg></figure>
      </div>
      <details><summary>Every reading</summary><bf-table caption="Readings and model" .columns=${READINGS} .rows=${measurements.map(({ row, column, value, before, after, residual }) => ({ row, column, value, before, after, residual: Number.isFinite(residual) ? residual : 'no value' }))}></bf-table></details>`;
  }

  private panel(panel: Panel, { curves }: FitAnswer) {
    const words = `${panel.title}: ${panel.readings.length} ${panel.readings.length === 1 ? 'reading' : 'readings'} with the model before and after the fit`;
    return html`<figure><figcaption>${panel.title}</figcaption>
      <svg class="plot" viewBox="0 0 ${SIZE.width} ${SIZE.height}" role="img" aria-label=${words}>${panelDrawing(panel, curves, SIZE)}</svg></figure>`;
  }
}

function numberRows(calibration: Calibration) {
  return calibration.parameters.map((one, i) => ({
    number: FIELDS[one.path].label,
    before: quantity(one.before, one.unit, 3),
    after: `${quantity(one.value, one.unit, 3)}${one.open ? ', left open' : ''}`,
    interval: intervalWords(one),
    narrowed: `${significant(100 * one.narrowed, 2)} %`,
    tie: strongestTie(calibration, i),
  }));
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fit-result': FitResult;
  }
}
