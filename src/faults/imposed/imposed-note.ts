import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { imposedOn } from './impose.ts';
import { isHidden } from '../../store/keep/mystery.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { faultWords } from '../severity.ts';

/** One line that says which faults are imposed on the run; silent when there are none, and while they wait to be named. */
@customElement('bf-imposed-note')
export class ImposedNote extends LiveElement {
  static override styles = css`
    :host { display: block; }
    :host([empty]) { display: none; }
    p { margin: 0; padding: 0.125rem 0.5rem; font-size: var(--text-small); color: var(--caution-ink); background: var(--caution-paper); border-radius: var(--round); }
    a { color: inherit; }
  `;

  @property({ attribute: false }) session: Session | undefined;

  override render() {
    const { session } = this;
    const imposed = session && !isHidden(session.mystery) ? imposedOn(session) : [];
    const length_cm = session?.store.scenario?.values['bed.length_cm'] ?? 0;
    this.toggleAttribute('empty', imposed.length === 0);
    if (imposed.length === 0) return nothing;
    return html`<p><a href="#faults">Imposed</a>: ${imposed.map(({ fault }) => faultWords(fault, length_cm)).join('; ')}</p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-imposed-note': ImposedNote;
  }
}
