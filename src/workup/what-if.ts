import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { changedAt, type Elsewhere, receiverElsewhere, workedUp } from '../../sim/report/index.ts';
import type { Plan } from '../../sim/history/index.ts';
import { CONTROLS } from '../../sim/terms/controls.ts';
import { amountsAsked } from '../ui/text/amounts-asked.ts';
import { fixed, percent, withUnit } from '../ui/text/format.ts';
import { refusalText } from '../ui/text/work-up-refusals.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import type { Row } from '../ui/text/csv.ts';
import '../ui/number.ts';
import '../ui/table.ts';

const HEADING = 'If the column had been handled differently';
const EARLIER_ML = 4;
const LATER = CONTROLS['what-if.later_mL'];
const COLUMNS = [
  { key: 'case', label: 'receiver' },
  { key: 'acid', label: 'acid', unit: 'mmol', show: (value: number) => fixed(value, 1) },
  { key: 'NaOH', label: 'NaOH', unit: 'mL', show: (value: number) => fixed(value, 2) },
  { key: 'cobalt', label: 'cobalt', unit: 'mmol', show: (value: number) => fixed(value, 4) },
  { key: 'nickel', label: 'nickel', unit: 'mmol', show: (value: number) => fixed(value, 4) },
  { key: 'titre', label: 'titre', unit: 'mL', show: (value: number) => fixed(value, 2) },
  { key: 'found', label: 'sample', unit: 'mol/L', show: (value: number) => fixed(value, 4) },
];

/** The final number if the receiver had been changed at another volume, or if nickel had been left in the bed. */
@customElement('bf-what-if')
export class WhatIf extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); }
      h2 { font-size: 1em; margin: 0; }
      p { margin: 0; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap-large); }
      .row > bf-number { flex: 1 1 14rem; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private later_mL = -EARLIER_ML;
  @state() private nickel_percent = 0;
  private worked = new Map<string, Elsewhere>();
  private workedFor: readonly unknown[] = [];

  override render() {
    const { session } = this;
    const { store, workUp } = session ?? {};
    const receiver = workUp?.receiver;
    if (!store?.scenario || !store.plan || !receiver) return nothing;
    if (!workUp.showsAmounts) return html`<section aria-labelledby="heading"><h2 id="heading">${HEADING}</h2>${amountsAsked(workUp.askForAmounts)}</section>`;
    const { plan } = store;
    const at = changedAt(plan, receiver.label ?? '') ?? 0;
    const asItWas = this.found(plan, 0, 0);
    const other = this.found(plan, this.later_mL, this.nickel_percent);
    return html`<section aria-labelledby="heading">
      <h2 id="heading">${HEADING}</h2>
      <p class="soft">One titration of the whole eluate by the usual steps with the same glassware; the run itself is not changed.</p>
      <div class="row">
        <bf-number slider .of=${LATER} .min=${Math.max(LATER.min, -Math.floor(at))} .value=${this.later_mL} @bf-change=${this.move}></bf-number>
        <bf-number slider .of=${CONTROLS['what-if.nickel_percent']} .value=${this.nickel_percent} @bf-change=${this.leave}></bf-number>
      </div>
      <bf-table caption="Results of both" .columns=${COLUMNS} .rows=${[rowOf('as it was', asItWas), rowOf('otherwise', other)]} no-copy></bf-table>
      <p role="status">${this.caseWords()} ${differenceWords(asItWas, other)}</p>
    </section>`;
  }

  private found(plan: Plan, later_mL: number, nickel_percent: number): Elsewhere | undefined {
    const { store, workUp } = this.session ?? {};
    const receiver = workUp?.receiver;
    if (!store?.scenario || !receiver) return undefined;
    const basis = [plan, receiver];
    if (basis.some((one, i) => one !== this.workedFor[i])) this.worked = new Map();
    this.workedFor = basis;
    const key = `${later_mL} ${nickel_percent}`;
    const known = this.worked.get(key);
    if (known) return known;
    const other = receiverElsewhere(plan, receiver, later_mL, nickel_percent / 100);
    if (other.volume_mL <= 0) return undefined;
    const worked = workedUp(store.scenario, plan, other);
    this.worked.set(key, worked);
    return worked;
  }

  private caseWords(): string {
    const { later_mL, nickel_percent } = this;
    const when = later_mL === 0 ? 'Changed as it was' : `Changed ${fixed(Math.abs(later_mL), 1)} mL ${later_mL < 0 ? 'earlier' : 'later'}`;
    return nickel_percent === 0 ? `${when}.` : `${when}, with ${fixed(nickel_percent, 1)} % of the nickel still in the bed.`;
  }

  private move(event: CustomEvent<{ value: number }>) {
    this.later_mL = event.detail.value;
  }

  private leave(event: CustomEvent<{ value: number }>) {
    this.nickel_percent = event.detail.value;
  }
}

function rowOf(name: string, one: Elsewhere | undefined): Row {
  const titration = one?.figures.titrations[0];
  if (!one) return { case: `${name}: nothing in it` };
  const { receiver, figures } = one;
  return {
    case: name,
    acid: receiver.HCl_mmol,
    NaOH: titration?.NaOH_mL ?? Number.NaN,
    cobalt: receiver.Co_mmol ?? 0,
    nickel: receiver.Ni_mmol ?? 0,
    titre: titration?.titre.read_mL ?? Number.NaN,
    found: figures.cobalt?.found_M ?? Number.NaN,
  };
}

/** What nickel adds to the figure, % of it, with what is added while it reacts. */
function countedNickel({ figures }: Elsewhere): number {
  const causes = figures.titrations[0]?.causes ?? [];
  return causes.reduce((sum, { cause, percent: share }) => sum + (cause === 'nickel' || cause === 'overrun' ? share : 0), 0);
}

function differenceWords(asItWas: Elsewhere | undefined, other: Elsewhere | undefined): string {
  const was = asItWas?.figures.cobalt;
  const now = other?.figures.cobalt;
  if (!was || !asItWas || !other) return '';
  const refused = other.figures.refused[0];
  if (!now) return `No titration. ${refused ? refusalText(refused) : 'There is nothing to titrate.'}`;
  const change = now.found_M / was.found_M - 1;
  const cobalt = now.held_mmol / Math.max(1e-12, was.held_mmol) - 1;
  const acid = other.receiver.HCl_mmol - asItWas.receiver.HCl_mmol;
  const sentences = [
    `The reported molarity ${Math.abs(change) < 5e-4 ? 'stays' : change > 0 ? `rises by ${percent(change, 1)}` : `falls by ${percent(-change, 1)}`}.`,
  ];
  if (cobalt < -5e-4) sentences.push(`${percent(-cobalt, 1)} of the cobalt went into the other receiver and is not titrated.`);
  if (acid > 1) sentences.push(`${fixed(acid, 0)} mmol more acid has to be neutralised; with care this costs alkali, heat and time rather than cobalt.`);
  const more = countedNickel(other) - countedNickel(asItWas);
  if (more > 0.3 && (other.receiver.Ni_mmol ?? 0) > (asItWas.receiver.Ni_mmol ?? 0))
    sentences.push(
      `Nickel reacts with EDTA as cobalt does and is counted as cobalt: ${withUnit(fixed(more, 1), '%')} more, including what was added while it reacted.`,
    );
  if (refused) sentences.push(refusalText(refused));
  return sentences.join(' ');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-what-if': WhatIf;
  }
}
