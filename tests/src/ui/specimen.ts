import { scaleLinear } from 'd3-scale';
import { html, svg } from 'lit';
import type { View } from '../../../src/app/views.ts';
import { axis } from '../../../src/plot/axis.ts';
import { band, bracket } from '../../../src/plot/band.ts';
import { cursor } from '../../../src/plot/cursor.ts';
import { line } from '../../../src/plot/line.ts';
import { seriesStyle } from '../../../src/plot/series.ts';
import { plotStyles } from '../../../src/plot/styles.ts';
import { fixed, millimoles, millilitres } from '../../../src/ui/text/format.ts';
import { CAUTIONS, type CautionId } from '../../../src/ui/safety/cautions.ts';
import '../../../src/ui/safety/caution.ts';
import '../../../src/ui/issues.ts';
import '../../../src/ui/number.ts';
import '../../../src/ui/readout.ts';
import '../../../src/ui/segmented.ts';
import '../../../src/ui/table.ts';

// Every shared element and drawing with invented numbers, for the browser tests.

export const SPECIMEN_VIEWS: readonly View[] = [
  { id: 'bench', label: 'Bench', load: async () => controls },
  { id: 'why', label: 'Why they separate', load: async () => drawing },
  { id: 'wrong', label: 'What goes wrong', load: async () => cautions },
  { id: 'work-up', label: 'Work-up', load: () => Promise.reject(new Error('no such chunk')) },
  { id: 'notebook', label: 'Notebook', load: async () => issues },
];

const COLUMNS = [
  { key: 'place', label: 'place' },
  { key: 'Co', label: 'cobalt', unit: 'mmol', show: (value: number) => fixed(value, 3) },
  { key: 'share', label: 'share', unit: '%' },
];
const ROWS = [
  { place: 'receiver: cobalt', Co: 0.1195, share: 99.6 },
  { place: 'receiver: waste', Co: 0.0003, share: 0.25 },
  { place: 'bed', Co: 0.0002, share: 0.15 },
];

function controls() {
  return html`<h1>Bench</h1>
    <bf-segmented label="Pour" value="acid" .choices=${[{ value: 'acid', label: '9 mol/L HCl' }, { value: 'load', label: 'sample', disabled: true }, { value: 'water', label: 'water' }]}></bf-segmented>
    <bf-number label="volume" unit="mL" value="10" min="0.1" max="50" step="0.5" slider show-range></bf-number>
    <bf-number label="resin diffusion" unit="cm²/s" value="1e-7" min="1e-9" max="1e-2" log slider error="resin diffusion: expected 1e-9 to 1e-2 cm²/s, received 5"></bf-number>
    <bf-readout heading="Now" .readings=${[{ label: 'delivered', value: millilitres(46.2) }, { label: 'cobalt loaded', value: millimoles(0.12), note: 'invented for this page' }]}></bf-readout>
    <bf-table caption="Where the cobalt is" .columns=${COLUMNS} .rows=${ROWS}></bf-table>`;
}

function cautions() {
  return html`<h1>Cautions</h1>${(Object.keys(CAUTIONS) as CautionId[]).map((topic) => html`<bf-caution topic=${topic} ?read=${topic === 'acetone'}></bf-caution>`)}`;
}

function issues() {
  return html`<h1>Issues</h1><bf-issues source="run.json" .issues=${[
    { path: 'values.bed.length_cm', expected: '0.5 to 150 cm', received: '700' },
    { path: 'log[3].volume_mL', expected: 'a number, mL', received: '"ten"' },
  ]}></bf-issues>`;
}

const LENGTH = 121;
const volumes = Array.from({ length: LENGTH }, (_, index) => (index * 75) / (LENGTH - 1));
const bell = (middle: number, height: number, width: number) => volumes.map((volume) => height * Math.exp(-(((volume - middle) / width) ** 2)));

function drawing() {
  const x = scaleLinear().domain([0, 75]).range([80, 700]);
  const y = scaleLinear().domain([0, 0.06]).range([220, 60]);
  const acid = scaleLinear().domain([0, 10]).range([220, 60]);
  return html`<h1>Drawing</h1><style>${plotStyles.cssText}</style>
    <svg class="plot" viewBox="0 0 800 400" width="800" height="400" style="max-width:100%; height:auto" role="img" aria-label="Invented elution curves">
      ${band({ from: x(0), to: x(45), top: 20, height: 22, colour: 'var(--wash)', label: '9 mol/L HCl' })}
      ${band({ from: x(45), to: x(75), top: 20, height: 22, colour: 'var(--edge)', label: 'water', hatched: true })}
      ${axis({ scale: x, side: 'bottom', at: 220, title: 'delivered', unit: 'mL' })}
      ${axis({ scale: y, side: 'left', at: 80, title: 'metal', unit: 'mol/L', ticks: 3, grid: 620 })}
      ${axis({ scale: acid, side: 'right', at: 700, title: 'HCl', unit: 'mol/L', ticks: 3 })}
      ${line({ x, y, xs: volumes, ys: bell(20, 0.03, 3), style: seriesStyle('Ni'), markers: 24 })}
      ${line({ x, y, xs: volumes, ys: bell(52, 0.055, 2), style: seriesStyle('Co'), markers: 24 })}
      ${line({ x, y: acid, xs: volumes, ys: volumes.map((volume) => 9 / (1 + Math.exp(volume - 50))), style: seriesStyle('HCl') })}
      ${cursor({ at: x(46), top: 46, bottom: 220, label: 'now', right: 700 })}
      ${bracket({ from: x(0), to: x(48), at: 280, label: 'waste' })}${bracket({ from: x(48), to: x(75), at: 280, label: 'cobalt' })}
      ${svg`<g transform="translate(300 340)">${(['Co', 'Ni', 'Mn', 'Cu', 'Zn', 'Fe3', 'Fe2', 'Cd'] as const).map((id, index) =>
        line({
          x: scaleLinear()
            .domain([0, 1])
            .range([index * 60, index * 60 + 40]),
          y: scaleLinear().range([20, 0]),
          xs: [0, 0.5, 1],
          ys: [0, 1, 0],
          style: seriesStyle(id),
          markers: 3,
        }),
      )}</g>`}
    </svg>`;
}
