import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Grade, GRADE_NAMES, GRADES } from '../../../sim/terms/grades.ts';
import { LiveElement } from '../../store/live-element.ts';
import type { Session } from '../../store/session.ts';
import { emit } from '../../ui/emit.ts';
import { controlStyles, hiddenStyles } from '../../ui/styles.ts';
import { anotherBed } from './new-bed.ts';
import { gradeOf, startOf } from './start.ts';

/**
 * Which resin, and whether the bed is there already: a new start on the same column.
 *
 * @fires bf-done - the column is to be looked at
 */
@customElement('bf-empty-tube')
export class EmptyTube extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: grid; gap: var(--gap-small); }
      label { display: grid; color: var(--soft); }
      p { margin: 0; }
      select { max-width: 100%; }
      .row { display: flex; flex-wrap: wrap; gap: var(--gap-small); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private chosen: Grade | undefined;

  override render() {
    const { session } = this;
    if (!session) return nothing;
    const grade = this.chosen ?? gradeOf(session.json);
    return html`<label>resin grade<select @change=${this.choose}>${GRADE_NAMES.map((name) => html`<option .selected=${name === grade}>${name}</option>`)}</select></label>
      <p>Wet beads of about ${GRADES[grade]['bed.bead_um'].value} µm. A new start on this column; faults of the bed that is in it now go with that bed:</p>
      <div class="row">
        <button type="button" @click=${() => this.begin(grade, false)}>Empty tube, to fill yourself</button>
        <button type="button" @click=${() => this.begin(grade, true)}>Bed packed beforehand</button>
      </div>`;
  }

  private choose(event: Event & { target: HTMLSelectElement }) {
    this.chosen = GRADE_NAMES.find((name) => name === event.target.value);
  }

  private async begin(grade: Grade, packed: boolean) {
    emit(this, 'bf-done', undefined);
    const { session } = this;
    if (session) await anotherBed(session, startOf(session.json, grade, packed));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-empty-tube': EmptyTube;
  }
}
