import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { namedIn } from '../../sim/handed/index.ts';
import { own, parseJson } from '../../sim/input/index.ts';
import { plotStyles } from '../plot/styles.ts';
import { offerFile } from '../store/keep/files.ts';
import { readSaved } from '../store/keep/saved.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { showMessage } from '../ui/message.ts';
import { fileStyles } from '../ui/look/file-styles.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import { csvText } from '../ui/text/csv.ts';
import { count } from '../ui/text/format.ts';
import { columnBriefly } from '../ui/text/task/task-words.ts';
import type { ClassRoom, HandedOut, Held } from './class-room.ts';
import { droppedFiles, pasted, textsOf } from './given-files.ts';
import { marks } from './marks.ts';
import { answerRows, ASKED_AT_THE_END, metWords, QUESTIONS, questionRows, runColumns, runRows, runsOf, wholeTable, wordsOf } from './tables/summary.ts';
import { type Difference, differenceRows, DIFFERENCES, differencesOf, MISSED, missedRows } from './tables/differences.ts';
import { elsewhereWords, nameRows, NAMES, objectionRows, OBJECTIONS } from './tables/objections.ts';
import '../ui/table.ts';

/** Buttons for the runs that show a difference best. */
const SHOWN_MOST = 5;

/** Takes in the runs of a class, computes them again, and shows the class on one page. */
@customElement('bf-take-in')
export class TakeIn extends LiveElement {
  static override styles = [
    controlStyles,
    fileStyles,
    hiddenStyles,
    plotStyles,
    css`
      :host { display: block; }
      section { display: grid; grid-template-columns: minmax(0, 1fr); gap: var(--gap); margin-bottom: var(--gap-large); }
      h2, h3, p, dl, dd { margin: 0; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small) var(--gap); align-items: center; }
      .drop { border: 2px dashed var(--edge); border-radius: var(--round); padding: var(--gap); display: grid; gap: var(--gap); grid-template-columns: minmax(0, 1fr); }
      .drop.over { background: var(--wash); }
      .soft { color: var(--soft); font-size: var(--text-small); }
      .left, .problem { color: var(--problem-ink); }
      textarea { font: inherit; font-size: var(--text-small); color: inherit; background: var(--sheet); border: 1px solid var(--edge); border-radius: var(--round); width: 100%; min-height: 4rem; }
      .wide { overflow-x: auto; }
      .wide svg.plot { width: 100%; min-width: 34rem; max-width: 60rem; height: auto; }
      svg .curve { fill: none; stroke: var(--ink); stroke-width: 1; opacity: 0.5; }
      svg .window { fill: var(--good-ink); opacity: 0.3; }
      svg .water { fill: var(--accent); }
      svg .change { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; }
      summary::before { content: '▸'; width: 1.25em; }
      details[open] summary::before { content: '▾'; }
      dt { font-weight: 600; margin-top: var(--gap-small); }
      dd { overflow-wrap: anywhere; }
      @media print { .drop, .screen { display: none; } section { break-inside: avoid; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) room: ClassRoom | undefined;
  @state() private over = false;
  @query('textarea') private pasted!: HTMLTextAreaElement;

  override willUpdate() {
    const { session, room } = this;
    const arrived = session?.arrived ?? [];
    if (!session || !room || arrived.length === 0) return;
    // Taken in after this drawing, since it changes what is drawn.
    queueMicrotask(() => {
      session.arrived = [];
      void room.takeIn(arrived.map((text, i) => ({ name: `link ${room.taken.length + i + 1}`, text: `#class?handed=${text}` })));
    });
  }

  override render() {
    const { room } = this;
    if (!room) return nothing;
    const { taken, waiting, taking, handedOut } = room;
    return html`
      <section aria-labelledby="take"><h2 id="take">Take in runs</h2>
        <p class="screen">Students hand in a run as a small file or a link (menu, Hand in). Every run is computed again here; nothing leaves this browser.</p>
        <div class="drop ${this.over ? 'over' : ''}" @dragover=${this.dragOver} @dragleave=${this.dragLeave} @drop=${this.dropped}>
          <div class="row"><label class="file">Choose files<input class="files" type="file" multiple accept=".json,.txt,application/json,text/plain" @change=${this.chosen} /></label>
            <label class="file">Choose a folder<input class="folder" type="file" .webkitdirectory=${true} @change=${this.chosen} /></label><span class="soft">or drop files and folders here</span></div>
          <details><summary>Paste links, or the text of one file</summary>
            <textarea aria-label="Links, one per line, or the text of one run" spellcheck="false"></textarea>
            <button type="button" @click=${this.paste}>Take it in</button>
          </details>
          ${handedOut ? html`<div class="row">${this.yardstick(handedOut)}</div>` : html`<p class="soft">If you also take in the file or the link that was handed out, runs under other rules are named.</p>`}
          ${room.problem === '' ? nothing : html`<p class="problem" role="alert">${room.problem}</p>`}
        </div>
        ${
          taking
            ? html`<div class="row"><progress max=${taking.of} .value=${taking.done} aria-label="Files done"></progress>
              <span role="status">${taking.done} of ${taking.of} computed</span>
              <button type="button" @click=${() => room.cancelTaking()}>Cancel</button></div>`
            : nothing
        }
        ${taken.length + waiting.length === 0 ? nothing : this.verdict(room)}
      </section>
      ${taken.length > 0 ? this.classPage(room.held) : nothing}`;
  }

  private yardstick({ handOut, scenario }: HandedOut) {
    return html`<p>Compared with what was handed out: “${scenario.title}”, at most ${count(handOut.tries, 'try', 'tries')}, ${columnBriefly(handOut.column, scenario)}.</p>
      <button type="button" class="screen" @click=${() => this.room?.holdAgainstNothing()}>Compare with no hand-out</button>`;
  }

  private verdict(room: ClassRoom) {
    const { taken, waiting, taking, held, handedOut } = room;
    const elsewhere = elsewhereWords(held);
    const agree = taken.filter(({ verdict }) => verdict === 'agrees').length;
    return html`<p role="status"><strong>${agree} of ${taken.length}</strong> agree with their claims, bit for bit or within a millionth. ${metWords(held)}
        ${waiting.length === 0 ? nothing : html`<strong class="left">${waiting.length} not computed${taking ? ' yet' : ''}.</strong>`}</p>
      ${elsewhere && handedOut ? html`<p>${elsewhere} They are compared with what they claim, not with the rules of “${handedOut.scenario.title}”.</p>` : nothing}
      ${waiting.length === 0 || taking ? nothing : html`<p>Not computed: ${waiting.map(({ name }) => name).join(', ')}. <button type="button" class="screen" @click=${() => room.takeWaiting()}>Compute them</button></p>`}
      <div class="row screen"><button type="button" @click=${this.saveCsv}>Save as CSV</button><button type="button" @click=${() => print()}>Print</button>
      <button type="button" class="plain" @click=${() => room.clear()}>Clear</button></div>`;
  }

  private classPage(held: readonly Held[]) {
    const objections = objectionRows(held);
    const names = nameRows(held);
    const predicted = questionRows(held);
    const answers = answerRows(held);
    const words = wordsOf(held);
    const differences = differencesOf(held);
    const missed = missedRows(held);
    return html`
      ${objections.length > 0 ? html`<section><bf-table caption="Files that do not agree" .columns=${OBJECTIONS} .rows=${objections}></bf-table></section>` : nothing}
      ${names.length > 0 ? html`<section><bf-table caption="Names on more runs than there were tries" .columns=${NAMES} .rows=${names}></bf-table></section>` : nothing}
      <section aria-labelledby="switch"><h2 id="switch">When water was started and the receiver changed</h2>
        <div class="wide" role="region" aria-label="The figure, to be scrolled" tabindex="0">${marks(runsOf(held))}</div>
        <p class="soft">▼ water started, ○ receiver changed, bar: window in which a change would have met the target in that run. Predictions, answers and differences below are counted over the runs that agree.</p>
      </section>
      <section><bf-table caption="Runs" .columns=${runColumns(held)} .rows=${runRows(held)} no-copy></bf-table></section>
      <section>${predicted.length > 0 ? html`<bf-table caption="Predictions" .columns=${QUESTIONS} .rows=${predicted}></bf-table>` : html`<p>No predictions were handed in.</p>`}</section>
      ${answers.length > 0 ? html`<section><bf-table caption="Answers" .columns=${ASKED_AT_THE_END} .rows=${answers}></bf-table></section>` : nothing}
      ${words.map(({ question, said }) => html`<section><h3>${question}</h3><dl>${said.map((one) => html`<dt>${one.who}</dt><dd>${one.words}</dd>`)}</dl></section>`)}
      ${missed.length > 0 ? html`<section><bf-table caption="Runs that missed the task" .columns=${MISSED} .rows=${missed}></bf-table></section>` : nothing}
      <section>${
        differences.length > 0
          ? html`<bf-table caption="Differences from the procedure, and what they cost" .columns=${DIFFERENCES} .rows=${differenceRows(held)}></bf-table>
            <p class="soft">A difference whose runs all met the task cost none of them the task. Where some missed it, look at the run: it may have missed for another reason.</p>
            <div class="row screen">${differences.slice(0, SHOWN_MOST).map((one) => html`<button type="button" @click=${() => this.open(one)}>Open ${one.who}: ${one.difference}</button>`)}</div>`
          : html`<p>Nobody departed from the procedure.</p>`
      }</section>`;
  }

  private readonly dragOver = (event: DragEvent) => {
    event.preventDefault();
    this.over = true;
  };

  private readonly dragLeave = () => {
    this.over = false;
  };

  private readonly dropped = async (event: DragEvent) => {
    event.preventDefault();
    this.over = false;
    await this.take(await droppedFiles(event.dataTransfer));
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
    void this.room?.takeIn(pasted(text, (this.room?.taken.length ?? 0) + 1));
  };

  private async take(files: readonly File[]) {
    const given = await textsOf(files);
    if (given.length > 0) await this.room?.takeIn(given);
  }

  /** Opens a run on the bench; the run there is put aside. */
  private async open({ file, who, difference }: Difference) {
    const { session, room } = this;
    const parsed = parseJson(room?.textOf(file) ?? '', 'run');
    if (!session || !parsed.ok) return;
    const { base, differences } = namedIn(own(parsed.json, 'scenario'));
    const read = readSaved({
      base: base ?? session.base,
      differences: base === undefined ? own(parsed.json, 'scenario') : differences,
      seed: own(parsed.json, 'seed'),
      log: own(parsed.json, 'log'),
    });
    const before = session.saved();
    if (!read.ok || !(await session.openRun(read.value))) return showMessage(this, { kind: 'problem', text: `The run of ${who} could not be opened.` });
    session.putAside(before);
    session.nameExample(`${who}, ${difference}`);
    await session.store.seek(session.store.plan?.logEnd.time_min ?? 0);
    location.hash = '#bench';
  }

  private readonly saveCsv = () => {
    const { columns, rows } = wholeTable(
      this.room?.held ?? [],
      this.room?.waiting.map(({ name }) => name),
    );
    offerFile(document, 'class.csv', csvText(columns, rows), 'text/csv');
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-take-in': TakeIn;
  }
}
