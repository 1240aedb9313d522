import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { handedInText, WHO_MAX } from '../../sim/handed/index.ts';
import { encodeHandedIn, handedIn } from '../store/given/hand-in.ts';
import { fileName, offerFile } from '../store/keep/files.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import type { Dialog } from '../ui/dialog.ts';
import type { Message } from '../ui/message.ts';
import { controlStyles } from '../ui/styles.ts';
import './questions.ts';
import '../ui/dialog.ts';
import { copied } from '../ui/text/clipboard.ts';

/** Handing in a run: the questions that were asked with it, a name or code, and the run as a file or a link. */
@customElement('bf-hand-in')
export class HandIn extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      .parts { display: grid; gap: var(--gap-large); grid-template-columns: minmax(0, 1fr); }
      p { margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: end; }
      label.who { display: grid; }
      .said { overflow-wrap: anywhere; }
      .problem { color: var(--problem-ink); }
      .soft { color: var(--soft); font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private said: Message | undefined;
  @query('bf-dialog') private dialog!: Dialog;
  @query('input.who') private who!: HTMLInputElement;

  async show(): Promise<void> {
    this.said = undefined;
    await this.updateComplete;
    await this.dialog.show();
  }

  override render() {
    const { session } = this;
    if (!session) return nothing;
    return html`<bf-dialog heading="Hand in"><div class="parts">
      ${session.given ? this.task(session) : nothing}
      <div class="row"><label class="who">Name or code <input class="who" autocomplete="off" maxlength=${WHO_MAX} /></label></div>
      <p class="soft">Handed in are the name as typed, every action, your predictions and answers, and the figures they came to. The run is computed again where it is taken in. Nothing is sent from here: give the file or the link to your instructor.</p>
      <div class="row"><button type="button" class="primary" @click=${this.save}>Save as a file</button><button type="button" @click=${this.copy}>Copy as a link</button></div>
      <p class="said ${this.said?.kind ?? ''}" role=${this.said?.kind === 'problem' ? 'alert' : 'status'}>${this.said?.text ?? ''}</p>
    </div></bf-dialog>`;
  }

  private task({ given, store, task }: Session) {
    if (!given) return nothing;
    const { attempt, handOut, ended } = given;
    return html`<p><strong>Try ${attempt} of ${handOut.tries}</strong>${ended ? '' : '. Questions are asked when the try has ended.'}</p>
      ${
        ended
          ? html`<bf-given-questions .session=${this.session}></bf-given-questions>`
          : html`<div class="row"><button type="button" ?disabled=${store.log.length === 0} @click=${() => task.end()}>End this try</button></div>`
      }`;
  }

  private async save() {
    const { session } = this;
    if (!session) return;
    const run = handedIn(session, this.who.value);
    if (!run.ok) return this.say(run.message, 'problem');
    offerFile(document, fileName(`run-${run.value.who}`, 'json'), handedInText(run.value));
    this.say('Saved as a file to hand in.', 'note');
  }

  private async copy() {
    const { session } = this;
    if (!session) return;
    const run = handedIn(session, this.who.value);
    if (!run.ok) return this.say(run.message, 'problem');
    const packed = await encodeHandedIn(run.value, session.mystery !== undefined);
    if (!packed.ok) return this.say(packed.message, 'problem');
    const address = new URL(`#class?handed=${packed.value}`, location.href).href;
    this.say((await copied(address)) ? `Link copied, ${address.length} characters.` : `The browser did not allow copying. The link: ${address}`, 'note');
  }

  private say(text: string, kind: Message['kind']) {
    this.said = { text, kind };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hand-in': HandIn;
  }
}
