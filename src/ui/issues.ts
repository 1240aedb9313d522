import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Issue } from '../../sim/terms/types.ts';
import type { Column } from './text/csv.ts';
import './table.ts';

const COLUMNS: readonly Column[] = [
  { key: 'path', label: 'where' },
  { key: 'expected', label: 'expected' },
  { key: 'received', label: 'received' },
];

/** Everything a reader found wrong in a file or link, in one table. Nothing of it has been applied. */
@customElement('bf-issues')
export class IssueList extends LitElement {
  static override styles = css`
    :host { display: block; }
    section { padding: var(--gap); border: 1px solid var(--problem-ink); border-radius: var(--round); background: var(--paper); }
    h2 { margin: 0 0 var(--gap-small); font-size: 1em; color: var(--problem-ink); }
    p { margin: 0 0 var(--gap); }
  `;

  /** What was read: a file name, a scenario, "the link". */
  @property() source = '';
  @property({ attribute: false }) issues: readonly Issue[] = [];

  override render() {
    const rows = this.issues.map(({ path, expected, received }) => ({ path, expected, received }));
    const count = rows.length === 1 ? '1 entry is not valid' : `${rows.length} entries are not valid`;
    return html`<section role="alert">
      <h2>${this.source}: ${count}</h2>
      <p>The run on the page was not changed.</p>
      <bf-table caption="What was found" .columns=${COLUMNS} .rows=${rows}></bf-table>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-issues': IssueList;
  }
}
