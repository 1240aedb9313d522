import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { ION_IDS, IONS, type IonId } from '../../sim/terms/ions.ts';
import { distributionOf, isHeld, passageOf } from '../../sim/chemistry/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { plotStyles } from '../plot/styles.ts';
import { fixed, significant } from '../ui/text/format.ts';
import { controlStyles } from '../ui/styles.ts';
import { dragAcid } from './bed/drag.ts';
import { Fit } from './bed/fit.ts';
import { OF_THE_MIDDLE, runEdgeSentence } from './here/edge-words.ts';
import { motionSentence, peakSentence, percentOf, tracesSentence } from './sentences.ts';
import { sourceOf } from './source.ts';
import { partStyles } from './styles.ts';
import { NAME_ROOM, uptakeDrawing } from './uptake-drawing.ts';

const HEIGHT = 340;

/** What the resin does: D_v against HCl, and how a band moves at the chosen acid. */
@customElement('bf-why-resin')
export class ResinPart extends LiveElement {
  static override styles = [controlStyles, plotStyles, partStyles];

  @property({ attribute: false }) session: Session | undefined;
  @property() ion: IonId = 'Co';
  @property({ type: Number }) molarity = 9;
  @property({ type: Boolean }) all = false;
  private readonly fit = new Fit(this);

  override render() {
    const { session } = this;
    const { scenario } = session?.store ?? {};
    if (!session || !scenario) return nothing;
    return html`
      <p class="say">${motionSentence(scenario, this.ion, this.molarity)}</p>
      ${this.edge(session, scenario)}
      ${this.fit.width ? this.plot(scenario) : nothing}
      <p>${peakSentence(scenario, this.ion)} ${tracesSentence(scenario, this.ion, this.molarity)}</p>
      ${this.list(scenario)}
      <p class="status">${ownLine(scenario)}</p>
      ${sourceOf(CURVES_FROM)}`;
  }

  /** Beside a speed of a few hundredths: why the edge that one sees came down so much faster. */
  private edge({ store, sees }: Session, scenario: Scenario) {
    if (!isHeld(passageOf(distributionOf(scenario, this.ion)(this.molarity), scenario.values['bed.porosity']))) return nothing;
    const { plan } = store;
    const inRun =
      sees === 'eye' || !plan || !scenario.ions.includes(this.ion) ? '' : runEdgeSentence(scenario, plan, this.ion, store.moment?.delivered_mL ?? 0);
    return html`<p class="edge">${OF_THE_MIDDLE} ${inRun}</p>`;
  }

  private plot(scenario: Scenario) {
    const { width } = this.fit;
    return html`<svg class="plot drag" role="img" aria-label=${`Distribution coefficient against HCl. ${motionSentence(scenario, this.ion, this.molarity)}`} width=${width} height=${HEIGHT}
      @pointerdown=${this.drag} @pointermove=${this.drag}>${uptakeDrawing({ scenario, ions: this.shown(scenario), ion: this.ion, HCl_M: this.molarity, width, height: HEIGHT })}</svg>`;
  }

  private list(scenario: Scenario) {
    const porosity = scenario.values['bed.porosity'];
    return html`<div class="scroll" role="region" aria-label="Movement of the ions" tabindex="0"><table>
      <caption>At ${fixed(this.molarity, 1)} mol/L HCl. D<sub>v</sub>: amount per litre of bed in the beads over amount per litre of liquid. On the dotted line an ion spends half of its time in the beads.</caption>
      <thead><tr><th scope="col">ion</th><th scope="col" class="number">D<sub>v</sub></th><th scope="col" class="number">retention factor</th><th scope="col" class="number">leaves after</th><th scope="col" class="number">band speed</th></tr></thead>
      <tbody>${this.shown(scenario).map((ion) => {
        const { D_v, retentionFactor, bedVolumes, speedShare } = passageOf(distributionOf(scenario, ion)(this.molarity), porosity);
        return html`<tr class=${ion === this.ion ? 'chosen' : ''}><th scope="row">${IONS[ion].symbol}</th><td class="number">${significant(D_v, 2)}</td><td class="number">${significant(retentionFactor, 2)}</td>
          <td class="number">${significant(bedVolumes, 2)} bed volumes</td><td class="number">${percentOf(speedShare)}</td></tr>`;
      })}</tbody></table></div>`;
  }

  private shown(scenario: Scenario): readonly IonId[] {
    return this.all ? ION_IDS : scenario.ions;
  }

  private drag(event: PointerEvent) {
    dragAcid(this, event, this.fit.width - NAME_ROOM);
  }
}

/** Which ions take a table of the scenario in place of the built-in curve; empty if none does. */
function ownLine(scenario: Scenario): string {
  const own = scenario.ions.filter((ion) => scenario.curves[ion]);
  return own.length === 0 ? '' : `Your own table is used for ${own.map((ion) => IONS[ion].symbol).join(', ')} (squares).`;
}

const CURVES_FROM =
  'Curves recalled from the classic papers (Kraus and Nelson 1955; Moore and Kraus 1952; Kraus and Moore 1953), not read: shape about \u00b10.2 in log D, scale a further \u00b10.2. Nickel: recalled as not adsorbed, its small uptake assumed.';

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-resin': ResinPart;
  }
}
