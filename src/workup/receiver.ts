import { receiverName } from '../ui/text/receiver-words.ts';
import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { alkaliFor, changedAt, parseQuantity, receiverElsewhere } from '../../sim/report/index.ts';
import type { Parameters } from '../../sim/terms/types.ts';
import type { Receiver } from '../../sim/flask/index.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { fixed, millilitres, millimoles, percent, significant } from '../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';

/** How much earlier the receiver is imagined to have been changed, mL. */
const EARLIER_ML = 4;
/** A prediction within this share is near enough; a choice. */
const NEAR = 0.15;

/** Which receiver is worked up, the alkali it is expected to take, and how the moment at which it was changed matters for that. */
@customElement('bf-receiver-taken')
export class ReceiverTaken extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      section { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1.6fr); gap: var(--gap-small) var(--gap-large); align-items: start; }
      section > div { display: grid; gap: var(--gap-small); }
      @media (max-width: 52rem) { section { grid-template-columns: minmax(0, 1fr); } }
      h2 { font-size: 1em; margin: 0; }
      p { margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .wrong { color: var(--problem-ink); }
      input { width: 7em; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private fault = '';

  override render() {
    const { session } = this;
    if (!session) return nothing;
    const { workUp, store } = session;
    const { receiver } = workUp;
    const moved = receiver !== undefined && store.present_min < (store.plan?.logEnd.time_min ?? 0) - 1e-6;
    return html`<section aria-labelledby="which">
      <div><h2 id="which">Receiver to work up</h2>
      <label class="row">receiver
        <select @change=${this.take}>
          ${receiver ? nothing : html`<option value="" selected>choose one</option>`}
          ${workUp.receivers.map(({ label, volume_mL }) => html`<option value=${label} ?selected=${label === receiver?.label}>${receiverName(label)}, ${millilitres(volume_mL)}</option>`)}
        </select></label>
      ${receiver ? this.question(session) : html`<p class="soft">No receiver is chosen yet. The work-up uses the receiver that you choose, and follows if its contents change.</p>`}
      ${moved ? html`<p class="soft">The run is not over: the receiver holds what has run into it up to this moment.</p>` : nothing}</div>
      ${receiver ? html`<div>${this.answer(session, receiver)}</div>` : nothing}
    </section>`;
  }

  private question(session: Session) {
    const { saved, values } = session.workUp;
    if (!values) return nothing;
    const NaOH_M = values['bench.NaOH_M'];
    const { portion_mL, flask_mL } = sharesOf(session, values);
    return html`<label class="row" for="expected">Before you start: how much ${fixed(NaOH_M, 1)} mol/L NaOH for ${portion_mL === flask_mL ? 'this eluate' : `one portion, ${portion_mL} mL of ${flask_mL} mL`}?</label>
      <form class="row" @submit=${this.expect}>
        <input id="expected" type="text" inputmode="decimal" autocomplete="off" .value=${saved.expected ?? ''} aria-describedby="fault" />
        <span>mL</span><button type="submit">${saved.expected === undefined ? 'Save my estimate' : 'Change my estimate'}</button>
      </form>
      <p id="fault" class="wrong" role="alert">${this.fault}</p>`;
  }

  private answer(session: Session, receiver: Receiver) {
    const { saved, values } = session.workUp;
    const said = saved.expected === undefined ? undefined : parseQuantity(saved.expected, 'volume');
    if (!values || !said?.ok)
      return html`<p class="soft">Think of the acid that ran in before the water came through: molarity times volume. Then compare.</p>`;
    const { portion_mL, flask_mL } = sharesOf(session, values);
    return this.compared(session, receiver, said.value, (values['bench.NaOH_M'] * flask_mL) / portion_mL);
  }

  /** `perTitration`: mmol of acid in the receiver that one mL of alkali in one titration stands for. */
  private compared(session: Session, receiver: Receiver, said_mL: number, perTitration: number) {
    const { plan } = session.store;
    const { values } = session.workUp;
    if (!plan || !values) return nothing;
    const needed = receiver.HCl_mmol / perTitration;
    const earlier = receiverElsewhere(plan, receiver, -EARLIER_ML, 0);
    const verdict = Math.abs(said_mL - needed) <= NEAR * needed ? 'near' : said_mL > needed ? 'too much' : 'too little';
    const at = changedAt(plan, receiver.label ?? '');
    const share = values['bench.NaOH_M'] / perTitration;
    const part = session.workUp.aliquotShare;
    const whole = alkaliFor(receiver.HCl_mmol, values['bench.NaOH_M']);
    return html`<p>You expect ${millilitres(said_mL, 2)}: <strong>${verdict}</strong>. The receiver holds ${millimoles(receiver.HCl_mmol, 1)} of acid, which takes ${millilitres(needed, 2)} of alkali${share === 1 ? '' : ` for one portion (${millilitres(whole, 2)} for all of it)`}.</p>
      ${at === undefined || at < EARLIER_ML ? nothing : html`<p>Had this receiver been put under the tip ${EARLIER_ML} mL earlier, at ${millilitres(at - EARLIER_ML)}, it would hold ${millimoles(earlier.HCl_mmol, 1)}: ${millilitres(earlier.HCl_mmol / perTitration, 2)} of alkali, ${ratioWords(earlier.HCl_mmol / receiver.HCl_mmol)}.</p>`}
      <p class="soft">Of what was loaded it holds ${shareWords('cobalt', receiver.Co_mmol, part * (plan.results.loaded.Co_mmol ?? 0))} and ${shareWords('nickel', receiver.Ni_mmol, part * (plan.results.loaded.Ni_mmol ?? 0))}.</p>`;
  }

  private take(event: Event & { target: HTMLSelectElement }) {
    if (event.target.value !== '') this.session?.workUp.take(event.target.value);
  }

  private expect(event: Event) {
    event.preventDefault();
    const input = this.renderRoot.querySelector('input');
    const text = input?.value ?? '';
    const said = parseQuantity(text, 'volume');
    const negative = said.ok && said.value < 0;
    this.fault = said.ok && !negative ? '' : alkaliFault(text.trim(), said.ok ? '0 mL or more' : said.expected);
    const { workUp } = this.session ?? {};
    if (this.fault !== '' || !this.session || !workUp?.values) return;
    const { portion_mL, flask_mL } = sharesOf(this.session, workUp.values);
    workUp.expect(text, portion_mL === flask_mL ? 'eluate' : 'portion');
  }
}

/** Nothing typed is no mistake: it is asked for. */
function alkaliFault(text: string, expected: string): string {
  return text === '' ? 'Write the alkali that you expect, in mL, such as 12.5.' : `“${text}” was not understood. Write ${expected}.`;
}

/** What was or is asked for: a portion of a volumetric flask, or all of the eluate (both 1). What was answered is not asked anew. */
function sharesOf({ workUp }: Session, values: Parameters): { readonly portion_mL: number; readonly flask_mL: number } {
  const asked = workUp.saved.expected === undefined ? undefined : workUp.saved.expected_for;
  const inPortions = asked ? asked === 'portion' : values['workup.titrations'] > 1 || workUp.state?.portion;
  return inPortions
    ? { portion_mL: values['workup.portion_mL'], flask_mL: workUp.state?.flask_mL ?? values['workup.flask_mL'] }
    : { portion_mL: 1, flask_mL: 1 };
}

/** A smaller share is not given as a number. */
const TRACE = 1e-4;

function shareWords(metal: string, held = 0, loaded = 0): string {
  const share = loaded > 0 ? held / loaded : 0;
  return share < TRACE ? `practically no ${metal}` : `${percent(share, 2)} of the ${metal}`;
}

function ratioWords(ratio: number): string {
  if (!Number.isFinite(ratio)) return 'where there was none';
  return ratio < 1.05 ? 'about as much' : `${significant(ratio, 2)} times as much`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-receiver-taken': ReceiverTaken;
  }
}
