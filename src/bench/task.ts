import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Scenario } from '../../sim/terms/types.ts';
import { isSample } from '../../sim/history/index.ts';
import { controlStyles } from '../ui/styles.ts';
import { millilitres } from '../ui/text/format.ts';

/** What this scenario is for and how much of what is poured in it. The moments are left to the reader. */
@customElement('bf-task')
export class TaskPanel extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; font-size: var(--text-small); }
      summary { min-height: var(--target); display: flex; align-items: center; cursor: pointer; font-weight: 600; font-size: 1rem; }
      summary::before { content: '▸'; width: 1.25em; font-weight: 400; }
      details[open] summary::before { content: '▾'; }
      p { margin: 0 0 var(--gap-small); }
      ol, ul { margin: 0 0 var(--gap-small); padding-left: 1.5em; }
      .soft { color: var(--soft); }
    `,
  ];

  @property({ attribute: false }) scenario: Scenario | undefined;
  /** Nothing has been done yet. */
  @property({ type: Boolean }) fresh = false;

  override render() {
    const { scenario } = this;
    if (!scenario) return nothing;
    return html`<details ?open=${this.fresh}>
      <summary>The task</summary>
      <p>${scenario.purpose}</p>
      ${
        scenario.procedure.length === 0
          ? nothing
          : html`<p>Poured in all, each portion drained to just above the bed before the next:</p>
        <ol>${portions(scenario).map(({ label, volume_mL }) => html`<li>${millilitres(volume_mL)} ${label}</li>`)}</ol>`
      }
      <p class="soft">Put a receiver under the tip, open the clamp, pour, and run until the liquid is low. When to start the last eluent, change the receiver and stop is your judgement.</p>
    </details>`;
  }
}

/** The pours of the procedure, those of the same liquid in a row taken together; small rinses after the sample count with what follows. */
function portions({ procedure, liquids }: Scenario): { label: string; volume_mL: number }[] {
  const all: { liquid: string; label: string; volume_mL: number }[] = [];
  for (const action of procedure) {
    if (action.do !== 'pour') continue;
    const last = all.at(-1);
    const liquid = liquids[action.liquid];
    if (last?.liquid === action.liquid) last.volume_mL += action.volume_mL;
    else
      all.push({
        liquid: action.liquid,
        label: `${liquid?.label ?? action.liquid}${liquid && isSample(liquid) ? ', the sample' : ''}`,
        volume_mL: action.volume_mL,
      });
  }
  return all;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task': TaskPanel;
  }
}
