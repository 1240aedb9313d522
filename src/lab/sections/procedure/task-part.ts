import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { targetsOf } from '../../../../sim/history/index.ts';
import type { FieldPath } from '../../../../sim/terms/fields.ts';
import { LiveElement } from '../../../store/live-element.ts';
import { controlStyles } from '../../../ui/styles.ts';
import { askedWords } from '../../../ui/text/task/asked-words.ts';
import type { LabDraft } from '../../draft.ts';
import '../fields.ts';

/** What the receiver must hold for the task to be done, in the sentence that students read and as numbers to change. */
@customElement('bf-lab-task')
export class TaskPart extends LiveElement {
  static override styles = [controlStyles, css`h2 { font-size: 1rem; }`];

  @property({ attribute: false }) draft: LabDraft | undefined;
  /** Limits of the task, in the order they are shown. */
  @property({ attribute: false }) limits: readonly FieldPath[] = [];

  override render() {
    const scenario = this.draft?.scenario;
    return html`<h2>The task</h2>
      <p>${scenario ? askedWords(targetsOf(scenario)) : 'Told once the lab is valid.'}</p>
      <bf-lab-fields .draft=${this.draft} .main=${this.limits}></bf-lab-fields>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-task': TaskPart;
  }
}
