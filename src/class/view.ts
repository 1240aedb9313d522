import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { plotStyles } from '../plot/styles.ts';
import { offerFile } from '../store/keep/files.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { csvText } from '../ui/text/csv.ts';
import { ClassRoom, type Given } from './class-room.ts';
import { marks } from './marks.ts';
import { MISTAKES, mistakeRows, OBJECTIONS, objectionRows, QUESTIONS, questionRows, RUNS, runRows, runsOf } from './summary.ts';
import './forecast-part.ts';
import '../ui/table.ts';

/** Files taken at once; a class has fewer. */
const FILES_MAX = 500;
const BYTES_MAX = 1_000_000;

/** For an instructor: takes in the runs of a class and computes them again; says beforehand what a class will see. */
@customElement('bf-class')
export class ClassView extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    plotStyles,
    css`
      :host { display: block; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap); margin-bottom: var(--gap-large); }
      h2, p { margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; }
      .drop { border: 2px dashed var(--edge); border-radius: var(--round); padding: var(--gap); display: grid; gap: var(--gap); }
      .drop.over { background: var(--wash); }
      .soft { color: var(--soft); font-size: var(--text-small); }
      textarea { font: inherit; font-size: var(--text-small); color: inherit; background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); width: 100%; min-height: 4rem; }
      .wide { overflow-x: auto; }
      .wide svg.plot { width: 100%; min-width: 34rem; max-width: 60rem; height: auto; }
      .drop { grid-template-columns: minmax(0, 1fr); }
      label { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap-small); min-width: 0; flex: 1 1 auto; }
      input[type='file'] { width: 100%; max-width: 30rem; padding: 0.5em; height: auto; }
      svg .curve { fill: none; stroke: var(--ink); stroke-width: 1; opacity: 0.5; }
      svg .window { fill: var(--good-ink); opacity: 0.3; }
      svg .water { fill: var(--accent); }
      svg .change { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; }
      summary::before { content: '▸'; width: 1.25em; }
      details[open] summary::before { content: '▾'; }
      @media print { .drop, bf-class-forecast, #ahead { display: none; } section { break-inside: avoid; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private over = false;
  @query('textarea') private pasted!: HTMLTextAreaElement;
  private readonly room = new ClassRoom();

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.room.cancelTaking();
    this.room.cancelForecast();
  }

  override render() {
    const { room } = this;
    const agree = room.taken.filter(({ verdict }) => verdict === 'agrees').length;
    return html`<h1>Class</h1>
      <section aria-labelledby="take"><h2 id="take">Take in runs</h2>
        <p>Students hand in a run as a small file (menu, Hand in). Every file is computed again here; nothing leaves this browser.</p>
        <div class="drop ${this.over ? 'over' : ''}" @dragover=${this.dragOver} @dragleave=${this.dragLeave} @drop=${this.dropped}>
          <div class="row"><label>Choose or drop files <input type="file" multiple accept=".json,application/json" @change=${this.chosen} /></label></div>
          <details><summary>Paste the text of one</summary>
            <textarea aria-label="Text of a handed-in run" spellcheck="false"></textarea>
            <button type="button" @click=${this.paste}>Take it in</button>
          </details>
        </div>
        ${
          room.taking
            ? html`<div class="row"><progress max=${room.taking.of} .value=${room.taking.done} aria-label="Files done"></progress>
              <span role="status">${room.taking.done} of ${room.taking.of} computed</span>
              <button type="button" @click=${() => room.cancelTaking()}>Cancel</button></div>`
            : nothing
        }
        ${
          room.taken.length === 0
            ? nothing
            : html`<p role="status"><strong>${agree} of ${room.taken.length}</strong> come to what they claim, bit for bit or within a millionth.</p>
              <div class="row"><button type="button" @click=${this.saveCsv}>Save as CSV</button><button type="button" @click=${() => print()}>Print</button>
              <button type="button" class="plain" @click=${() => room.clear()}>Clear</button></div>`
        }
      </section>
      ${room.taken.length > 0 ? this.classPage() : nothing}
      <section aria-labelledby="ahead"><h2 id="ahead">What will the class see?</h2>
        <bf-class-forecast .session=${this.session} .room=${room}></bf-class-forecast>
      </section>`;
  }

  private classPage() {
    const { taken } = this.room;
    const runs = runsOf(taken);
    const objections = objectionRows(taken);
    const mistakes = mistakeRows(taken);
    return html`
      ${objections.length > 0 ? html`<section><bf-table caption="Files that do not agree" .columns=${OBJECTIONS} .rows=${objections}></bf-table></section>` : nothing}
      <section aria-labelledby="switch"><h2 id="switch">When water was started and the receiver changed</h2>
        <div class="wide" role="region" aria-label="The figure, to be scrolled" tabindex="0">${marks(runs)}</div>
        <p class="soft">▼ weaker eluent started, ○ receiver changed, bar: the changes that would have met the target in that run. Predictions and mistakes below are counted over the runs that agree.</p>
      </section>
      <section><bf-table caption="Runs" .columns=${RUNS} .rows=${runRows(taken)} no-copy></bf-table></section>
      <section><bf-table caption="Predictions" .columns=${QUESTIONS} .rows=${questionRows(taken)}></bf-table></section>
      <section>${mistakes.length > 0 ? html`<bf-table caption="Common mistakes" .columns=${MISTAKES} .rows=${mistakes}></bf-table>` : html`<p>Nobody did anything otherwise than the procedure.</p>`}</section>`;
  }

  private readonly dragOver = (event: DragEvent) => {
    event.preventDefault();
    this.over = true;
  };

  private readonly dragLeave = () => {
    this.over = false;
  };

  private readonly dropped = (event: DragEvent) => {
    event.preventDefault();
    this.over = false;
    void this.take([...(event.dataTransfer?.files ?? [])]);
  };

  private readonly chosen = (event: Event) => {
    const input = event.currentTarget as HTMLInputElement;
    const files = [...(input.files ?? [])];
    input.value = '';
    void this.take(files);
  };

  private readonly paste = () => {
    const text = this.pasted.value;
    if (text.trim() === '') return;
    this.pasted.value = '';
    void this.room.takeIn([{ name: `pasted ${this.room.taken.length + 1}`, text }]);
  };

  private async take(files: readonly File[]) {
    const given = await Promise.all(
      files.slice(0, FILES_MAX).map(async (file): Promise<Given> => ({ name: file.name, text: file.size > BYTES_MAX ? '' : await file.text() })),
    );
    if (given.length > 0) await this.room.takeIn(given);
  }

  private readonly saveCsv = () => {
    offerFile(document, 'class.csv', csvText(RUNS, runRows(this.room.taken)), 'text/csv');
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-class': ClassView;
  }
}
