import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { isRecord, own } from '../../../../sim/input/index.ts';
import { LiveElement } from '../../../store/live-element.ts';
import { controlStyles, hiddenStyles } from '../../../ui/styles.ts';
import type { LabDraft } from '../../draft.ts';
import { newAction } from './action-form.ts';
import { actionSentence } from './action-words.ts';
import { partStyles } from '../styles.ts';

/** The procedure action by action. Each action is a sentence; pressing it opens its form. */
@customElement('bf-lab-actions')
export class ActionsPart extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    partStyles,
    css`
      ol { margin: 0; padding: 0 0 0 2.25rem; }
      li::marker { color: var(--soft); font-size: var(--text-small); }
      li > button { width: 100%; text-align: left; min-height: 1.75rem; padding: 0 0.5em; }
      li.open { background: var(--sheet); border-radius: var(--round); padding: 0 var(--gap-small) var(--gap-small); }
      li.wrong > button { color: var(--problem-ink); text-decoration: underline wavy; }
      .row { margin-top: var(--gap-small); }
      @media (pointer: coarse) { li > button { min-height: var(--target); } }
    `,
  ];

  @property({ attribute: false }) draft: LabDraft | undefined;
  /** Place that is led to: its action is opened. */
  @property() sought = '';
  @state() private open = -1;

  override willUpdate(changed: Map<PropertyKey, unknown>) {
    const found = changed.has('sought') ? /^procedure\[(\d+)\]/.exec(this.sought) : null;
    if (found) this.open = Number(found[1]);
  }

  override render() {
    const { draft } = this;
    if (!draft) return nothing;
    const list = this.list;
    return html`<ol>${list.map((action, i) => this.action(draft, action, i))}</ol>
      ${list.length === 0 ? html`<div class="row"><button type="button" @click=${() => this.insert(0)}>Add an action</button></div>` : nothing}`;
  }

  private action(draft: LabDraft, action: unknown, i: number) {
    const path = `procedure[${i}]`;
    const wrong = draft.issues.some((issue) => issue.path === path || issue.path.startsWith(`${path}.`));
    const open = i === this.open;
    return html`<li class="${open ? 'open' : ''} ${wrong ? 'wrong' : ''}" data-path=${path}>
      <button type="button" class="plain" aria-expanded=${open ? 'true' : 'false'} @click=${() => this.turn(i)}>${actionSentence(action, draft.json)}${wrong ? html`<span class="unseen">, not valid</span>` : nothing}</button>
      ${open ? this.form(draft, i) : nothing}</li>`;
  }

  private form(draft: LabDraft, i: number) {
    const last = this.list.length - 1;
    return html`<bf-lab-action .draft=${draft} .at=${i}></bf-lab-action>
      <div class="row"><button type="button" @click=${() => this.insert(i + 1)}>Add after</button>
        <button type="button" ?disabled=${i === 0} @click=${() => this.move(i, i - 1)}>Up</button>
        <button type="button" ?disabled=${i === last} @click=${() => this.move(i, i + 1)}>Down</button>
        <button type="button" class="plain" @click=${() => this.takeOut(i)}>Remove</button></div>`;
  }

  private get list(): readonly unknown[] {
    const list = own(this.draft?.json, 'procedure');
    return Array.isArray(list) ? list : [];
  }

  private turn(i: number) {
    this.open = this.open === i ? -1 : i;
  }

  private insert(at: number) {
    const { draft, list } = this;
    const bottles = own(draft?.json, 'liquids');
    draft?.set('procedure', [...list.slice(0, at), newAction('pour', isRecord(bottles) ? Object.keys(bottles) : []), ...list.slice(at)]);
    this.open = at;
  }

  private move(from: number, to: number) {
    const list = [...this.list];
    const [moved] = list.splice(from, 1);
    list.splice(to, 0, moved);
    this.draft?.set('procedure', list);
    this.open = to;
  }

  private takeOut(at: number) {
    this.draft?.set(
      'procedure',
      this.list.filter((_, i) => i !== at),
    );
    this.open = -1;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-lab-actions': ActionsPart;
  }
}
