import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { catalog, EMPTY_BENCH } from '../store/shipped/catalog.ts';
import type { Outcome } from '../store/keep/saved.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { emit } from '../ui/emit.ts';
import type { Message } from '../ui/message.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import type { LabDraft } from './draft.ts';
import { putOnBench, sayOnBench } from './put-on-bench.ts';
import { labAddress, openLab, saveLab } from './share.ts';
import { copied } from '../ui/text/clipboard.ts';

const BENCH = 'bench';

/**
 * What is done with the lab as a whole: begin, undo, keep, pass on, use.
 *
 * @slot - further ways to pass the lab on
 * @fires bf-card - asks for the card for the stockroom
 */
@customElement('bf-lab-tools')
export class LabTools extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; --target: 2rem; margin-bottom: var(--gap-small); }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      label { display: flex; gap: var(--gap-small); align-items: center; min-width: 0; }
      p { margin: 0.25rem 0 0; font-size: var(--text-small); overflow-wrap: anywhere; }
      .problem { color: var(--problem-ink); }
      select { min-width: 0; max-width: 11rem; text-overflow: ellipsis; }
      @media (pointer: coarse) { :host { --target: 2.75rem; } }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) draft: LabDraft | undefined;
  /** Result of the last press; shown here, since a message over the page would cover the buttons. */
  @state() private told: Pick<Message, 'kind' | 'text'> = { kind: 'note', text: '' };

  override render() {
    const { session, draft } = this;
    if (!session || !draft) return nothing;
    return html`<div class="row">
        <label>Start from <select @change=${this.start}>
          <option value="">choose …</option>
          <option value=${EMPTY_BENCH}>an empty bench</option>
          ${session.labClosed ? nothing : html`<option value=${BENCH}>what is on the bench</option>`}
          ${catalog().map(({ id, title }) => html`<option value=${id}>${title}</option>`)}
        </select></label>
        <button type="button" ?disabled=${!draft.canUndo} @click=${() => draft.undo()}>Undo</button>
        <button type="button" ?disabled=${!draft.canRedo} @click=${() => draft.redo()}>Redo</button>
        <button type="button" @click=${this.save}>Save</button>
        <button type="button" @click=${this.openFile}>Open</button>
        <button type="button" @click=${this.copy}>Copy link to edit this lab</button>
        <button type="button" title="A link, a file or a page for students" @click=${this.handOut}>Hand out</button>
        <button type="button" @click=${() => emit(this, 'bf-card', undefined)}>Set-up card</button>
        <slot></slot>
        <button type="button" class="primary" @click=${this.use}>Use on the bench</button>
      </div>
      ${this.told.text === '' ? nothing : html`<p class=${this.told.kind} role=${this.told.kind === 'problem' ? 'alert' : 'status'}>${this.told.text}</p>`}`;
  }

  private async start(event: Event & { target: HTMLSelectElement }) {
    const { draft, session } = this;
    const { target } = event;
    const { value } = target;
    if (!draft || !session || value === '') return;
    target.value = '';
    const done = value === BENCH ? await draft.openBench(session) : await draft.startFrom(value);
    this.tell(done, 'A new lab is open; Undo brings back the one before it.');
  }

  save() {
    if (this.draft) this.tell(saveLab(this.draft, document), 'The lab was offered as a file.');
  }

  private async openFile() {
    const done = this.draft && (await openLab(this.draft, document));
    if (done) this.tell(done, 'The lab of the file is open; Undo brings back the one before it.');
  }

  private async copy() {
    const address = this.draft && (await labAddress(this.draft, location.href));
    if (!address) return;
    if (!address.ok) return this.tell(address, '');
    const said = (await copied(address.value))
      ? `Link copied, ${address.value.length} characters: it opens this lab for editing, for another instructor. For students, use Hand out.`
      : `The browser did not allow copying. The link: ${address.value}`;
    this.tell(address, said);
  }

  /** The lab as a fresh run; the one on the bench is put aside. */
  async use() {
    const { session, draft } = this;
    if (!session || !draft) return;
    const done = await putOnBench(session, draft, 'Use on the bench');
    if (!done.ok) return this.tell(done, '');
    location.hash = '#bench';
    sayOnBench(this, session, 'Your lab is on the bench.', done.value.putAside);
  }

  /** The form of the hand-out is about what is on the bench, so the lab goes there first. */
  private async handOut() {
    const { session, draft } = this;
    if (!session || !draft) return;
    const done = await putOnBench(session, draft, 'Hand out');
    if (!done.ok) return this.tell(done, '');
    location.hash = '#class/hand-out';
    sayOnBench(this, session, 'Your lab is on the bench, to be handed out.', done.value.putAside);
  }

  private tell(done: Outcome<unknown>, text: string): void {
    this.told = done.ok ? { kind: 'note', text } : { kind: 'problem', text: done.message };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-tools': LabTools;
  }
}
