import { columnName } from '../../ui/text/column-name.ts';
import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { NAME_MAX, idOf, isWorthKeeping, type KeptRun } from '../../store/keep/shelf.ts';
import { titleOf } from '../../store/shipped/catalog.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { workerThread } from '../../store/threads/model-thread.ts';
import { announce } from '../../ui/announce.ts';
import type { Dialog } from '../../ui/dialog.ts';
import { millilitres, percent } from '../../ui/text/format.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { comparison } from './comparison.ts';
import { HEIGHT, runDrawing, WIDTH } from './run-drawing.ts';
import { keyOf, RunPictures, type ToldRun } from './run-pictures.ts';
import { runsStyles } from './runs-styles.ts';
import '../../ui/dialog.ts';
import '../../ui/table.ts';
import '../../ui/named/column-name.ts';

type Doing = 'naming' | 'deleting' | 'comparing';

/** The kept runs, newest first, each with a small picture: open, compare with the run on the page, name, delete. */
@customElement('bf-kept-runs')
export class KeptRuns extends LiveElement {
  static override styles = [controlStyles, hiddenStyles, runsStyles, css`:host { display: contents; }`];

  @property({ attribute: false }) session: Session | undefined;
  /** What is being done with which run. */
  @state() private at: { readonly id: string; readonly doing: Doing } | undefined;
  @state() private isOpen = false;
  @query('bf-dialog') private dialog!: Dialog;
  private readonly pictures = new RunPictures(workerThread);

  async show(): Promise<void> {
    this.isOpen = true;
    this.at = undefined;
    await this.updateComplete;
    await this.dialog.show();
    this.tell();
  }

  override render() {
    const { session } = this;
    if (!session) return nothing;
    const runs = [...session.runs].reverse();
    return html`<bf-dialog heading="Kept runs" @bf-close=${this.closed}>${
      this.isOpen
        ? html`${this.keeping(session)}
      ${
        runs.length === 0
          ? html`<p>No run is kept yet. A run that you leave for another scenario, a link or another column is put here by itself.</p>`
          : html`<ul class="runs">${runs.map((kept) => this.card(kept, session))}</ul>`
      }`
        : nothing
    }</bf-dialog>`;
  }

  private keeping(session: Session) {
    if (!isWorthKeeping(session.saved())) return html`<p class="soft">Nothing has been done yet in the run on the page.</p>`;
    return html`<form @submit=${this.keep}><label>Keep the run on the page as <input name="name" type="text" maxlength=${NAME_MAX} placeholder=${usualName(session)} autocomplete="off" /></label>
      <button type="submit" class="primary">Keep</button></form>`;
  }

  private card(kept: KeptRun, session: Session) {
    const told = this.pictures.told.get(keyOf(kept.run));
    const failed = this.pictures.failed.get(keyOf(kept.run));
    const here = kept.id === idOf(session.saved());
    const doing = this.at?.id === kept.id ? this.at.doing : undefined;
    return html`<li class=${doing === 'comparing' ? 'wide' : ''}>
      ${doing === 'comparing' && told ? comparison(kept, told, session) : this.picture(told, failed)}
      ${doing === 'naming' ? this.naming(kept) : html`<h3>${kept.name || (told?.title ?? titleOf(kept.run.base))}</h3>`}
      <p class="soft">${kept.name && told ? `${told.title}, ` : ''}<bf-column-name seed=${kept.run.seed}></bf-column-name>${here ? '; this is the run on the page' : ''}. ${told ? outcome(told) : (failed ?? 'Being worked out …')}</p>
      ${doing === 'deleting' ? this.deleting(kept) : this.buttons(kept, told, here, doing)}
    </li>`;
  }

  private picture(told: ToldRun | undefined, failed: string | undefined) {
    return html`<svg class="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${told ? `Bands in the bed, and what left: ${outcome(told)}` : (failed ?? 'being worked out')}>${told ? runDrawing(told.picture) : nothing}</svg>`;
  }

  private buttons({ id, name, run }: KeptRun, told: ToldRun | undefined, here: boolean, doing: Doing | undefined) {
    const of = html`<span class="unseen"> ${name || told?.title}, ${columnName(run.seed)}</span>`;
    return html`<div class="row">
      <button type="button" ?disabled=${here} @click=${() => this.open(id)}>Open${of}</button>
      <button type="button" ?disabled=${here || !told} aria-pressed=${doing === 'comparing'} @click=${() => this.do(id, doing === 'comparing' ? undefined : 'comparing')}>Compare${of}</button>
      <button type="button" class="plain" @click=${() => this.do(id, 'naming')}>Rename${of}</button>
      <button type="button" class="plain" @click=${() => this.do(id, 'deleting')}>Delete${of}</button>
    </div>`;
  }

  private naming({ id, name }: KeptRun) {
    return html`<form @submit=${(event: Event & { target: HTMLFormElement }) => {
      event.preventDefault();
      this.session?.renameKept(id, nameIn(event.target));
      this.at = undefined;
    }}><label>name <input name="name" type="text" maxlength=${NAME_MAX} autocomplete="off" .value=${name} /></label><button type="submit">Save this name</button></form>`;
  }

  private deleting({ id, name }: KeptRun) {
    return html`<div class="row" role="alert"><span>Delete${name ? ` “${name}”` : ''} for good?</span>
      <button type="button" @click=${() => this.drop(id)}>Delete it</button>
      <button type="button" class="plain" @click=${() => this.do(id, undefined)}>No</button></div>`;
  }

  private do(id: string, doing: Doing | undefined) {
    this.at = doing && { id, doing };
  }

  private keep(event: Event & { target: HTMLFormElement }) {
    event.preventDefault();
    const { session } = this;
    if (!session) return;
    const name = nameIn(event.target) || usualName(session);
    session.keepRun(name);
    event.target.reset();
    announce(this, `Kept as ${name}`);
    this.tell();
  }

  private drop(id: string) {
    this.session?.dropKept(id);
    this.at = undefined;
    announce(this, 'Deleted');
  }

  private async open(id: string) {
    const { session } = this;
    const kept = session?.runs.find((one) => one.id === id);
    if (!session || !kept || !(await session.openRun(kept.run))) return;
    announce(this, `Opened: ${kept.name || session.store.scenario?.title}`);
    this.dialog.close();
  }

  private tell() {
    const { session } = this;
    if (session) void this.pictures.tell([...session.runs].reverse(), session.seeing);
  }

  private closed() {
    this.isOpen = false;
    this.pictures.stop();
  }
}

/** What a run is called that is kept without a name of its own: the column and how far it went, by which a reader can tell it. */
function usualName({ store }: Session): string {
  return `${columnName(store.scenario?.seed ?? 0)}, ${millilitres(store.atPresent?.delivered_mL ?? 0)}`;
}

function nameIn(form: HTMLFormElement): string {
  return String(new FormData(form).get('name') ?? '').trim();
}

/** What came of it, or how far it was played. */
function outcome({ over, lesson, picture }: ToldRun): string {
  if (!over) return `Played to ${millilitres(picture.end_mL)}, not over.`;
  const { found } = lesson ?? {};
  return found ? `${percent(found.recovered)} recovered, ${percent(found.carried)} of the other carried.` : 'Nothing was collected.';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-kept-runs': KeptRuns;
  }
}
