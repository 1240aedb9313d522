import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { TEXT_MAX, inWords } from '../../sim/input/index.ts';
import { askForFile, fileName, offerFile, openRunFile, runFileText } from '../store/keep/files.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { emit } from '../ui/emit.ts';
import { showMessage } from '../ui/message.ts';
import { showRuns } from '../ui/show-runs.ts';
import { controlStyles } from '../ui/styles.ts';
import { routeHash } from './route.ts';
import { copied } from '../ui/text/clipboard.ts';

/** What can be done with the run as a whole: copy a link, save, open. */
@customElement('bf-run-menu')
export class RunMenu extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: grid; }
      button { text-align: left; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    if (!session) return nothing;
    return html`
      <button type="button" class="plain" @click=${() => showRuns(this)}>Kept runs${session.runs.length > 0 ? ` (${session.runs.length})` : ''}</button>
      <button type="button" class="plain" @click=${this.copyLink}>Copy link</button>
      <button type="button" class="plain" @click=${this.save}>Save to a file</button>
      <button type="button" class="plain" @click=${this.openFile}>Open a file</button>
      <button type="button" class="plain" @click=${() => emit(this, 'bf-hand-in', undefined)}>Hand in</button>
      ${session.hasBeside ? html`<button type="button" class="plain" @click=${() => session.goBack()}>Back to the run before</button>` : nothing}
      ${session.unread.length > 0 ? html`<button type="button" class="plain" @click=${this.saveUnread}>Save what could not be read</button>` : nothing}`;
  }

  private async copyLink() {
    const link = await this.session?.link();
    if (!link) return;
    if (!link.ok) return showMessage(this, { text: link.message, kind: 'problem' });
    const address = new URL(routeHash({ view: location.hash.replace(/^#/, '').split('?')[0], shared: { kind: 'run', text: link.value } }), location.href).href;
    const text = (await copied(address))
      ? 'Link copied: it holds the scenario, the seed and every action so far.'
      : `The browser did not allow copying. The link: ${address}`;
    showMessage(this, { text, kind: 'note' });
  }

  private save() {
    const { session } = this;
    if (!session) return;
    const title = session.store.scenario?.title ?? 'run';
    offerFile(document, fileName(title, 'json'), runFileText(session.saved(), { results: session.store.atPresent?.results }));
  }

  /** Each text as it was found, with the reason; once saved they need not be offered again. */
  private saveUnread() {
    const { session } = this;
    if (!session) return;
    offerFile(document, 'bandfall-unread.json', `${JSON.stringify({ kind: 'bandfall-unread', found: session.unread }, undefined, 2)}\n`);
    showMessage(this, {
      text: `What could not be read was offered as a file: ${session.unread.map(({ reason }) => reason).join('; ')}`,
      kind: 'note',
      action: { label: 'Forget it here', run: () => session.forgetUnread() },
    });
  }

  /** True if the file is something handed out: then it is opened, or it is said why not. */
  private async openHandOut(file: File): Promise<boolean> {
    if (file.size > TEXT_MAX) return false;
    const { isHandOut, readHandOut } = await import('../../sim/handed/index.ts');
    const text = await file.text();
    if (!isHandOut(text)) return false;
    const read = readHandOut(text);
    const problem = read.ok ? await this.session?.task.open(read.handOut) : `hand-out: ${inWords(read.issues)}`;
    showMessage(
      this,
      problem === undefined ? { text: `Opened ${file.name}.`, kind: 'note' } : { text: `${file.name} was not opened. ${problem}`, kind: 'problem' },
    );
    return true;
  }

  private async openFile() {
    const file = await askForFile(document);
    if (!file || !this.session || (await this.openHandOut(file))) return;
    const reading = await openRunFile(file);
    if (reading.ok && (await this.session.openRun(reading.value))) {
      return showMessage(this, { text: `Opened ${file.name}.`, kind: 'note' });
    }
    const issues = reading.ok ? this.session.issues : reading.issues;
    showMessage(this, {
      text: `${file.name} was not opened. ${inWords(issues)}`,
      kind: 'problem',
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-run-menu': RunMenu;
  }
}
