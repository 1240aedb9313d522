import { LitElement, css, html, nothing, svg } from 'lit';
import { styled } from '../../ui/styled.ts';
import { customElement, property } from 'lit/decorators.js';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { fixed, percent, significant } from '../../ui/text/format.ts';
import { beadContents, beadDrawing, IONS_DRAWN, sign, SYMBOL_MOL } from './bead-drawing.ts';
import { Fit } from '../bed/fit.ts';
import { capital } from '../../../sim/terms/capital.ts';
import { acidText, percentOf } from '../sentences.ts';
import { sourceOf } from '../source.ts';
import { partStyles } from '../styles.ts';

const SIZE_MAX = 340;
const KEY = 16;

/** What the beads do: one bead and the liquid around it at the chosen acid, in proportion. */
@customElement('bf-why-bead')
export class BeadPart extends LitElement {
  static override styles = [
    partStyles,
    css`
      .picture { display: flex; flex-wrap: wrap; gap: var(--gap) var(--gap-large); align-items: start; }
      ul { list-style: none; margin: 0; padding: 0; display: grid; gap: 0.35em; flex: 1 1 15rem; }
      li { display: grid; grid-template-columns: 1.6em 1fr; gap: 0.4em; }
      li svg { overflow: visible; margin-top: 0.2em; }
    `,
  ];

  @property({ attribute: false }) scenario: Scenario | undefined;
  @property() ion: IonId = 'Co';
  @property({ type: Number }) molarity = 9;
  private readonly fit = new Fit(this);

  override render() {
    const { scenario, ion, molarity } = this;
    if (!scenario) return nothing;
    const contents = beadContents(scenario, ion, molarity);
    const size = Math.min(SIZE_MAX, this.fit.width);
    const inside = Math.round(contents.ionInside * IONS_DRAWN);
    const said = `In ${acidText(molarity)} ${inside} of ${IONS_DRAWN} ${IONS[ion].name} ions are in the beads, ${IONS_DRAWN - inside} in the liquid between them.`;
    return html`
      <p class="say">${said}</p>
      <div class="picture">
        ${size > 0 ? html`<svg class="plot" ${styled({ width: `${size}px` })} width=${size} height=${size} viewBox="0 0 ${size} ${size}" role="img" aria-label="A bead in its liquid. ${said}">${beadDrawing({ contents, ion, porosity: scenario.values['bed.porosity'], size })}</svg>` : nothing}
        <ul>
          <li>${key('fixed', ion)}<span>charge fixed to the resin: ${significant(contents.fixed, 2)} mol per litre of bed, always the same</span></li>
          <li>${key('chloride', ion)}<span>Cl⁻: one for every fixed charge and one for every H⁺</span></li>
          <li>${key('hydrogen', ion)}<span>H⁺ of the HCl that came in: ${significant(contents.invaded_M, 2)} mol/L inside against ${fixed(contents.outside_M, 1)} outside</span></li>
          <li>${key('ion', ion)}<span>${capital(IONS[ion].name)}: ${percentOf(contents.ionInside)} inside, ${percentOf(1 - contents.ionInside)} outside</span></li>
        </ul>
      </div>
      <p>${acidSentence(contents.invaded, contents.outside)}</p>
      <p class="status">One small symbol is ${SYMBOL_MOL} mol in a litre of bed; the ${IONS_DRAWN} ${IONS[ion].name} ions show only how it is shared. The bead has the beads' share of the bed.</p>
      ${sourceOf('HCl inside the beads: ideal Donnan equilibrium, assumed; measured uptake is higher, up to 1.5 times.')}`;
  }
}

function key(kind: Parameters<typeof sign>[0], ion: IonId) {
  return html`<svg width=${KEY} height=${KEY} aria-hidden="true">${svg`${sign(kind, ion, KEY / 2, KEY / 2)}`}</svg>`;
}

/** Why the acid leaves late. */
function acidSentence(invaded: number, outside: number): string {
  if (outside < 0.01) return 'With water around the beads no HCl is left in them.';
  const share = invaded / (invaded + outside);
  return `Of the acid in the bed ${percent(share, 0)} sits inside the beads. When water comes, that acid has to come out as well: the acid front needs ${significant(1 + invaded / outside, 2)} hold-up volumes on average, not one.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-bead': BeadPart;
  }
}
