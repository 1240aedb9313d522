import { css, html, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type ComplexSpecies, distributionOf, isHeld, passageOf, speciation } from '../../../sim/chemistry/index.ts';
import { deliveredOf, flowOf, frameAt, frameAtTime, inBedAt, instantAt, instantAtTime, onRuler, type Plan } from '../../../sim/history/index.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import { IONS, type IonId } from '../../../sim/terms/ions.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Place } from '../../store/pointing.ts';
import type { Session } from '../../store/session.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { fixed, millilitres, significant } from '../../ui/text/format.ts';
import { beadContents, beadDrawing, IONS_DRAWN } from '../bead/bead-drawing.ts';
import { capital } from '../../../sim/terms/capital.ts';
import { acidText, motionSentence } from '../sentences.ts';
import { partStyles } from '../styles.ts';
import { edgeSentence } from './edge-words.ts';
import { ionShape, SHAPE_SIZE, shapeOf } from './ion-shape.ts';
import '../../ui/segmented.ts';

/** Side of the picture of the bead as it is drawn for the long form, and as shown here, px. */
const BEAD_DRAWN = 340;
const BEAD_SHOWN = 132;
/** Ion of an amount below this, mmol/mL, is not at a place. */
const THERE = 1e-4;

/**
 * Why, beside the bench: the bead, the ion and the speed of its band at the place that was pressed. By eye it compares strong acid
 * and water and does not tell which of them is there.
 */
@customElement('bf-why-here')
export class WhyHere extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      :host { display: block; font-size: 0.875rem; line-height: 1.35; }
      header { display: flex; justify-content: space-between; align-items: center; gap: var(--gap-small); }
      h2 { font-size: 1rem; margin: 0; border: 0; padding: 0; }
      p { margin: 0 0 var(--gap-small); }
      .pair { display: grid; grid-template-columns: 1fr 1fr; gap: var(--gap-small); margin: var(--gap-small) 0; }
      figure { margin: 0; min-width: 0; text-align: center; }
      figcaption { line-height: 1.25; }
      svg { max-width: 100%; height: auto; }
      svg .centre { stroke: var(--paper); stroke-width: 1.5; }
      svg .symbol { fill: var(--paper); font-weight: 700; font-size: 13px; }
      svg .bond { stroke: var(--soft); stroke-width: 2; }
      svg .neighbour text { font-size: 11px; fill: var(--ink); }
      svg .water circle { fill: var(--wash); stroke: var(--edge); }
      svg .Cl circle { fill: var(--good-paper); stroke: var(--good-ink); stroke-width: 2; }
      .speed { font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private chosen: IonId | undefined;

  override render() {
    const { session } = this;
    const asked = session?.pointing.asked;
    const { scenario, plan } = session?.store ?? {};
    if (!session || !asked || !scenario || !plan) return nothing;
    const ion = this.ion(session, scenario, plan, asked);
    const frame = asked.delivered_mL === undefined ? frameAtTime(plan, session.store.now) : frameAt(plan, asked.delivered_mL);
    const when = asked.delivered_mL === undefined ? 'now' : `at ${millilitres(asked.delivered_mL)}`;
    return html`<header><h2 tabindex="-1">Why, ${fixed(onRuler(plan, frame, asked.depth_cm ?? 0), 1)} cm deep, ${when}</h2><button type="button" aria-label="Close the explanation" @click=${() => session.pointing.leave()}>✕</button></header>
      ${scenario.ions.length > 1 ? html`<bf-segmented label="ion" label-unseen .value=${ion} .choices=${scenario.ions.map((value) => ({ value, label: IONS[value].symbol }))} @bf-change=${this.pick}></bf-segmented>` : nothing}
      ${session.sees === 'eye' ? byEye(scenario, ion) : here(session, scenario, plan, asked, ion)}
      <p><a href="#why?depth=${fixed(asked.depth_cm ?? 0, 2)}">The long form</a></p>`;
  }

  /** The ion that was chosen, else what lies at the place. By eye nothing is known of it, so it is the one of the task. */
  private ion(session: Session, { ions }: Scenario, plan: Plan, { depth_cm = 0, delivered_mL }: Place): IonId {
    if (this.chosen && ions.includes(this.chosen)) return this.chosen;
    const target = session.targets?.target ?? ions[0];
    if (session.sees === 'eye') return target;
    const instant = delivered_mL === undefined ? instantAtTime(plan, session.store.now) : instantAt(plan, delivered_mL);
    const held = ions.map((ion) => ({ ion, amount: inBedAt(plan, ion, instant, depth_cm) })).sort((a, b) => b.amount - a.amount)[0];
    return held && held.amount > THERE ? held.ion : target;
  }

  private pick(event: CustomEvent<{ value: string }>) {
    this.chosen = this.session?.store.scenario?.ions.find((id) => id === event.detail.value);
  }
}

/** Everything of the place, with its figures. */
function here({ store }: Session, scenario: Scenario, plan: Plan, { depth_cm = 0, delivered_mL }: Place, ion: IonId) {
  const instant = delivered_mL === undefined ? instantAtTime(plan, store.now) : instantAt(plan, delivered_mL);
  const acid_M = inBedAt(plan, 'HCl', instant, depth_cm);
  const isThere = inBedAt(plan, ion, instant, depth_cm) > THERE;
  const flow = delivered_mL === undefined ? (store.moment?.flow ?? 0) : flowOf(plan, frameAt(plan, delivered_mL));
  const edge = edgeSentence(scenario, plan, ion, delivered_mL ?? deliveredOf(plan, frameAtTime(plan, store.now)));
  const contents = beadContents(scenario, ion, acid_M);
  const inside = Math.round(contents.ionInside * IONS_DRAWN);
  const held = inBeads(scenario, ion, acid_M);
  return html`<p>Between the beads there: <b>${acidText(acid_M)}</b>.${isThere ? '' : ` ${absentWords(ion)}`}</p>
    <div class="pair">${ionPicture(ion, inLiquid(ion, acid_M), 'Most of what is in the liquid')}${held ? ionPicture(ion, held, 'In the beads') : nothing}
      <figure><svg width=${BEAD_SHOWN} height=${BEAD_SHOWN} viewBox="0 0 ${BEAD_DRAWN} ${BEAD_DRAWN}" role="img" aria-label="A bead in its liquid">${svg`${beadDrawing({ contents, ion, porosity: scenario.values['bed.porosity'], size: BEAD_DRAWN, ions: isThere ? IONS_DRAWN : 0 })}`}</svg>
      <figcaption>${beadWords(ion, inside, isThere)}</figcaption></figure></div>
    <p class="speed">${motionSentence(scenario, ion, acid_M)}</p>
    <p class="edge" ?hidden=${edge === ''}>${edge}</p>
    <p>${speedWords(scenario, ion, acid_M, flow)}</p>`;
}

/** Said where there is none of the ion, so that the rest is read as what would be. */
export function absentWords(ion: IonId): string {
  return `There is no ${IONS[ion].symbol} here; this is how it would fare.`;
}

export function beadWords(ion: IonId, inside: number, isThere: boolean): string {
  return isThere
    ? `A bead: ${inside} of ${IONS_DRAWN} ions are in it`
    : `A bead without ${IONS[ion].symbol}: were it here, ${inside} of ${IONS_DRAWN} ions would be in it`;
}

/** "At the flow of this moment that is 0.05 cm a minute." */
export function speedWords(scenario: Scenario, ion: IonId, acid_M: number, flow: number): string {
  if (flow <= 0) return 'Nothing flows at this moment, so nothing moves.';
  const porosity = scenario.values['bed.porosity'];
  const liquid = flow / (sectionOf(scenario.values) * porosity);
  const { speedShare } = passageOf(distributionOf(scenario, ion)(acid_M), porosity);
  return `At the flow of this moment the liquid passes ${significant(liquid, 2)} cm of bed a minute, the ${IONS[ion].name} ${significant(liquid * speedShare, 2)}.`;
}

/** What may be said by eye: the two ways it can be, not which of them is here. */
function byEye(scenario: Scenario, ion: IonId) {
  const strongest = Math.max(...Object.values(scenario.liquids).map(({ HCl_M }) => HCl_M));
  return html`<div class="pair">${ionPicture(ion, inBeads(scenario, ion, strongest) ?? inLiquid(ion, strongest), inBeads(scenario, ion, strongest) ? 'In strong acid, in the beads' : 'In strong acid')}${ionPicture(ion, inLiquid(ion, 0), 'In water')}</div>
    <p>${heldWords(scenario, ion, strongest)} ${heldWords(scenario, ion, 0)}</p>
    <p>Which of the two is it here? By eye you have the colour of the bed to go by. Acid, amounts and speeds of this place are told with the figure, or when the run is over.</p>`;
}

function heldWords(scenario: Scenario, ion: IonId, acid_M: number): string {
  const passage = passageOf(distributionOf(scenario, ion)(acid_M), scenario.values['bed.porosity']);
  const said = isHeld(passage) ? 'the beads hold it and its band crawls' : 'it is in the liquid and runs with it';
  return `${capital(acid_M === 0 ? 'in water' : 'in strong acid')} ${said}.`;
}

/** The commonest form in the liquid. */
function inLiquid(ion: IonId, acid_M: number): ComplexSpecies {
  const { species, fractions } = speciation(ion, Math.max(acid_M, 1e-6));
  return species[fractions.indexOf(Math.max(...fractions))];
}

/** The anion that the beads hold, where they hold the ion at all. */
function inBeads(scenario: Scenario, ion: IonId, acid_M: number): ComplexSpecies | undefined {
  const passage = passageOf(distributionOf(scenario, ion)(acid_M), scenario.values['bed.porosity']);
  return isHeld(passage) ? speciation(ion, Math.max(acid_M, 1e-6)).species.findLast(({ charge }) => charge < 0) : undefined;
}

function ionPicture(ion: IonId, form: ComplexSpecies, where: string) {
  const { shape, waters, chlorides } = shapeOf(form);
  const around = [waters > 0 ? `${waters} water${waters > 1 ? 's' : ''}` : '', chlorides > 0 ? `${chlorides} chloride${chlorides > 1 ? 's' : ''}` : ''];
  const said = `${form.label}, ${shape} of ${around.filter(Boolean).join(' and ')}`;
  return html`<figure><svg width=${SHAPE_SIZE} height=${SHAPE_SIZE} viewBox="0 0 ${SHAPE_SIZE} ${SHAPE_SIZE}" role="img" aria-label=${said}>${ionShape(ion, form)}</svg>
    <figcaption>${where}: ${said}</figcaption></figure>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why-here': WhyHere;
  }
}
