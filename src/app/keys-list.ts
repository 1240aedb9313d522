import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { listedKeys, setSingleKeys, singleKeysOn, type KeyEntry } from '../ui/keys.ts';
import { controlStyles } from '../ui/styles.ts';
import { localStorageOf } from '../store/keep/storage.ts';

const EVERYWHERE: readonly KeyEntry[] = [
  { key: 'Tab', does: 'next control' },
  { key: 'Shift Tab', does: 'previous control' },
  { key: 'Arrow keys', does: 'move within a group of choices, a slider or a handle' },
  { key: 'Escape', does: 'close a dialog' },
];

/** The list of keys, drawn from what is on the page at the moment, with the switch that turns single keys off. */
@customElement('bf-keys')
export class KeyList extends LitElement {
  static override styles = [
    controlStyles,
    css`
      h3 { margin: var(--gap) 0 var(--gap-small); font-size: 1em; }
      dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.25em var(--gap); margin: 0; }
      dd { margin: 0; }
      kbd { font: inherit; padding: 0 0.4em; border: 1px solid var(--edge); border-radius: var(--round); background: var(--sheet); }
      label { display: flex; gap: var(--gap-small); align-items: center; min-height: var(--target); }
      input { width: 1.25em; height: 1.25em; }
    `,
  ];

  /** Set again whenever the dialog opens, so that the list is of that moment. */
  @property({ type: Number }) opened = 0;

  override render() {
    return html`
      <label><input type="checkbox" .checked=${singleKeysOn()} @change=${this.switchKeys} />Single keys act anywhere on the page</label>
      ${listedKeys().map((group) => this.group(group.heading, group.entries))}
      ${this.group('Everywhere', EVERYWHERE)}`;
  }

  private group(heading: string, entries: readonly KeyEntry[]) {
    return html`<h3>${heading}</h3>
      <dl>${entries.map((entry) => html`<dt><kbd>${entry.shown ?? entry.key}</kbd></dt><dd>${entry.does}</dd>`)}</dl>`;
  }

  private switchKeys(event: Event & { target: HTMLInputElement }) {
    setSingleKeys(event.target.checked, localStorageOf(window));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-keys': KeyList;
  }
}
