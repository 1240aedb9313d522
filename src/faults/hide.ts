import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { encodeLink } from '../store/keep/link.ts';
import { LiveElement } from '../store/live-element.ts';
import { hiddenRun } from '../store/keep/hidden-run.ts';
import type { Session } from '../store/session.ts';
import { controlStyles } from '../ui/styles.ts';
import { showMessage } from '../ui/message.ts';
import { partStyles } from './styles.ts';
import '../ui/segmented.ts';
import { copied } from '../ui/text/clipboard.ts';

type Given = 'played' | 'fresh';

const GIVEN: readonly { value: Given; label: string }[] = [
  { value: 'played', label: 'the run as it is' },
  { value: 'fresh', label: 'the column only' },
];

/** Hands the run to a learner with its faults hidden: as a sealed link, or here and now. */
@customElement('bf-hide-faults')
export class HideFaults extends LiveElement {
  static override styles = [controlStyles, partStyles, css`h2 { font-size: 1rem; } bf-segmented { margin-bottom: var(--gap-small); }`];

  @property({ attribute: false }) session: Session | undefined;
  @state() private given: Given = 'played';
  @state() private address = '';

  override render() {
    return html`<section aria-labelledby="hide">
      <h2 id="hide">Hide from the learner</h2>
      <p>The learner sees bands, flow and effluent, and names the fault; then it is shown with the evidence. The sealed link hides the fault from view, but not from someone who examines the code of the page.</p>
      <bf-segmented label="the learner gets" .value=${this.given} .choices=${GIVEN} @bf-change=${this.take}></bf-segmented>
      <p class="soft">${this.given === 'played' ? 'The learner gets every action of this run, to watch.' : 'The learner gets the bottles and the bed and runs the column by hand; mistakes of handling are then the learner’s own.'}</p>
      <div class="row"><button type="button" @click=${this.copy}>Copy sealed link</button><button type="button" @click=${this.hideHere}>Hide on this page</button></div>
      ${this.address ? html`<p>The browser did not allow copying. The link: <a href=${this.address}>sealed run</a></p>` : nothing}
    </section>`;
  }

  private take(event: CustomEvent<{ value: string }>) {
    this.given = event.detail.value === 'fresh' ? 'fresh' : 'played';
  }

  private run() {
    const { json = {}, store } = this.session ?? {};
    return hiddenRun(json, store?.scenario?.seed ?? 1, this.given === 'played' ? (store?.log ?? []) : []);
  }

  private async copy() {
    const link = await encodeLink(await this.run(), { seal: true });
    if (!link.ok) return showMessage(this, { text: link.message, kind: 'problem' });
    const address = new URL(`#faults?run=${link.value}`, location.href).href;
    const done = await copied(address);
    this.address = done ? '' : address;
    if (done) showMessage(this, { text: 'Sealed link copied. It asks whoever opens it what is wrong.', kind: 'note' });
  }

  private async hideHere() {
    await this.session?.openRun(await this.run());
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hide-faults': HideFaults;
  }
}
