import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { catalog, EMPTY_BENCH } from '../store/shipped/catalog.ts';
import { isHidden } from '../store/keep/mystery.ts';
import type { Outcome } from '../store/keep/saved.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { showMessage } from '../ui/message.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { millilitres } from '../ui/text/format.ts';
import type { LabDraft } from './draft.ts';

const BENCH = 'bench';

/** What is done with the lab as a whole: begin, undo, use. */
@customElement('bf-lab-tools')
export class LabTools extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); align-items: center; }
      label { display: flex; gap: var(--gap-small); align-items: center; min-width: 0; }
      select { min-width: 0; max-width: 16rem; text-overflow: ellipsis; }
      p { margin: var(--gap-small) 0; color: var(--soft); font-size: var(--text-small); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) draft: LabDraft | undefined;

  override render() {
    const { session, draft } = this;
    if (!session || !draft) return nothing;
    return html`<div class="row">
        <label>Start from <select @change=${this.start}>
          <option value="">choose …</option>
          <option value=${EMPTY_BENCH}>an empty bench</option>
          ${isHidden(session.mystery) ? nothing : html`<option value=${BENCH}>what is on the bench</option>`}
          ${catalog().map(({ id, title }) => html`<option value=${id}>${title}</option>`)}
        </select></label>
        <button type="button" ?disabled=${!draft.canUndo} @click=${() => draft.undo()}>Undo</button>
        <button type="button" ?disabled=${!draft.canRedo} @click=${() => draft.redo()}>Redo</button>
        <button type="button" class="primary" @click=${this.use}>Use on the bench</button>
      </div>
      <p>${this.onBench(session)}</p>`;
  }

  private onBench({ store }: Session): string {
    const { scenario, log, moment } = store;
    if (!scenario) return '';
    const done = log.length === 0 ? 'nothing done yet' : `${log.length} actions, ${millilitres(moment?.delivered_mL ?? 0)} delivered`;
    return `On the bench now: ${scenario.title} (column ${scenario.seed}), ${done}.`;
  }

  private async start(event: Event & { target: HTMLSelectElement }) {
    const { draft, session } = this;
    const { target } = event;
    const { value } = target;
    if (!draft || !session || value === '') return;
    target.value = '';
    const done = value === BENCH ? await draft.openBench(session) : await draft.startFrom(value);
    this.tell(done, 'The lab before it is one undo away.');
  }

  /** The lab as a fresh run; the one on the bench waits beside it. */
  private async use() {
    const { session, draft } = this;
    if (!session || !draft) return;
    if (!draft.scenario) return this.tell({ ok: false, message: 'Use on the bench: something does not fit yet; it is listed above the sections.' }, '');
    const before = session.saved();
    if (!(await session.openRun(await draft.forStudents())))
      return this.tell({ ok: false, message: `Use on the bench: ${session.issues[0]?.expected ?? 'not taken'}` }, '');
    session.putAside(before);
    location.hash = '#bench';
    showMessage(this, {
      kind: 'note',
      text: before.log.length > 0 ? 'Your lab is on the bench. The run before it is put aside.' : 'Your lab is on the bench.',
      ...(before.log.length > 0 ? { action: { label: 'Back to that run', run: () => void session.goBack() } } : {}),
    });
  }

  private tell(done: Outcome<undefined>, text: string): void {
    showMessage(this, done.ok ? { kind: 'note', text } : { kind: 'problem', text: done.message });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-tools': LabTools;
  }
}
