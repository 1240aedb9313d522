import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { inWords } from '../../sim/input/index.ts';
import { catalog, type CatalogEntry } from '../store/shipped/catalog.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { emit } from '../ui/emit.ts';
import { showMessage } from '../ui/message.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';

/** Value of the choice that is open under a title of its own. */
const OWN = '';

/**
 * Which scenario is open, and the choice of another.
 *
 * @fires bf-chosen - one was chosen; a menu around it may close
 */
@customElement('bf-scenario-choice')
export class ScenarioChoice extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; min-width: 0; }
      :host([slot='actions']) select { max-width: 100%; width: 100%; padding: 0 0.6em; }
      select { width: auto; max-width: 100%; min-height: var(--target); padding: 0 0.25em; border-color: transparent; background: none; text-overflow: ellipsis; }
      select:hover { border-color: var(--edge); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    if (!session) return nothing;
    return html`<label><span class="unseen">Scenario</span>
      <select @change=${this.choose}>${listed(session).entries.map(({ id, title }) => html`<option value=${id}>${title}</option>`)}</select></label>`;
  }

  /** A list that becomes shorter under the choice would keep the place of the one before. */
  override updated() {
    const { session } = this;
    const select = this.renderRoot.querySelector('select');
    if (session && select) select.value = listed(session).open;
  }

  private async choose(event: Event & { target: HTMLSelectElement }) {
    const { session } = this;
    if (!session) return;
    emit(this, 'bf-chosen', undefined);
    const before = session.saved();
    // Once the event has been handled it names no target any more.
    const { target } = event;
    if (!(await session.openScenario(target.value))) {
      target.value = listed(session).open;
      return showMessage(this, { text: `That scenario was not opened. ${inWords(session.issues)}`, kind: 'problem' });
    }
    if (before.log.length > 0)
      showMessage(this, {
        text: 'Another scenario is open; the run before it is put aside.',
        kind: 'note',
        action: { label: 'Back to that run', run: () => void session.goBack() },
      });
  }
}

/** The shipped scenarios, and which of them is open. What goes by a title of its own stands before them, so that the lesson it was made from can be chosen. */
function listed({ base, store }: Session): { readonly entries: readonly CatalogEntry[]; readonly open: string } {
  const shipped = catalog();
  const { title = '' } = store.scenario ?? {};
  if (title === '' || shipped.some((entry) => entry.id === base && entry.title === title)) return { entries: shipped, open: base };
  return { entries: [{ id: OWN, title }, ...shipped], open: OWN };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-scenario-choice': ScenarioChoice;
  }
}
