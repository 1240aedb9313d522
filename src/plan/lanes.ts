import { scaleLinear } from 'd3-scale';
import { LitElement, css, html, nothing, svg, type SVGTemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Placed, Timetable } from '../../sim/class/index.ts';
import { axis, type Scale } from '../plot/axis.ts';
import { plotStyles } from '../plot/styles.ts';
import { fixed } from '../ui/text/format.ts';

const MARGIN = { left: 92, right: 16, top: 26, bottom: 44 };
const LANE = 40;
/** Mean width of a character of a label, px. */
const CHARACTER = 7.2;
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
    const apparatus = [...new Set(timetable.tasks.flatMap((task) => (task.apparatus === undefined ? [] : [task.apparatus])))].sort();
    const lanes = [...Array.from({ length: people }, (_, i) => (narrow ? `P${i + 1}` : `person ${i + 1}`)), ...apparatus];
    const bottom = MARGIN.top + lanes.length * LANE;
    const at = x(period_min);
    return html`<svg class="plot" width=${width} height=${bottom + MARGIN.bottom} role="img" aria-label=${spoken(timetable, period_min)}>
      ${lanes.map(
        (name, i) => svg`<text class="lane" x=${left - 8} y=${MARGIN.top + (i + 0.5) * LANE} text-anchor="end" dominant-baseline="central">${name}</text>
        <line class="grid" x1=${left} x2=${width - MARGIN.right} y1=${MARGIN.top + (i + 1) * LANE} y2=${MARGIN.top + (i + 1) * LANE}></line>`,
      )}
      ${timetable.tasks.map((task) => bar(task, x, MARGIN.top + task.person * LANE, timetable.critical.includes(task.id) ? 'critical' : ''))}
      ${timetable.tasks.map((task) => (task.apparatus === undefined ? nothing : bar(task, x, MARGIN.top + (people + apparatus.indexOf(task.apparatus)) * LANE, 'apparatus')))}
      ${axis({ scale: x, side: 'bottom', at: bottom, title: 'time', unit: 'min', ticks: narrow ? 4 : 10 })}
      <line class="period" x1=${at} x2=${at} y1=${MARGIN.top - 8} y2=${bottom}></line>
      <text class="period-note" x=${at > width * 0.7 ? at - 6 : at + 6} y=${MARGIN.top - 12} text-anchor=${at > width * 0.7 ? 'end' : 'start'}>end of the period</text>
    </svg>`;
  }
}

function bar(task: Placed, x: Scale, top: number, kind: string): SVGTemplateResult | typeof nothing {
  if (task.duration_min <= 0) return nothing;
  const from = x(task.start_min);
  const width = Math.max(2, x(task.end_min) - from);
  const text = [task.label, task.id].find((label) => label.length * CHARACTER < width - 6);
  return svg`<g class="task ${kind}"><rect x=${from} y=${top + 5} width=${width} height=${LANE - 10} rx="3"></rect>
    ${text === undefined ? nothing : svg`<text x=${from + width / 2} y=${top + LANE / 2} text-anchor="middle" dominant-baseline="central">${text}</text>`}
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
