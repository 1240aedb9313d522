import { columnName } from '../ui/text/column-name.ts';
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { differencesBetween, valueAt } from '../../sim/lab/index.ts';
import type { Issue } from '../../sim/terms/types.ts';
import { localStorageOf } from '../store/keep/storage.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { KeysController } from '../ui/keys.ts';
import { showMessage } from '../ui/message.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { millilitres } from '../ui/text/format.ts';
import { LabDraft } from './draft.ts';
import { controlAt } from './reveal.ts';
import { CALIBRATE, openAddress } from './share.ts';
import { SECTIONS, type Section, type SectionId, sectionOf } from './sections/contents.ts';
import { labelAt, sectionWords } from './sections/section-words.ts';
import { foldStyles } from './sections/styles.ts';
import { UndoKeys } from './undo-keys.ts';
import { viewStyles } from './view-styles.ts';
import './calibrate/calibrate-part.ts';
import './card/setup-card.ts';
import './pictures/pictures.ts';
import './sections/bottles-part.ts';
import './sections/differences-part.ts';
import './sections/faults-part.ts';
import './sections/fields.ts';
import './sections/lesson-part.ts';
import './sections/procedure/procedure-part.ts';
import './sections/procedure/task-part.ts';
import './sections/resin-part.ts';
import './sections/sample-part.ts';
import './sections/seen-part.ts';
import type { LabTools } from './tools.ts';
import './tools.ts';

/** Most problems that are listed above the sections; the others are shown at their controls. */
const LISTED = 4;

/** For an instructor: everything that makes a lab, beside the column and the run that result from it. */
@customElement('bf-lab')
export class LabView extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, foldStyles, viewStyles];

  @property({ attribute: false }) session: Session | undefined;
  @state() private opened: ReadonlySet<SectionId> = new Set(['column']);
  @state() private comparing = false;
  /** The card is shown in place of the editor. */
  @state() private carding = false;
  @state() private calibrating = location.hash === CALIBRATE;
  /** A place behind a second press that is led to. */
  @state() private sought = '';
  @query('.editor') private editor!: HTMLElement;
  @query('bf-lab-tools') private tools!: LabTools;
  private readonly draft = new LabDraft(localStorageOf(window));
  private begun = false;
  private hasCalibrated = false;

  constructor() {
    super();
    new UndoKeys(this, () => this.draft);
    new KeysController(this, { heading: 'Lab', entries: [{ key: 'Ctrl Z', does: 'undo the last change of the lab; Ctrl Y redoes it' }] });
  }

  override willUpdate() {
    const { session } = this;
    if (this.begun || !session?.store.scenario) return;
    this.begun = true;
    void this.begin(session);
  }

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('hashchange', this.takeAddress);
    // The address may have changed while another view was shown.
    void this.takeAddress();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.takeAddress);
  }

  override render() {
    const { session, draft } = this;
    if (!session || !draft.ready) return html`<h1>Set up your lab</h1><p role="status">The lab is being opened …</p>`;
    return html`<div class="top"><div class="named"><h1>Set up your lab</h1><p title=${titleOf(draft)}>${titleOf(draft)}</p></div>
        <bf-lab-tools .session=${session} .draft=${draft} @bf-card=${this.turnCard}></bf-lab-tools></div>
      <div class="card" ?hidden=${!this.carding}>
        <div class="row"><button type="button" @click=${this.turnCard}>Back to the editor</button><button type="button" class="primary" @click=${() => print()}>Print</button></div>
        <bf-setup-card .draft=${draft} ?shown=${this.carding}></bf-setup-card>
      </div>
      ${this.calibration(draft)}
      ${this.carding || this.calibrating ? nothing : this.editing(session, draft)}`;
  }

  private calibration(draft: LabDraft) {
    // Kept once it was opened, so that a fit goes on behind the editor.
    this.hasCalibrated ||= this.calibrating;
    if (!this.hasCalibrated) return nothing;
    return html`<div class="calibrate" ?hidden=${this.carding || !this.calibrating} @bf-use=${() => this.tools.use()} @bf-save=${() => this.tools.save()}>
      <p class="back"><a href="#lab">Back to the editor</a></p>
      <bf-lab-calibrate .draft=${draft}></bf-lab-calibrate></div>`;
  }

  private editing(session: Session, draft: LabDraft) {
    return html`
      <div class="two">
        <div class="editor">
          <p class="bench">${benchWords(session)}</p>
          <p class="bench"><a href=${CALIBRATE}>Calibrate</a> this lab with what you measured on a run.</p>
          ${this.verdict(draft)}
          ${SECTIONS.map((section) => this.section(draft, section))}
          ${this.differences(draft)}
        </div>
        <div class="pictures"><bf-lab-pictures .draft=${draft}></bf-lab-pictures></div>
      </div>`;
  }

  private verdict(draft: LabDraft) {
    const { issues } = draft;
    if (issues.length === 0) return html`<p class="fits" role="status">Everything is valid.</p>`;
    const count = issues.length === 1 ? 'One entry is' : `${issues.length} entries are`;
    return html`<div class="misfits" role="alert"><p>${count} not valid:</p>
      <ul>${issues.slice(0, LISTED).map((issue) => html`<li><button type="button" class="plain" @click=${() => this.lead(issue)}>${labelAt(draft.json, issue.path)}</button> expected ${issue.expected}; received ${issue.received}</li>`)}</ul>
      ${issues.length > LISTED ? html`<p>and ${issues.length - LISTED} more below.</p>` : nothing}</div>`;
  }

  private section(draft: LabDraft, section: Section) {
    const { id, title } = section;
    const wrong = draft.issues.filter(({ path }) => sectionOf(path) === id).length;
    return html`<details class="section" id=${id} .open=${this.opened.has(id)} @toggle=${(event: ToggleEvent & { target: HTMLDetailsElement }) => this.fold(id, event)}>
      <summary><span class="title">${title}</span><span class="brief">${sectionWords(draft.json, id)}</span>${wrong > 0 ? html`<span class="wrong">${wrong} not valid</span>` : nothing}</summary>
      ${this.opened.has(id) ? html`<div class="inside">${this.content(draft, section)}</div>` : nothing}
    </details>`;
  }

  private differences(draft: LabDraft) {
    const count = differencesBetween(draft.lab.start, draft.json).length;
    return html`<details class="section" id="differences" .open=${this.comparing} @toggle=${(event: ToggleEvent & { target: HTMLDetailsElement }) => {
      this.comparing = event.target.open;
    }}>
      <summary><span class="title">What differs</span><span class="brief">${count === 0 ? 'nothing' : count} compared with the starting scenario</span></summary>
      ${this.comparing ? html`<div class="inside"><bf-lab-differences .draft=${draft}></bf-lab-differences></div>` : nothing}
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
        return html`<bf-lab-sample .draft=${draft} .sought=${this.sought}></bf-lab-sample>`;
      case 'procedure':
        return html`<bf-lab-procedure .draft=${draft} .sought=${this.sought}></bf-lab-procedure><bf-lab-task .draft=${draft} .limits=${main}></bf-lab-task>`;
      case 'seen':
        return html`<bf-lab-seen .draft=${draft}></bf-lab-seen>`;
      case 'faults':
        return html`<bf-lab-faults .draft=${draft}></bf-lab-faults>`;
      default:
        return html`<bf-lab-fields .draft=${draft} .main=${main} .more=${more} .open=${more.some((path) => path === this.sought)}></bf-lab-fields>`;
    }
  }

  private fold(id: SectionId, event: ToggleEvent & { target: HTMLDetailsElement }) {
    // Folds inside a section fire this event too, but it does not leave their shadow root.
    const open = event.target.open;
    if (open === this.opened.has(id)) return;
    this.opened = new Set(open ? [...this.opened, id] : [...this.opened].filter((one) => one !== id));
  }

  private async begin(session: Session) {
    const message = await this.draft.begin(session);
    if (message !== '') showMessage(this, { kind: 'problem', text: message });
    await this.takeAddress();
  }

  /** Opens the lab in the address and takes it out of the address, so that a reload keeps what was done since. */
  private readonly takeAddress = async () => {
    const { hash } = location;
    this.calibrating = hash === CALIBRATE;
    if (!this.draft.ready) return;
    const done = await openAddress(this.draft, hash);
    if (!done) return;
    if (location.hash === hash) history.replaceState(history.state, '', '#lab');
    showMessage(
      this,
      done.ok ? { kind: 'note', text: 'The lab of the link is open; Undo brings back the one before it.' } : { kind: 'problem', text: done.message },
    );
  };

  private turnCard() {
    this.carding = !this.carding;
  }

  /** Unfolds what hides a control and focuses it. */
  private async lead({ path }: Issue) {
    this.opened = new Set([...this.opened, sectionOf(path)]);
    this.sought = path;
    await this.updateComplete;
    (await controlAt(this.editor, path))?.focus();
  }
}

function titleOf({ json }: LabDraft): string {
  const title = valueAt(json, 'title');
  return typeof title === 'string' ? title : '';
}

/** What "Use on the bench" would put aside. */
function benchWords(session: Session): string {
  const { scenario, log, moment } = session.store;
  if (!scenario) return '';
  const done = log.length === 0 ? 'nothing done yet' : `${millilitres(moment?.delivered_mL ?? 0)} delivered`;
  return `On the bench now: ${scenario.title} (${columnName(scenario.seed)}), ${done}.${session.task.closesLab(session.given) ? ' It was handed out and opens here when its tries are over.' : ''}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab': LabView;
  }
}
