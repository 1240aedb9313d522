import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { valueAt } from '../../../sim/lab/index.ts';
import { LiveElement } from '../../store/live-element.ts';
import { controlStyles } from '../../ui/styles.ts';
import type { LabDraft } from '../draft.ts';
import { foldStyles, partStyles } from './styles.ts';

type Typed = Event & { readonly target: HTMLInputElement | HTMLTextAreaElement };

/** What the lesson is called and what it is for; on a press, what to notice and where the numbers come from. */
@customElement('bf-lab-lesson')
export class LessonPart extends LiveElement {
  static override styles = [controlStyles, foldStyles, partStyles];

  @property({ attribute: false }) draft: LabDraft | undefined;

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const [title, purpose] = [textAt(draft, 'title'), textAt(draft, 'purpose')];
    return html`<label class="text" data-path="title">Title
        <input type="text" autocomplete="off" aria-invalid=${draft.problemAt('title') ? 'true' : 'false'} .value=${live(title)} @change=${(event: Typed) => draft.set('title', event.target.value.trim())} /></label>
      <p class="problem" role="alert">${draft.problemAt('title')}</p>
      <label class="text" data-path="purpose">Purpose: what is to be done, in a sentence or two
        <textarea aria-invalid=${draft.problemAt('purpose') ? 'true' : 'false'} .value=${live(purpose)} @change=${(event: Typed) => draft.set('purpose', oneLine(event.target.value))}></textarea></label>
      <p class="problem" role="alert">${draft.problemAt('purpose')}</p>
      <details><summary>What to notice, and sources</summary>
        ${this.lines(draft, 'notice', 'What to notice, one item per line')}${this.lines(draft, 'sources', 'Sources of the numbers, one per line')}
      </details>`;
  }

  private lines(draft: LabDraft, path: 'notice' | 'sources', label: string) {
    const list = valueAt(draft.json, path);
    const text = Array.isArray(list) ? list.map(String).join('\n') : '';
    const problems = draft.issues.filter((issue) => issue.path === path || issue.path.startsWith(`${path}[`));
    const told = problems.map((issue) => `${lineOf(issue.path)}expected ${issue.expected}; received ${issue.received}`).join('. ');
    return html`<label class="text" data-path=${path}>${label}
        <textarea aria-invalid=${told ? 'true' : 'false'} .value=${live(text)} @change=${(event: Typed) => draft.set(path, linesOf(event.target.value))}></textarea></label>
      <p class="problem" role="alert">${told}</p>`;
  }
}

function textAt(draft: LabDraft, path: string): string {
  const value = valueAt(draft.json, path);
  return typeof value === 'string' ? value : '';
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

function linesOf(text: string): string[] | undefined {
  const lines = text.split(/\r\n|\r|\n/).map(oneLine);
  const filled = lines.filter((line) => line !== '');
  return filled.length > 0 ? filled : undefined;
}

function lineOf(path: string): string {
  const at = /\[(\d+)\]/.exec(path);
  return at ? `line ${Number(at[1]) + 1}: ` : '';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-lesson': LessonPart;
  }
}
