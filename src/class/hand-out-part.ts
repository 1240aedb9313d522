import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type HandOut, handOutText, OWN_MAX, QUESTION_MAX, readHandOut } from '../../sim/handed/index.ts';
import { inWords, merged } from '../../sim/input/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { questionsOf } from '../../sim/teach/index.ts';
import { encodeHandOut } from '../store/given/hand-out-link.ts';
import { differences } from '../store/keep/difference.ts';
import { fileName, offerFile } from '../store/keep/files.ts';
import type { Json } from '../store/keep/saved.ts';
import { FIRST_SCENARIO, scenarioJson } from '../store/shipped/catalog.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { emit } from '../ui/emit.ts';
import { showMessage } from '../ui/message.ts';
import { controlStyles } from '../ui/styles.ts';
import { type Modules, qrOf } from './qr.ts';
import { type ChosenRules, ruleControls, rulesOf } from './rules.ts';
import { sheet, sheetStyles } from './sheet.ts';
import { findable, hasFaults, soundOf, withoutFaults } from './to-find.ts';
import '../ui/day/day-warning.ts';
import { copied } from '../ui/text/clipboard.ts';

/** Longer addresses are cut by some mail programs and chats; common practice, no source. */
const LINK_EASY = 2000;

interface Ready {
  /** Text of the hand-out to which this belongs. */
  readonly of: string;
  readonly link: string;
  readonly problem: string;
  readonly modules: Modules | undefined;
}

/**
 * Hand out: the rules for the open scenario, and the link, the file and the page for students made from them.
 *
 * @fires bf-handed-out - {handOut} that a link was copied of, or that was saved or printed
 */
@customElement('bf-hand-out')
export class HandOutPart extends LiveElement {
  static override styles = [
    controlStyles,
    sheetStyles,
    css`
      :host { display: grid; gap: var(--gap-large); grid-template-columns: minmax(0, 1fr); }
      .form { display: grid; gap: var(--gap); grid-template-columns: minmax(0, 1fr); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: end; }
      fieldset { border: 0; margin: 0; padding: 0; min-width: 0; }
      legend { padding: 0; font-size: var(--text-small); color: var(--soft); }
      label.check { display: flex; gap: 0.6em; align-items: center; min-height: var(--target); }
      .check input { width: 1.25em; height: 1.25em; margin: 0; flex: none; }
      .own { display: flex; gap: var(--gap-small); align-items: center; }
      .own span { flex: 1; min-width: 0; overflow-wrap: anywhere; }
      label.words { display: grid; flex: 1 1 18rem; font-size: var(--text-small); color: var(--soft); }
      p { margin: 0; }
      .problem { color: var(--problem-ink); overflow-wrap: anywhere; }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .address { font: inherit; font-size: var(--text-small); color: inherit; background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); width: 100%; min-height: 4.5rem; padding: 0.5em; overflow-wrap: anywhere; }
      @media print { .form { display: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private chosen: ChosenRules = {};
  @state() private asked: readonly string[] = [];
  @state() private own: readonly string[] = [];
  /** Set by the instructor; undefined to follow the open run, whose faults may be hidden. */
  @state() private toFind: boolean | undefined;
  /** Handed out without the faults that are on the bench. */
  @state() private faultless = false;
  /** JSON of the first scenario, once it is needed. */
  @state() private first: Json | undefined;
  @state() private typed = '';
  @state() private ready: Ready | undefined;
  private making = '';

  override willUpdate() {
    if (this.isToFind && this.first === undefined) void this.fetchFirst();
    const handOut = this.handOut;
    const text = handOut ? handOutText(handOut) : '';
    if (!handOut || text === this.making) return;
    this.making = text;
    void this.make(handOut, text);
  }

  override render() {
    const { session, handOut, written } = this;
    if (!session || !written || !handOut) return nothing;
    const { ready } = this;
    const current = ready?.of === this.making ? ready : undefined;
    return html`<div class="form">
        <p>Everybody who opens the link or the file gets the open scenario, “${written.title}”, under these rules. The page keeps the rules and each browser counts its own tries: this guides a class but does not lock anybody out.</p>
        <bf-day-warning .scenario=${written}></bf-day-warning>
        ${ruleControls(written, this.chosen, (chosen) => {
          this.chosen = { ...this.chosen, ...chosen };
        })}${this.faults(session)}${this.questions(session)}
        ${current?.problem ? html`<p class="problem" role="alert">${current.problem}</p>` : nothing}
        ${current?.link ? this.ways(current) : nothing}
      </div>
      ${current?.link ? sheet({ scenario: written, handOut, link: current.link, modules: current.modules }) : nothing}`;
  }

  private faults(session: Session) {
    return findable(session, {
      toFind: this.isToFind,
      left: this.faultless,
      takeToFind: (toFind) => {
        this.toFind = toFind;
      },
      leaveOut: (left) => {
        this.faultless = left;
      },
    });
  }

  private questions({ written }: Session) {
    const known = written ? questionsOf(written) : [];
    return html`<fieldset><legend>asked at the end, a choice with its reason</legend>
        ${known.map(({ id, prompt }) => html`<label class="check"><input type="checkbox" .checked=${this.asked.includes(id)} @change=${() => this.ask(id)} /><span>${prompt}</span></label>`)}
      </fieldset>
      <fieldset><legend>asked at the end, in your words</legend>
        ${this.own.map((question, i) => html`<div class="own"><span>${question}</span><button type="button" aria-label="Leave out: ${question}" @click=${() => this.leaveOut(i)}>Leave out</button></div>`)}
        ${
          this.own.length < OWN_MAX
            ? html`<div class="row"><label class="words">question <input type="text" maxlength=${QUESTION_MAX} .value=${this.typed} @input=${this.type} @keydown=${this.key} /></label>
              <button type="button" ?disabled=${this.typed.trim() === ''} @click=${this.add}>Add</button></div>`
            : nothing
        }
      </fieldset>`;
  }

  private ways({ link, modules }: Ready) {
    return html`<label>Link, ${link.length} characters
        <textarea class="address" readonly spellcheck="false" .value=${link}></textarea></label>
      <div class="row"><button type="button" class="primary" @click=${this.copy}>Copy link</button>${this.isToFind ? nothing : html`<button type="button" @click=${this.save}>Save as a file</button>`}<button type="button" @click=${this.print}>Print the page for students</button></div>
      ${this.isToFind ? html`<p class="soft">There is no file, since anyone could read it. To compare runs with this hand-out, paste the link under Take in.</p>` : nothing}
      ${link.length > LINK_EASY ? html`<p class="soft">Some mail programs cut links of more than ${LINK_EASY} characters. Hand out the file or the printed code instead.</p>` : nothing}
      ${modules ? nothing : html`<p class="soft">The link is too long for a QR code.</p>`}`;
  }

  /** The scenario that is handed out. */
  private get written(): Scenario | undefined {
    const { written } = this.session ?? {};
    return written && this.faultless ? soundOf(written) : written;
  }

  private get isToFind(): boolean {
    const { session, written } = this;
    const mystery = session?.mystery;
    return written !== undefined && hasFaults(written) && (this.toFind ?? mystery !== undefined);
  }

  private async fetchFirst() {
    this.first = await scenarioJson(FIRST_SCENARIO);
  }

  /** The present hand-out: what differs from the shipped scenario, except for the column of this page. */
  private get handOut(): HandOut | undefined {
    const { session, isToFind: hidden, first, written } = this;
    if (!session || !written || (hidden && first === undefined)) return undefined;
    const known = questionsOf(written).map(({ id }) => id);
    // The id of a demonstration would name its fault.
    const [base, shipped] = hidden && first !== undefined ? [FIRST_SCENARIO, first] : [session.base, session.shipped];
    const json = this.faultless ? withoutFaults(session.json, shipped) : session.json;
    return {
      base,
      differences: merged(differences(shipped, json), { seed: null }),
      seed: written.seed,
      ...rulesOf(written, this.chosen),
      asked: known.filter((id) => this.asked.includes(id)),
      own: this.own,
      ...(hidden && { faults: 'hidden' as const }),
    };
  }

  private async make(handOut: HandOut, of: string) {
    const read = readHandOut(of);
    const packed = read.ok ? await encodeHandOut(handOut) : undefined;
    const link = packed?.ok ? new URL(`#bench?task=${packed.value}`, location.href).href : '';
    const problem = read.ok ? (packed?.ok === false ? packed.message : '') : inWords(read.issues);
    const modules = link === '' ? undefined : await qrOf(link);
    if (of !== this.making) return;
    this.ready = { of, link, problem, modules };
  }

  private ask(id: string) {
    this.asked = this.asked.includes(id) ? this.asked.filter((one) => one !== id) : [...this.asked, id];
  }

  private readonly type = (event: InputEvent & { target: HTMLInputElement }) => {
    this.typed = event.target.value;
  };

  private readonly key = (event: KeyboardEvent) => {
    if (event.key === 'Enter') this.add();
  };

  private readonly add = () => {
    const question = this.typed.trim();
    if (question === '' || this.own.includes(question)) return;
    this.own = [...this.own, question];
    this.typed = '';
  };

  private leaveOut(at: number) {
    this.own = this.own.filter((_, i) => i !== at);
  }

  private readonly print = () => {
    this.givenOut();
    print();
  };

  private givenOut() {
    const { handOut } = this;
    if (handOut) emit(this, 'bf-handed-out', { handOut });
  }

  private readonly copy = async () => {
    this.givenOut();
    const link = this.ready?.link ?? '';
    showMessage(
      this,
      (await copied(link)) ? { kind: 'note', text: 'Link copied.' } : { kind: 'problem', text: 'The browser did not allow copying; the link is in the field.' },
    );
  };

  private readonly save = () => {
    const { handOut, session } = this;
    this.givenOut();
    if (handOut) offerFile(document, fileName(`hand-out ${session?.written?.title ?? ''}`, 'json'), `${handOutText(handOut, 1)}\n`);
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hand-out': HandOutPart;
  }
}
