import { scaleLinear } from 'd3-scale';
import { LitElement, css, html, nothing, svg, type SVGTemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Placed, Timetable } from '../../sim/class/index.ts';
import { axis, type Scale } from '../plot/axis.ts';
import { plotStyles } from '../plot/styles.ts';
import { fixed } from '../ui/text/format.ts';
import { type BlockLabel, laneLabels } from './lane-labels.ts';

const MARGIN = { left: 92, right: 16, top: 26, bottom: 44 };
const LANE = 40;
/** Height of a row of names under a lane, px. */
const ROW = 15;
const NARROW = 480;

/** Who does what when: a lane a person, a lane a column; tasks that set the length are framed and marked. */
@customElement('bf-lanes')
export class Lanes extends LitElement {
  static override styles = [
    plotStyles,
    css`
      :host { display: block; min-width: 0; }
      svg .task rect { fill: var(--wash); stroke: var(--edge); }
      svg .task.critical rect { fill: var(--caution-paper); stroke: var(--caution-edge); stroke-width: 3; }
      svg .task.apparatus rect { fill: var(--paper); stroke-dasharray: 4 3; stroke: var(--edge); stroke-width: 1; }
      svg .task text { fill: var(--ink); }
      svg .task.critical text { fill: var(--caution-ink); font-weight: 600; }
      svg .lane { fill: var(--soft); }
      svg.plot .task .under { font-size: 0.72rem; paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
      svg .task.critical .under { fill: var(--ink); }
      svg .leader { stroke: var(--edge); stroke-width: 1; }
      svg .period { stroke: var(--problem-ink); stroke-width: 2; stroke-dasharray: 6 4; }
      svg .period-note { fill: var(--problem-ink); font-weight: 600; paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
    `,
  ];

  @property({ attribute: false }) timetable: Timetable | undefined;
  @property({ type: Number }) period_min = 180;
  @property({ type: Number }) people = 3;
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
    const { timetable, width, people, period_min } = this;
    if (!timetable || width < MARGIN.left + 80) return nothing;
    const narrow = width < NARROW;
    const left = narrow ? 64 : MARGIN.left;
    const x = scaleLinear()
      .domain([0, Math.max(timetable.length_min, period_min) * 1.02])
      .range([left, width - MARGIN.right]);
    const lanes = lanesOf(timetable, people, narrow, x, [left, width - MARGIN.right]);
    const bottom = MARGIN.top + lanes.reduce((sum, { height }) => sum + height, 0);
    const at = x(period_min);
    return html`<svg class="plot" width=${width} height=${bottom + MARGIN.bottom} role="img" aria-label=${spoken(timetable, period_min)}>
      ${lanes.map((lane) => laneDrawing(lane, x, left, width - MARGIN.right))}
      ${axis({ scale: x, side: 'bottom', at: bottom, title: 'time', unit: 'min', ticks: narrow ? 4 : 10 })}
      <line class="period" x1=${at} x2=${at} y1=${MARGIN.top - 8} y2=${bottom}></line>
      <text class="period-note" x=${at > width * 0.7 ? at - 6 : at + 6} y=${MARGIN.top - 12} text-anchor=${at > width * 0.7 ? 'end' : 'start'}>end of the period</text>
    </svg>`;
  }
}

/** One person, column or burette. */
interface Lane {
  readonly name: string;
  readonly top: number;
  readonly height: number;
  readonly tasks: readonly { readonly task: Placed; readonly kind: string; readonly label: BlockLabel }[];
}

function lanesOf({ tasks, critical }: Timetable, people: number, narrow: boolean, x: Scale, [left, right]: [number, number]): Lane[] {
  const apparatus = [...new Set(tasks.flatMap((task) => (task.apparatus === undefined ? [] : [task.apparatus])))].sort();
  const kindOf = (task: Placed): string => (critical.includes(task.id) ? 'critical' : '');
  const lanes = [
    ...Array.from({ length: people }, (_, i) => ({ name: narrow ? `P${i + 1}` : `person ${i + 1}`, of: tasks.filter(({ person }) => person === i), kindOf })),
    ...apparatus.map((name) => ({ name, of: tasks.filter((task) => task.apparatus === name), kindOf: () => 'apparatus' })),
  ];
  let top = MARGIN.top;
  return lanes.map(({ name, of, kindOf: kind }) => {
    const shown = of.filter(({ duration_min }) => duration_min > 0).sort((a, b) => a.start_min - b.start_min);
    const labels = laneLabels(
      shown.map((task) => ({ from: x(task.start_min), width: widthOf(task, x), names: [task.label, task.id] })),
      left,
      right,
    );
    const height = LANE + ROW * Math.max(0, ...labels.map(({ row }) => row));
    const lane = { name, top, height, tasks: shown.map((task, i) => ({ task, kind: kind(task), label: labels[i] })) };
    top += height;
    return lane;
  });
}

function laneDrawing({ name, top, height, tasks }: Lane, x: Scale, left: number, right: number): SVGTemplateResult {
  return svg`<g><text class="lane" x=${left - 8} y=${top + LANE / 2} text-anchor="end" dominant-baseline="central">${name}</text>
    <line class="grid" x1=${left} x2=${right} y1=${top + height} y2=${top + height}></line>
    ${tasks.map(({ task, label }) => (label.row === 0 ? nothing : leader(task, label, x, top)))}
    ${tasks.map(({ task, kind, label }) => bar(task, label, x, top, kind))}</g>`;
}

function widthOf(task: Placed, x: Scale): number {
  return Math.max(2, x(task.end_min) - x(task.start_min));
}

/** From a narrow block to its name. */
function leader(task: Placed, { row }: BlockLabel, x: Scale, top: number): SVGTemplateResult {
  const at = x(task.start_min) + widthOf(task, x) / 2;
  return svg`<line class="leader" x1=${at} x2=${at} y1=${top + LANE - 5} y2=${top + LANE + ROW * (row - 1) + 2}></line>`;
}

function bar(task: Placed, { text, at, row }: BlockLabel, x: Scale, top: number, kind: string): SVGTemplateResult {
  const y = row === 0 ? top + LANE / 2 : top + LANE + ROW * (row - 0.5);
  return svg`<g class="task ${kind}"><rect x=${x(task.start_min)} y=${top + 5} width=${widthOf(task, x)} height=${LANE - 10} rx="3"></rect>
    <text class=${row === 0 ? '' : 'under'} x=${at} y=${y} text-anchor="middle" dominant-baseline="central">${text}</text>
    <title>${task.label}: ${fixed(task.start_min, 0)} to ${fixed(task.end_min, 0)} min</title></g>`;
}

function spoken({ tasks, length_min, critical }: Timetable, period_min: number): string {
  return `Timetable of ${tasks.length} tasks, ${fixed(length_min, 0)} minutes of a period of ${fixed(period_min, 0)}. The length is set by: ${critical.join(', ')}.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lanes': Lanes;
  }
}
