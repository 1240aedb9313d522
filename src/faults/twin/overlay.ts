import { LitElement, css, html, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import { targetOf } from '../../../sim/input/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import { plotStyles } from '../../plot/styles.ts';
import { fixed } from '../../ui/text/format.ts';
import { firstOut } from '../evidence.ts';
import { OVERLAY_HEIGHT, overlayDrawing, PROJECTED_HEIGHT, projectedDrawing, type Ran } from './overlay-drawing.ts';

/** A run, and its twin when there is one, over the same axes. */
@customElement('bf-overlay')
export class RunOverlay extends LitElement {
  static override styles = [
    plotStyles,
    css`
      :host { display: block; min-width: 0; overflow: hidden; }
      svg.plot .row-title { font-size: var(--text-small); fill: var(--soft); }
      svg.plot .twin .bracket path { stroke: var(--ink); stroke-width: 1; stroke-dasharray: 1.5 3; }
      svg.plot .bed-end { stroke: var(--ink); stroke-width: 2; stroke-dasharray: 8 3; }
    `,
  ];

  @property({ attribute: false }) run: Ran | undefined;
  @property({ attribute: false }) twin: Ran | undefined;
  @property({ type: Number }) now_mL = 0;
  /** Only what leaves, in large type. */
  @property({ type: Boolean }) projected = false;
  /** Projected: nothing is drawn or said that comes after now. */
  @property({ type: Boolean }) aheadHidden = false;
  @state() private width = 0;
  private readonly sizes = new ResizeObserver(([entry]) => {
    if (entry) this.width = Math.round(entry.contentRect.width);
  });

  override connectedCallback() {
    super.connectedCallback();
    this.sizes.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.sizes.disconnect();
  }

  override render() {
    const { run, twin, width, now_mL, aheadHidden } = this;
    if (!run || width === 0) return nothing;
    const target = targetOf(run.scenario) ?? run.plan.ions[0];
    if (this.projected)
      return html`<svg class="plot" width=${width} height=${PROJECTED_HEIGHT} role="img" aria-label=${this.spoken(run, twin)}>${projectedDrawing({ run, twin, width, now_mL, aheadHidden })}</svg>`;
    return html`<svg class="plot" width=${width} height=${OVERLAY_HEIGHT} role="img" aria-label=${this.spoken(run, twin)}>
      ${guard([run.plan, twin?.plan, width, now_mL], () => (target ? overlayDrawing({ run, twin, width, now_mL }, target) : svg``))}</svg>`;
  }

  private spoken(run: Ran, twin: Ran | undefined): string {
    const ion = targetOf(run.scenario);
    if (this.aheadHidden) return `What leaves the tip over delivered volume, as far as ${fixed(this.now_mL, 1)} mL`;
    if (!ion) return 'Bands and effluent over delivered volume';
    const first = (ran: Ran): string => fixed(firstOut(ran.plan, ion), 1);
    const other = twin ? `, in its twin after ${first(twin)} mL` : '';
    return `Bands and effluent over delivered volume: a hundredth of the ${IONS[ion].name} has left after ${first(run)} mL${other}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-overlay': RunOverlay;
  }
}
