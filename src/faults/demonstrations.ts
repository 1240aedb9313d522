import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { readScenario } from '../../sim/input/index.ts';
import type { Fault, Scenario } from '../../sim/terms/types.ts';
import { catalog, scenarioJson } from '../store/shipped/catalog.ts';
import type { Session } from '../store/session.ts';
import { LiveElement } from '../store/live-element.ts';
import { emit } from '../ui/emit.ts';
import { controlStyles } from '../ui/styles.ts';
import { faultWords } from './severity.ts';
import { partStyles } from './styles.ts';
import { capital } from '../../sim/terms/capital.ts';

const DEMONSTRATION = 'demo-';
const QUESTION = /^Question to the class:\s*/;

interface Told {
  readonly purpose: string;
  readonly watch: readonly string[];
  readonly questions: readonly string[];
  readonly faults: readonly Fault[];
  readonly length_cm: number;
}

/**
 * Ready demonstrations: what goes wrong, what to watch and when, and what to ask the class.
 *
 * @fires bf-open-part - {part: 'twin'} when a demonstration is to be looked at here
 */
@customElement('bf-demonstrations')
export class Demonstrations extends LiveElement {
  static override styles = [
    controlStyles,
    partStyles,
    css`
      ol.list { list-style: none; padding: 0; max-width: none; display: grid; gap: var(--gap); grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); align-items: start; }
      h2 { font-size: 1rem; }
      .question { border-left: 4px solid var(--accent); padding-left: var(--gap); font-weight: 600; }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private told: ReadonlyMap<string, Told> = new Map();

  override connectedCallback() {
    super.connectedCallback();
    void this.read();
  }

  override render() {
    return html`<p>Each demonstration is a scenario of its own. It opens with its procedure ready to play, with all its faults and careless actions.</p>
      <ol class="list">${entries().map(({ id, title }) => this.card(id, title))}</ol>`;
  }

  private card(id: string, title: string) {
    const told = this.told.get(id);
    return html`<li class="card">
      <h2>${title.replace(/^Demonstration:\s*/, '')}${this.session?.base === id ? ' (open)' : ''}</h2>
      ${
        told
          ? html`<p>${told.purpose}</p>
        <details><summary>What to watch, and when</summary><ol>${told.watch.map((line) => html`<li>${line}</li>`)}</ol>
          <p class="soft">Imposed: ${told.faults.map((fault) => faultWords(fault, told.length_cm)).join('; ')}.</p></details>
        ${told.questions.map((question) => html`<p class="question">${question}</p>`)}`
          : nothing
      }
      <div class="row"><button type="button" @click=${() => this.open(id, true)}>Show with its twin</button><button type="button" @click=${() => this.open(id, false)}>Open on the bench</button></div>
    </li>`;
  }

  private async read() {
    const found = await Promise.all(
      entries().map(async ({ id }): Promise<[string, Told][]> => {
        const read = readScenario((await scenarioJson(id)) ?? {}, id);
        return read.ok ? [[id, toldOf(read.scenario)]] : [];
      }),
    );
    this.told = new Map(found.flat());
  }

  private async open(id: string, here: boolean) {
    const { session } = this;
    if (!session || !(await session.openScenario(id))) return;
    const { store } = session;
    await store.replace(store.scenario?.procedure ?? [], 0);
    if (here) emit(this, 'bf-open-part', { part: 'twin' });
    else location.hash = '#bench';
  }
}

function entries() {
  return catalog().filter(({ id }) => id.startsWith(DEMONSTRATION));
}

function toldOf({ purpose, notice, faults, values }: Scenario): Told {
  return {
    purpose,
    watch: notice.filter((line) => !QUESTION.test(line)),
    questions: notice
      .filter((line) => QUESTION.test(line))
      .map((line) => line.replace(QUESTION, ''))
      .map(capital),
    faults,
    length_cm: values['bed.length_cm'],
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-demonstrations': Demonstrations;
  }
}
