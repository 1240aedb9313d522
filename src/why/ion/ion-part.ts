import { LitElement, html, nothing } from 'lit';
import { styled } from '../../ui/styled.ts';
import { customElement, property } from 'lit/decorators.js';
import { speciation } from '../../../sim/chemistry/index.ts';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import { plotStyles } from '../../plot/styles.ts';
import { dragAcid } from '../bed/drag.ts';
import { Fit } from '../bed/fit.ts';
import { fieldSentence, formSentence, percentOf, storyOf } from '../sentences.ts';
import { speciesDrawing } from './species-drawing.ts';
import { sourceOf } from '../source.ts';
import { partStyles } from '../styles.ts';
import { spectraLine, SWATCH_CM, SWATCH_M, swatchOf } from './swatches.ts';

const HEIGHT = 300;

/** What the ion is: shares of its chloro-complexes, their charges and colours, and why some make no anion. */
@customElement('bf-why-ion')
export class IonPart extends LitElement {
  static override styles = [plotStyles, partStyles];

  @property() ion: IonId = 'Co';
  @property({ type: Number }) molarity = 9;
  private readonly fit = new Fit(this);

  override render() {
    const { ion, molarity } = this;
    return html`
      <p class="say">${formSentence(ion, molarity)}</p>
      ${this.fit.width ? this.plot() : nothing}
      <p>${fieldSentence(ion)}</p>
      ${this.list()}
      ${storyList(ion)}
      ${sourceOf(`${sourceLine(ion)} ${spectraLine(ion)} Ligand-field energies are recalled, good to 10 kJ/mol.`)}`;
  }

  private plot() {
    const { width } = this.fit;
    return html`<svg class="plot drag" role="img" aria-label=${`Shares of the species of ${IONS[this.ion].name} against HCl. ${formSentence(this.ion, this.molarity)}`} width=${width} height=${HEIGHT}
      @pointerdown=${this.drag} @pointermove=${this.drag}>${speciesDrawing({ ion: this.ion, HCl_M: this.molarity, width, height: HEIGHT })}</svg>`;
  }

  private list() {
    const { species, fractions } = speciation(this.ion, this.molarity);
    const most = Math.max(...fractions);
    return html`<table>
      <caption>Species, and the colour of ${SWATCH_M} mol/L through ${SWATCH_CM} cm</caption>
      <thead><tr><th scope="col">species</th><th scope="col" class="number">charge</th><th scope="col" class="number">share</th><th scope="col">colour</th></tr></thead>
      <tbody>${species.map((form, n) => {
        const { colour, words } = swatchOf(this.ion, form);
        return html`<tr class=${fractions[n] === most ? 'chosen' : ''}><th scope="row">${form.label}</th><td class="number">${signed(form.charge)}</td><td class="number">${percentOf(fractions[n])}</td>
          <td>${colour ? html`<span class="swatch" ${styled({ background: colour })}></span> ` : nothing}${words}</td></tr>`;
      })}</tbody></table>`;
  }

  private drag(event: PointerEvent) {
    dragAcid(this, event, this.fit.width);
  }
}

function storyList(ion: IonId) {
  const { known, disputed, fitted } = storyOf(ion);
  return html`<ul class="story"><li><strong>Well known:</strong> ${known}</li><li><strong>Disputed:</strong> ${disputed}</li><li><strong>Fitted here:</strong> ${fitted}</li></ul>`;
}

function sourceLine(ion: IonId): string {
  const { basis, source } = speciation(ion, 1);
  return basis === 'read' ? `Constants: ${source}. They tell colour and charge.` : `Constants: ${source}.`;
}

function signed(charge: number): string {
  return charge === 0 ? '0' : `${Math.abs(charge)}${charge > 0 ? '+' : '\u2212'}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-ion': IonPart;
  }
}
