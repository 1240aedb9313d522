import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { imposed } from '../../../sim/faults/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { LiveElement } from '../../store/live-element.ts';
import { type ModelThread, workerThread } from '../../store/threads/model-thread.ts';
import { tooLongWords } from './day-words.ts';

/** Runs the procedure of a scenario in a thread of its own, and says so if the day is too long for its period; else it shows nothing. */
@customElement('bf-day-warning')
export class DayWarning extends LiveElement {
  static override styles = css`
    p { margin: 0; background: var(--caution-paper); color: var(--caution-ink); border: 1px solid var(--caution-edge); border-radius: var(--round); padding: var(--gap-small) var(--gap); }
  `;

  @property({ attribute: false }) scenario: Scenario | undefined;
  @state() private words: string | undefined;
  private asked: Scenario | undefined;
  private thread: ModelThread | undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.requestUpdate();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.asked = undefined;
    this.thread?.close();
    this.thread = undefined;
  }

  override willUpdate() {
    const { scenario } = this;
    if (!this.isConnected || scenario === this.asked) return;
    this.asked = scenario;
    this.words = undefined;
    if (scenario) void this.work(scenario);
  }

  override render() {
    return this.words === undefined ? nothing : html`<p role="status">${this.words}</p>`;
  }

  private async work(asked: Scenario) {
    const scenario = imposed(asked);
    this.thread ??= workerThread();
    try {
      const plan = await this.thread.open(scenario, scenario.procedure);
      if (asked === this.asked) this.words = tooLongWords(scenario, plan);
    } catch {
      // Another scenario was opened meanwhile, or this one cannot be run, which the bench says.
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-day-warning': DayWarning;
  }
}
