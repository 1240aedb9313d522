import { LitElement, css, html, nothing } from 'lit';
import { emit } from '../../ui/emit.ts';
import { type Message, readingTime } from '../../ui/message.ts';
import { controlStyles } from '../../ui/styles.ts';
import { customElement, property } from 'lit/decorators.js';

/**
 * The line in which the bench speaks. Its place is kept, so that nothing moves when it comes; it leaves by itself.
 *
 * @slot - what a small screen shows there while nothing is said
 * @fires bf-hushed - what was said has left; who said it must not say it again with the next picture
 */
@customElement('bf-say-line')
export class SayLine extends LitElement {
  static override styles = [
    controlStyles,
    css`
    :host { display: block; height: 1.75rem; font-size: var(--text-small); }
    p { margin: 0; height: 100%; display: flex; align-items: center; padding: 0 var(--gap-small); border-radius: var(--round); overflow: hidden; line-height: 1.1; }
    p.note { color: var(--soft); }
    p.problem { background: var(--problem-paper); color: var(--problem-ink); font-weight: 600; }
    p:empty { background: none; }
    .glance { display: none; height: 100%; align-items: center; justify-content: center; color: var(--soft); font-variant-numeric: tabular-nums; white-space: nowrap; }
    @media (max-width: 40rem) { :host { height: 1.8rem; position: relative; } p { font-size: 0.8125rem; line-height: 1.05; } .glance { display: flex; position: absolute; inset: 0; z-index: 0; } }
    .glance[hidden] { display: none; }
    button { min-height: 1.5rem; margin-left: auto; padding: 0 0.5em; flex: none; }
    @media print { :host { display: none; } }
  `,
  ];

  /** A new object each time, so that the same words can be said again. */
  @property({ attribute: false }) said: Message | undefined;
  private leaving: ReturnType<typeof setTimeout> | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    clearTimeout(this.leaving);
  }

  override updated(changed: Map<PropertyKey, unknown>) {
    if (!changed.has('said')) return;
    clearTimeout(this.leaving);
    const { said } = this;
    if (said && !said.stays) this.leaving = setTimeout(() => this.said === said && this.hush(), readingTime(said));
  }

  override render() {
    const { said } = this;
    return html`<p class=${said?.kind ?? 'note'} role=${said?.kind === 'problem' ? 'alert' : 'status'}>${said?.text ?? ''}${said?.action ? html`<button type="button" @click=${() => this.do(said)}>${said.action.label}</button>` : nothing}</p>
      <div class="glance" aria-hidden="true" ?hidden=${said !== undefined}><slot></slot></div>`;
  }

  private do({ action, stays }: Message) {
    if (!stays) this.hush();
    action?.run();
  }

  private hush() {
    this.said = undefined;
    emit(this, 'bf-hushed', undefined);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-say-line': SayLine;
  }
}
