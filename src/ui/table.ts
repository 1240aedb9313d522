import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { announce } from './announce.ts';
import { csvText, headingText, type Column, type Row } from './text/csv.ts';
import { significant } from './text/format.ts';
import { showMessage } from './message.ts';
import { controlStyles, hiddenStyles } from './styles.ts';
import { copied } from './text/clipboard.ts';

/** A table of so few rows may be turned to fit. */
const TURNED_MAX = 3;

/** A data table with caption, units in the headings and a copy as CSV. The first column names the row, and stays where the rest is scrolled. */
@customElement('bf-table')
export class DataTable extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      .scroll { position: relative; overflow-x: auto; }
      table { border-collapse: collapse; min-width: min(100%, 24rem); }
      caption { text-align: left; font-weight: 600; padding-bottom: var(--gap-small); }
      th, td { padding: 0.25em 0.75em 0.25em 0; text-align: left; vertical-align: baseline; font-weight: 400; }
      thead th { color: var(--soft); font-size: var(--text-small); border-bottom: 1px solid var(--edge); vertical-align: bottom; }
      tbody tr + tr > * { border-top: 1px solid var(--rule); }
      .number { text-align: right; }
      td.number, tbody th.number { white-space: nowrap; }
      tbody th:not(.number) { min-width: 6.5rem; }
      /* Nothing here may make the table narrower, or it would fit again, and so on. */
      .scrolls :is(tbody, thead) th:first-child { position: sticky; left: 0; background: var(--paper); border-right: 1px solid var(--rule); }
      .more { margin: 0; color: var(--soft); font-size: var(--text-small); }
      @media print { .more { display: none; } }
      button { margin-top: var(--gap-small); font-size: var(--text-small); }
    `,
  ];

  @property() caption = '';
  @property({ attribute: false }) columns: readonly Column[] = [];
  @property({ attribute: false }) rows: readonly Row[] = [];
  /** Leaves out the copy button. */
  @property({ type: Boolean, attribute: 'no-copy' }) noCopy = false;
  /** Where a few rows do not fit, they stand as columns instead. */
  @property({ type: Boolean }) turns = false;
  @state() private scrolls = false;
  @state() private turned = false;
  /** px that the table needs when it is not turned. */
  private needed = 0;
  @query('.scroll') private scroller!: HTMLElement;
  private resize: ResizeObserver | undefined;

  override render() {
    return html`<div class="scroll ${this.scrolls ? 'scrolls' : ''}" role=${this.scrolls ? 'region' : nothing} aria-label=${this.scrolls ? this.caption : nothing} tabindex=${this.scrolls ? 0 : nothing}>
        <table>
          <caption>${this.caption}</caption>
          ${this.turned ? this.asColumns() : this.asRows()}
        </table>
      </div>
      ${this.scrolls ? html`<p class="more" aria-hidden="true">Wider than the page: scroll it sideways →</p>` : nothing}
      ${this.noCopy ? nothing : html`<button type="button" @click=${this.copy}>Copy as CSV<span class="unseen"> of ${this.caption}</span></button>`}`;
  }

  override firstUpdated() {
    this.resize = new ResizeObserver(() => this.fit());
    this.resize.observe(this.scroller);
    // Rows that come later widen the table, not its box.
    this.resize.observe(this.renderRoot.querySelector('table') as HTMLElement);
  }

  private fit() {
    const { scrollWidth, clientWidth } = this.scroller;
    if (clientWidth === 0) return;
    const few = this.turns && this.rows.length <= TURNED_MAX;
    if (this.turned) this.turned = few && clientWidth < this.needed;
    else if (few && scrollWidth > clientWidth) [this.turned, this.needed] = [true, scrollWidth];
    this.scrolls = !this.turned && scrollWidth > clientWidth;
  }

  private asRows() {
    return html`<thead><tr>${this.columns.map((column) => html`<th scope="col" class=${this.side(column)}>${headingText(column)}</th>`)}</tr></thead>
          <tbody>${this.rows.map((row) => html`<tr>${this.columns.map((column, place) => this.cell(column, row, place))}</tr>`)}</tbody>`;
  }

  private asColumns() {
    const [first, ...others] = this.columns;
    if (!first) return nothing;
    return html`<thead><tr><th scope="col">${headingText(first)}</th>${this.rows.map((row) => html`<th scope="col" class="number">${row[first.key] ?? ''}</th>`)}</tr></thead>
          <tbody>${others.map((column) => html`<tr><th scope="row">${headingText(column)}</th>${this.rows.map((row) => html`<td class="number">${shown(column, row)}</td>`)}</tr>`)}</tbody>`;
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.resize?.disconnect();
  }

  private cell(column: Column, row: Row, place: number) {
    const text = shown(column, row);
    if (place === 0) return html`<th scope="row" class=${this.side(column)}>${text}</th>`;
    return html`<td class=${this.side(column)}>${text}</td>`;
  }

  private side(column: Column): string {
    return this.rows.some((row) => typeof row[column.key] === 'number') ? 'number' : '';
  }

  private async copy() {
    if (!(await copied(csvText(this.columns, this.rows))))
      return showMessage(this, { kind: 'problem', text: `${this.caption}: the browser did not allow copying` });
    announce(this, `${this.caption}: copied as CSV`);
    showMessage(this, { kind: 'note', text: `${this.caption}: copied as CSV` });
  }
}

function shown(column: Column, row: Row): string {
  const value = row[column.key];
  if (typeof value !== 'number') return value ?? '';
  return column.show ? column.show(value, row) : significant(value);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-table': DataTable;
  }
}
