import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { emit } from './emit.ts';
import { controlStyles } from './styles.ts';

export interface Message {
  readonly text: string;
  readonly kind: 'note' | 'problem';
  /** Until who said it takes it back. */
  readonly stays?: boolean;
  /** One thing the reader can do about it. */
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** A slow reader takes about 70 ms a character. Choices. */
const LEAST_MS = 4000;
const MS_PER_CHARACTER = 70;

/** Time a message stays, ms; one that offers a press stays as long again, to be reached. */
export function readingTime({ text, action }: Message): number {
  return (action ? 2 : 1) * (LEAST_MS + text.length * MS_PER_CHARACTER);
}

/** Asks the shell to show a message line. */
export function showMessage(host: EventTarget, message: Message): void {
  emit(host, 'bf-message', message);
}

/**
 * The message line under the header. It disappears after a time that grows with its length, but not while the pointer is on it,
 * it holds the focus or it offers an action.
 *
 * @fires bf-dismiss - the line was closed or its time is over
 */
@customElement('bf-message-line')
export class MessageLine extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      .line { display: flex; flex-wrap: wrap; gap: var(--gap); align-items: center; padding: var(--gap-small) var(--gap);
        border-radius: var(--round); background: var(--ink); color: var(--paper); }
      .line.problem { background: var(--problem-paper); color: var(--problem-ink); outline: 1px solid currentColor; }
      p { margin: 0; flex: 1 1 16rem; overflow-wrap: anywhere; }
      button { background: none; color: inherit; border-color: currentColor; }
      button:focus-visible { outline-color: currentColor; }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) message: Message | undefined;
  private leaving: ReturnType<typeof setTimeout> | undefined;

  override updated(changed: Map<PropertyKey, unknown>) {
    if (changed.has('message')) this.leaveLater();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    clearTimeout(this.leaving);
  }

  override render() {
    return html`<div role=${this.message?.kind === 'problem' ? 'alert' : 'status'}>${this.message ? this.line(this.message) : nothing}</div>`;
  }

  private line(message: Message) {
    return html`<div class="line ${message.kind}" @pointerenter=${this.stay} @pointerleave=${this.leaveLater} @focusin=${this.stay} @focusout=${this.leaveLater}>
      <p>${message.text}</p>
      ${message.action ? html`<button type="button" @click=${this.act}>${message.action.label}</button>` : nothing}
      <button type="button" @click=${this.dismiss}>Dismiss</button>
    </div>`;
  }

  private readonly stay = () => clearTimeout(this.leaving);

  private readonly leaveLater = () => {
    clearTimeout(this.leaving);
    const { message } = this;
    if (message && !message.action) this.leaving = setTimeout(() => this.dismiss(), readingTime(message));
  };

  private act() {
    const action = this.message?.action;
    this.dismiss();
    action?.run();
  }

  private dismiss() {
    emit(this, 'bf-dismiss', undefined);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-message-line': MessageLine;
  }
}
