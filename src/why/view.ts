import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ION_IDS, IONS, type IonId } from '../../sim/terms/ions.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { KeysController } from '../ui/keys.ts';
import { controlStyles } from '../ui/styles.ts';
import { bedHeightOf, depthAtReading, frameAtTime, inBedAt, instantAtTime, readingAt } from '../../sim/history/index.ts';
import { ACID_TOP_M } from './ion/species-drawing.ts';
import '../ui/segmented.ts';
import './bead/acid-bar.ts';
import './bead/bead-part.ts';
import './bed/bed-part.ts';
import './ion/ion-part.ts';
import './ion/own-table.ts';
import './predict.ts';
import './resin-part.ts';
import './sequence/sequence-part.ts';

const STEP_M = 0.1;
/** Depth first shown, as a share of the bed. */
const FIRST_DEPTH = 0.25;

/**
 * Why two ions of the same charge part: one HCl molarity drives what the ion is, what the resin does, what the beads do and
 * what the bed does. `#why?depth=2.5` opens it bound to that depth of the bed.
 */
@customElement('bf-why')
export class WhyView extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; --text-small: 1rem; }
      .bar { position: sticky; top: 0; z-index: 2; background: var(--paper); border-bottom: 1px solid var(--rule); padding: var(--gap-small) 0; margin-bottom: var(--gap); }
      .pick { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap-large); align-items: center; margin-bottom: var(--gap-small); }
      h1 { margin: 0; }
      .pick label { display: flex; gap: 0.5em; align-items: center; min-height: var(--target); }
      .pick input { width: 1.25em; height: 1.25em; }
      .pick a { margin-left: auto; min-height: var(--target); display: flex; align-items: center; }
      .parts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 30rem), 1fr)); gap: var(--gap-large); }
      section { min-width: 0; scroll-margin-top: 5rem; }
      .first { margin-bottom: var(--gap-large); }
      .wide { margin-top: var(--gap-large); }
      h2 { border-top: 3px solid var(--accent); padding-top: var(--gap-small); }
      @media (max-height: 30rem) { .bar { position: static; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private chosen_M = 9;
  @state() private bound = false;
  @state() private ion: IonId = 'Co';
  @state() private all = false;

  constructor() {
    super();
    new KeysController(this, {
      heading: 'Why they separate',
      entries: [
        { key: '-', does: 'weaker acid', run: () => this.step(-STEP_M) },
        { key: '+', does: 'stronger acid', run: () => this.step(STEP_M) },
      ],
    });
  }

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('hashchange', this.readDepth);
    this.readDepth();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.readDepth);
  }

  override willUpdate() {
    const ions = this.session?.store.scenario?.ions ?? [];
    if (!this.all && ions.length > 0 && !ions.includes(this.ion)) this.ion = ions[0];
  }

  override render() {
    const { session } = this;
    const store = session?.store;
    const { scenario } = store ?? {};
    if (!session || !store || !scenario) return html`<p>${store?.failure ?? nothing}</p>`;
    const length = scenario.values['bed.length_cm'];
    const depth = this.depth();
    const molarity = this.molarity();
    return html`
      <div class="pick">
        <h1>Why they separate</h1>
        <bf-segmented label="ion" label-unseen .value=${this.ion} .choices=${(this.all ? ION_IDS : scenario.ions).map((value) => ({ value, label: IONS[value].symbol }))} @bf-change=${this.pick}></bf-segmented>
        <label><input type="checkbox" .checked=${this.all} @change=${this.showAll} />all eight ions</label>
        <a href="#bench">Back to the bench</a>
      </div>
      <section class="first" aria-labelledby="predict"><h2 id="predict">Predict</h2><bf-why-predict .scenario=${session.written ?? scenario}></bf-why-predict></section>
      <div class="bar" @bf-molarity=${this.take} @bf-bound=${this.bind} @bf-depth=${this.pointRead}>
        <bf-acid-bar .molarity=${molarity} .bound=${this.bound} .available=${store.plan !== undefined && session.sees !== 'eye'} .depth=${readingAt(length, this.height(), depth)} .length=${length}></bf-acid-bar>
      </div>
      <div class="parts" @bf-molarity=${this.take} @bf-depth=${this.pointAndBind}>
        <section aria-labelledby="ion"><h2 id="ion">What the ion is</h2><bf-why-ion .ion=${this.ion} .molarity=${molarity}></bf-why-ion></section>
        <section aria-labelledby="resin"><h2 id="resin">What the resin does</h2><bf-why-resin .session=${session} .ion=${this.ion} .molarity=${molarity} .all=${this.all}></bf-why-resin><bf-own-table .session=${session} .ion=${this.ion}></bf-own-table></section>
        <section aria-labelledby="bead"><h2 id="bead">What the beads do</h2><bf-why-bead .scenario=${scenario} .ion=${this.ion} .molarity=${molarity}></bf-why-bead></section>
        <section aria-labelledby="bed"><h2 id="bed">What the bed does</h2><bf-why-bed .session=${session} .ion=${this.bedIon(scenario.ions)} .depth=${depth} .bound=${this.bound}></bf-why-bed></section>
      </div>
      <section class="wide" aria-labelledby="sequence"><h2 id="sequence">Find a sequence</h2><bf-why-sequence .session=${session}></bf-why-sequence></section>`;
  }

  /** The chosen acid: set by hand, or what the bed holds now at the chosen depth. */
  private molarity(): number {
    const store = this.session?.store;
    if (!this.bound || !store?.plan || !store.scenario || this.session?.sees === 'eye') return this.chosen_M;
    return Math.min(ACID_TOP_M, inBedAt(store.plan, 'HCl', instantAtTime(store.plan, store.now), this.depth()));
  }

  private depth(): number {
    const length = this.session?.store.scenario?.values['bed.length_cm'] ?? 0;
    return Math.min(length, Math.max(0, this.session?.pointing.depth_cm ?? FIRST_DEPTH * length));
  }

  /** Of the bed now, cm; as packed while there is no run. */
  private height(): number {
    const { plan, now, scenario } = this.session?.store ?? {};
    return plan && now !== undefined ? bedHeightOf(plan, frameAtTime(plan, now)) : (scenario?.values['bed.length_cm'] ?? 0);
  }

  private bedIon(ions: readonly IonId[]): IonId {
    return ions.includes(this.ion) ? this.ion : ions[0];
  }

  private step(by: number) {
    this.chosen_M = Math.min(ACID_TOP_M, Math.max(0, Number((this.molarity() + by).toFixed(2))));
    this.bound = false;
  }

  private take(event: CustomEvent<{ value: number }>) {
    this.chosen_M = event.detail.value;
    this.bound = false;
  }

  private bind(event: CustomEvent<{ bound: boolean }>) {
    if (!event.detail.bound) this.chosen_M = Number(this.molarity().toFixed(2));
    this.bound = event.detail.bound;
  }

  private point(event: CustomEvent<{ depth_cm: number }>) {
    this.session?.pointing.point({ depth_cm: event.detail.depth_cm });
  }

  /** The bar asks for what the ruler reads. */
  private pointRead(event: CustomEvent<{ depth_cm: number }>) {
    const length = this.session?.store.scenario?.values['bed.length_cm'] ?? 0;
    this.session?.pointing.point({ depth_cm: depthAtReading(length, this.height(), event.detail.depth_cm) });
  }

  private pointAndBind(event: CustomEvent<{ depth_cm: number }>) {
    this.point(event);
    this.bound = true;
  }

  private pick(event: CustomEvent<{ value: string }>) {
    this.ion = ION_IDS.find((id) => id === event.detail.value) ?? this.ion;
  }

  private showAll(event: Event & { target: HTMLInputElement }) {
    this.all = event.target.checked;
  }

  private readonly readDepth = () => {
    const depth = /^#why\?.*\bdepth=([\d.]+)/.exec(location.hash)?.[1];
    if (depth === undefined || !Number.isFinite(Number(depth))) return;
    this.session?.pointing.point({ depth_cm: Number(depth) });
    this.bound = true;
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-why': WhyView;
  }
}
