import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { FIELDS, type Field, type FieldPath } from '../../../sim/terms/fields.ts';
import type { Fitted, Scenario } from '../../../sim/terms/types.ts';
import { LiveElement } from '../../store/live-element.ts';
import { quantity, significant } from '../../ui/text/format.ts';

/** Which numbers of the scenario were fitted to a run of the user's own, and when; silent where none were. */
@customElement('bf-fitted-note')
export class FittedNote extends LiveElement {
  static override styles = css`
    :host { display: block; font-size: var(--text-small); }
    :host([empty]) { display: none; }
    summary { min-height: 1.75rem; cursor: pointer; }
    ul { margin: 0; padding: 0 0 0 1.25em; }
    .soft { color: var(--soft); }
  `;

  /** As it is written: the column of a seed differs from it a little. */
  @property({ attribute: false }) scenario: Scenario | undefined;

  override render() {
    const { scenario } = this;
    const fitted = listed(scenario?.fitted);
    this.toggleAttribute('empty', fitted.length === 0);
    if (!scenario || fitted.length === 0) return nothing;
    const days = [...new Set(fitted.map(({ date }) => date))].join(', ');
    return html`<details><summary>Numbers fitted to a measured run, ${days} (${fitted.length})</summary>
      <ul>${fitted.map(({ path, low, high }) => {
        const { label, unit }: Field = FIELDS[path];
        return html`<li>${label} ${quantity(scenario.values[path], unit, 3)} <span class="soft">(95 %: ${significant(low, 3)} to ${significant(high, 3)})</span></li>`;
      })}</ul></details>`;
  }
}

function listed(fitted: Fitted = {}) {
  return (Object.keys(FIELDS) as FieldPath[]).flatMap((path) => {
    const note = fitted[path];
    return note ? [{ path, ...note }] : [];
  });
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fitted-note': FittedNote;
  }
}
