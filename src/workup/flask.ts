import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { buretteReads, inHand } from '../../sim/workup/index.ts';
import { solutionIn } from './solution.ts';
import { LiveElement } from '../store/live-element.ts';
import type { WorkUpStore } from '../store/work-up-store.ts';
import { fixed, millilitres, withUnit } from '../ui/text/format.ts';
import { hiddenStyles } from '../ui/styles.ts';
import { seenWords } from '../ui/text/work-up-words.ts';
import { CARD_TOP, flaskDrawing, HEIGHT, WIDTH } from './flask-drawing.ts';

/** The flask in hand: drawn in the colour of its spectra, said in words, with meter, thermometer and burette. */
@customElement('bf-flask')
export class FlaskInHand extends LiveElement {
  static override styles = [
    hiddenStyles,
    css`
      :host { display: block; }
      figure { margin: 0; display: grid; gap: var(--gap-small); justify-items: center; }
      svg { width: min(100%, 14rem); height: auto; display: block; }
      .card { fill: #ffffff; }
      .glass { fill: none; stroke: #6d7885; stroke-width: 2; stroke-linejoin: round; }
      .burette .glass { stroke: var(--edge); }
      .titrant { fill: var(--wash); stroke: none; }
      .mark { stroke: var(--edge); stroke-width: 1; }
      .tap { fill: var(--soft); }
      .solid circle { stroke: rgb(0 0 0 / 25%); stroke-width: 0.5; }
      figcaption { font-weight: 600; text-align: center; text-wrap: balance; }
      dl { margin: 0; display: grid; grid-template-columns: auto auto; gap: 0 var(--gap); width: min(100%, 15rem); }
      dt { color: var(--soft); }
      dd { margin: 0; text-align: right; white-space: nowrap; }
      @media (max-width: 40rem) {
        figure { grid-template-columns: 6rem minmax(0, 1fr); grid-template-rows: auto 1fr; column-gap: var(--gap); align-items: start; justify-items: start; }
        svg { grid-row: 1 / span 2; width: 6rem; max-height: 12rem; }
        figcaption { text-align: left; }
      }
    `,
  ];

  @property({ attribute: false }) store: WorkUpStore | undefined;

  override render() {
    const { state, bench } = this.store ?? {};
    if (!state || !bench) return html``;
    const { values } = bench;
    const flask = inHand(state);
    const reading = state.events.at(-1)?.reading;
    const seen = solutionIn(flask, bench);
    const burette = values['workup.burette_mL'];
    const words = reading ? seenWords(reading) : `clear, ${seen.liquid}`;
    const name = state.portion ? `portion ${state.titres.length + (flask.amounts.Y > 0 ? 0 : 1)}` : 'eluate';
    const conical = state.portion !== null || (state.onGlass !== null && state.flask_mL === null);
    // A burette stands over the flask that is titrated, and is read before anything runs from it.
    const read_mL = conical ? buretteReads(state, bench) : 0;
    return html`<figure>
      <svg viewBox="0 ${conical ? 0 : CARD_TOP} ${WIDTH} ${conical ? HEIGHT : HEIGHT - CARD_TOP}" role="img" aria-label="${name}: ${words}">${flaskDrawing({
        solution: seen.solution,
        volume_mL: flask.volume_mL,
        capacity_mL: conical ? conicalFlask(state.portion_mL ?? flask.volume_mL, values) : Math.max(state.flask_mL ?? 0, flask.volume_mL * 1.25),
        path_cm: values['workup.path_cm'],
        vessel: conical ? 'conical' : 'beaker',
        solid: seen.solid,
        burette: conical ? 1 - read_mL / burette : undefined,
      })}</svg>
      <figcaption>${name}: ${words}</figcaption>
      <dl>
        <dt>pH meter</dt><dd>${reading ? fixed(reading.pH, 2) : '–'}</dd>
        <dt>thermometer</dt><dd>${withUnit(fixed(flask.temperature_C, 1), '°C')}</dd>
        <dt>volume</dt><dd>${millilitres(flask.volume_mL)}</dd>
        <dt>burette reads</dt><dd>${conical ? millilitres(read_mL, 2) : '–'}</dd>
      </dl>
    </figure>`;
  }
}

/** mL of the conical flask that takes what is titrated, its reagents and a burette. */
function conicalFlask(volume_mL: number, values: NonNullable<WorkUpStore['values']>): number {
  const most = volume_mL + values['workup.acetone_mL'] + values['workup.burette_mL'] + 20;
  return [100, 250, 500].find((capacity) => capacity >= most) ?? 500;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-flask': FlaskInHand;
  }
}
