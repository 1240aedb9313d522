import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Issue } from '../../sim/terms/types.ts';
import { localStorageOf } from '../store/keep/storage.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { KeysController } from '../ui/keys.ts';
import { showMessage } from '../ui/message.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { LabDraft } from './draft.ts';
import { controlAt } from './reveal.ts';
import { SECTIONS, type Section, type SectionId, sectionOf } from './sections/contents.ts';
import { labelAt, sectionWords } from './sections/section-words.ts';
import { foldStyles } from './sections/styles.ts';
import { UndoKeys } from './undo-keys.ts';
import { viewStyles } from './view-styles.ts';
import './pictures/pictures.ts';
import './sections/bottles-part.ts';
import './sections/faults-part.ts';
import './sections/fields.ts';
import './sections/lesson-part.ts';
import './sections/procedure/procedure-part.ts';
import './sections/resin-part.ts';
import './sections/sample-part.ts';
import './sections/seen-part.ts';
import './tools.ts';

/** Problems that are listed above the sections; the others stand at their controls. */
const LISTED = 4;

/** For an instructor: everything that makes a lab, beside the column and the run that result from it. */
@customElement('bf-lab')
export class LabView extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, foldStyles, viewStyles];

  @property({ attribute: false }) session: Session | undefined;
  @state() private opened: ReadonlySet<SectionId> = new Set(['column']);
  /** A place behind a second press that is led to. */
  @state() private sought = '';
  @query('.editor') private editor!: HTMLElement;
  private readonly draft = new LabDraft(localStorageOf(window));
  private begun = false;

  constructor() {
    super();
    new UndoKeys(this, () => this.draft);
    new KeysController(this, { heading: 'Lab', entries: [{ key: 'Ctrl Z', does: 'undo the last change of the lab; Ctrl Y does it again' }] });
  }

  override willUpdate() {
    const { session } = this;
    if (this.begun || !session?.store.scenario) return;
    this.begun = true;
    void this.draft.begin(session).then((message) => message && showMessage(this, { kind: 'problem', text: message }));
  }

  override render() {
    const { session, draft } = this;
    if (!session || !draft.ready) return html`<h1>Set up your lab</h1><p role="status">The lab is being opened …</p>`;
    return html`<div class="top"><h1>Set up your lab</h1><bf-lab-tools .session=${session} .draft=${draft}></bf-lab-tools></div>
      <div class="two">
        <div class="editor">
          ${this.verdict(draft)}
          ${SECTIONS.map((section) => this.section(draft, section))}
        </div>
        <div class="pictures"><bf-lab-pictures .draft=${draft}></bf-lab-pictures></div>
      </div>`;
  }

  private verdict(draft: LabDraft) {
    const { issues } = draft;
    if (issues.length === 0) return html`<p class="fits" role="status">Everything fits together.</p>`;
    const count = issues.length === 1 ? 'One thing does' : `${issues.length} things do`;
    return html`<div class="misfits" role="alert"><p>${count} not fit:</p>
      <ul>${issues.slice(0, LISTED).map((issue) => html`<li><button type="button" class="plain" @click=${() => this.lead(issue)}>${labelAt(draft.json, issue.path)}</button> expected ${issue.expected}; received ${issue.received}</li>`)}</ul>
      ${issues.length > LISTED ? html`<p>and ${issues.length - LISTED} more below.</p>` : nothing}</div>`;
  }

  private section(draft: LabDraft, section: Section) {
    const { id, title } = section;
    const wrong = draft.issues.filter(({ path }) => sectionOf(path) === id).length;
    return html`<details class="section" id=${id} .open=${this.opened.has(id)} @toggle=${(event: ToggleEvent & { target: HTMLDetailsElement }) => this.fold(id, event)}>
      <summary><span class="title">${title}</span><span class="brief">${sectionWords(draft.json, id)}</span>${wrong > 0 ? html`<span class="wrong">${wrong} not fitting</span>` : nothing}</summary>
      ${this.opened.has(id) ? html`<div class="inside">${this.content(draft, section)}</div>` : nothing}
    </details>`;
  }

  private content(draft: LabDraft, { id, main, more }: Section) {
    switch (id) {
      case 'resin':
        return html`<bf-lab-resin .draft=${draft}></bf-lab-resin>`;
      case 'bottles':
        return html`<bf-lab-bottles .draft=${draft}></bf-lab-bottles>`;
      case 'lesson':
        return html`<bf-lab-lesson .draft=${draft}></bf-lab-lesson>`;
      case 'sample':
        return html`<bf-lab-sample .draft=${draft}></bf-lab-sample>`;
      case 'procedure':
        return html`<bf-lab-procedure .draft=${draft} .sought=${this.sought}></bf-lab-procedure>`;
      case 'seen':
        return html`<bf-lab-seen .draft=${draft}></bf-lab-seen>`;
      case 'faults':
        return html`<bf-lab-faults .draft=${draft}></bf-lab-faults>`;
      default:
        return html`<bf-lab-fields .draft=${draft} .main=${main} .more=${more} .open=${more.some((path) => path === this.sought)}></bf-lab-fields>`;
    }
  }

  private fold(id: SectionId, event: ToggleEvent & { target: HTMLDetailsElement }) {
    // The folds inside a section tell of themselves too, but not through the shadow of their element.
    const open = event.target.open;
    if (open === this.opened.has(id)) return;
    this.opened = new Set(open ? [...this.opened, id] : [...this.opened].filter((one) => one !== id));
  }

  /** Opens what hides a control and goes there. */
  private async lead({ path }: Issue) {
    this.opened = new Set([...this.opened, sectionOf(path)]);
    this.sought = path;
    await this.updateComplete;
    (await controlAt(this.editor, path))?.focus();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab': LabView;
  }
}
