import { LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Step } from '../../../sim/teach/index.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { nextWords, washWords } from '../task/next.ts';

/** What can happen next, in a sentence or two. It comes once the bench is drawn, into a place that is kept for it. */
@customElement('bf-ahead')
export class Ahead extends LitElement {
  @property({ attribute: false }) scenario: Scenario | undefined;
  @property({ attribute: false }) at: Moment | undefined;
  @property({ attribute: false }) steps: readonly Step[] = [];
  @property({ type: Boolean }) over = false;

  /** The words belong to the sentence around them. */
  protected override createRenderRoot() {
    return this;
  }

  override render() {
    const { scenario, at, steps, over } = this;
    if (!scenario || !at) return '';
    const waits = at.clampOpen === 0 && steps.at(-1)?.state === 'open';
    return nextWords(scenario, at, over, { wash: washWords(scenario, steps), waits });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-ahead': Ahead;
  }
}
