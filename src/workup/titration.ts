import { scaleLinear, scaleLog } from 'd3-scale';
import { LitElement, css, html, nothing, svg, type SVGTemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { axis, type Scale } from '../plot/axis.ts';
import { cursor } from '../plot/cursor.ts';
import { line } from '../plot/line.ts';
import type { SeriesStyle } from '../plot/series.ts';
import { plotStyles } from '../plot/styles.ts';
import { fixed, millilitres } from '../ui/text/format.ts';
import type { Curve, FlaskCurves } from './curves.ts';

interface Row {
  readonly curve: Curve;
  readonly scale: Scale;
  readonly top: number;
  readonly bottom: number;
}

const MARGIN = { left: 58, right: 14, top: 22, bottom: 42 };
const ROW = 92;
const GAP = 28;
/** Absorbance under which nothing is drawn: a hundredth of what the best eye sees. */
const FAINTEST_A = 2e-4;
const TITLES: Readonly<Record<Curve['id'], string>> = { blue: 'blue, absorbance', pCo: 'pCo', pH: 'pH' };
const STYLES: Readonly<Record<Curve['id'], SeriesStyle>> = {
  blue: { label: 'blue', colour: 'var(--line-Co)', text: 'var(--text-Co)', dash: '', width: 2.5, marker: 'none' },
  pCo: { label: 'pCo', colour: 'var(--line-Mn)', text: 'var(--text-Mn)', dash: '12 3 2 3', width: 2, marker: 'none' },
  pH: { label: 'pH', colour: 'var(--ink)', text: 'var(--ink)', dash: '7 4', width: 1.75, marker: 'none' },
};

/** Blue, cobalt and pH of the flask in hand over one axis of what was run in. */
@customElement('bf-titration')
export class TitrationCurves extends LitElement {
  static override styles = [
    plotStyles,
    css`
      :host { display: block; min-width: 0; }
      svg .dot { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
      svg .threshold { stroke: var(--edge); stroke-dasharray: 3 3; }
      svg .meant { stroke: var(--good-ink); stroke-width: 1.5; stroke-dasharray: 6 3; }
      svg .note { fill: var(--soft); paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
      svg .row-name { font-weight: 600; paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
      p { margin: var(--gap-small) 0 0; color: var(--soft); font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) curves: FlaskCurves | undefined;
  /** Also where there was as much titrant as cobalt. */
  @property({ type: Boolean }) equivalence = false;
  @state() private width = 0;
  private readonly resize = new ResizeObserver(([entry]) => {
    this.width = Math.floor(entry?.contentRect.width ?? 0);
  });

  override connectedCallback() {
    super.connectedCallback();
    this.resize.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.resize.disconnect();
  }

  override render() {
    const { curves, width } = this;
    if (!curves || width < MARGIN.left + MARGIN.right + 40) return nothing;
    const x = scaleLinear()
      .domain([0, curves.end_mL])
      .range([MARGIN.left, width - MARGIN.right]);
    const rows = curves.curves.map((curve, i): Row => {
      const top = MARGIN.top + i * (ROW + GAP);
      return { curve, top, bottom: top + ROW, scale: scaleOf(curve, [top + ROW, top]) };
    });
    const bottom = rows[rows.length - 1]?.bottom ?? 0;
    const title = curves.kind === 'titrant' ? 'EDTA run in' : 'NaOH run in';
    return html`<svg class="plot" width=${width} height=${bottom + MARGIN.bottom} role="img" aria-label=${spoken(curves)}>
        ${rows.map((row) => this.row(row, x, curves))}
        ${axis({ scale: x, side: 'bottom', at: bottom, title, unit: 'mL', ticks: width < 420 ? 4 : 8 })}
        ${this.equivalence ? marks(curves, x, MARGIN.top, bottom) : nothing}
        ${cursor({ at: x(curves.now_mL), top: MARGIN.top, bottom })}
      </svg>
      <p>${captionOf(curves, this.equivalence)}</p>`;
  }

  private row({ curve, scale, top, bottom }: Row, x: Scale, { dots, marks: found }: FlaskCurves): SVGTemplateResult {
    const style = STYLES[curve.id];
    const threshold = curve.id === 'blue' && found ? scale(found.threshold_A) : undefined;
    const right = this.width - MARGIN.right;
    return svg`<g>
      ${axis({ scale, side: 'left', at: MARGIN.left, ticks: curve.id === 'blue' ? 3 : 4, grid: right - MARGIN.left })}
      ${
        threshold === undefined
          ? nothing
          : svg`<line class="threshold" x1=${MARGIN.left} x2=${right} y1=${threshold} y2=${threshold}></line>
        <text class="note" x=${MARGIN.left + 4} y=${threshold - 4}>faintest blue this eye sees</text>`
      }
      ${line({ x, y: scale, xs: curve.xs, ys: curve.id === 'blue' ? curve.ys.map((value) => (value < FAINTEST_A ? Number.NaN : value)) : curve.ys, style, labelAt: 'none', markers: 0 })}
      ${curve.id === 'pH' ? dots.map(({ mL, pH }) => svg`<circle class="dot" cx=${x(mL)} cy=${scale(pH)} r="3.5"></circle>`) : nothing}
      <text class="row-name" x=${MARGIN.left} y=${top - 7} fill=${style.text}>${TITLES[curve.id]}</text>
      <line class="frame" x1=${MARGIN.left} x2=${right} y1=${bottom} y2=${bottom}></line>
    </g>`;
  }
}

function marks({ marks: found }: FlaskCurves, x: Scale, top: number, bottom: number) {
  if (!found || found.seen_mL === undefined) return nothing;
  const at = x(found.equivalence_mL);
  return svg`<line class="meant" x1=${at} x2=${at} y1=${top} y2=${bottom}></line>`;
}

function scaleOf({ id, ys }: Curve, range: [number, number]): Scale {
  if (id === 'blue')
    return scaleLog()
      .domain([FAINTEST_A, Math.max(1, ...ys)])
      .range(range)
      .nice();
  if (id === 'pCo')
    return scaleLinear()
      .domain([2, Math.max(10, ...ys.filter(Number.isFinite))])
      .range(range);
  return scaleLinear()
    .domain(id === 'pH' && Math.max(...ys) > 8.5 ? [0, 14] : [3, 8])
    .range(range)
    .clamp(true);
}

function captionOf({ kind, marks: found, read_mL, dots }: FlaskCurves, equivalence: boolean): string {
  if (kind === 'alkali')
    return `The line is the pH with this much alkali once everything has dissolved or settled. The rings are what the meter showed, including readings after acetate and acid.`;
  const last = dots.at(-1);
  if (found?.seen_mL === undefined)
    return `${millilitres(read_mL, 2)} run in, pH ${fixed(last?.pH ?? Number.NaN, 2)}. The rest of the curves is drawn when the last blue has gone.`;
  const meant = equivalence
    ? `there was as much EDTA as cobalt at ${millilitres(found.equivalence_mL, 2)} (dashed line)`
    : 'where there was as much EDTA as cobalt is drawn once you have a molarity of your own';
  return `The last blue was seen to disappear at ${millilitres(read_mL, 2)}, the difference of the readings (solid line); ${meant}. The strength of the blue depends on assumed constants: the direction of its change is right, its size may not be.`;
}

function spoken(curves: FlaskCurves): string {
  const first = curves.dots[0];
  const last = curves.dots.at(-1);
  const what = curves.kind === 'titrant' ? 'Blue, pCo and pH against EDTA' : 'pH against alkali';
  return `${what}, up to ${fixed(curves.now_mL, 2)} millilitres; pH from ${fixed(first?.pH ?? Number.NaN, 1)} to ${fixed(last?.pH ?? Number.NaN, 1)}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-titration': TitrationCurves;
  }
}
