import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { workerThread } from '../store/model-thread.ts';
import { isHidden } from '../store/mystery.ts';
import type { Session } from '../store/session.ts';
import { Twin } from '../store/twin.ts';
import { Watch } from '../store/watch.ts';
import { controlStyles } from '../ui/styles.ts';
import '../ui/segmented.ts';
import './board.ts';
import './clock.ts';
import './twin-part.ts';

const PARTS = [
  { value: 'board', label: 'Fault board' },
  { value: 'twin', label: 'Beside the healthy twin' },
] as const;

type Part = (typeof PARTS)[number]['value'];

/** What goes wrong: faults imposed on the run, the run beside its healthy twin, and where the target went. */
@customElement('bf-faults')
export class FaultsView extends LitElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      .bar { position: sticky; top: 0; z-index: 2; background: var(--paper); border-bottom: 1px solid var(--rule); padding: var(--gap-small) 0; margin-bottom: var(--gap); }
      .parts { margin-bottom: var(--gap); }
      @media (max-height: 30rem) { .bar { position: static; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private showing: Part = 'board';
  private twin: Twin | undefined;
  private readonly watchSession = new Watch(this);
  private readonly watchStore = new Watch(this);

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.twin?.stop();
  }

  override willUpdate() {
    this.watchSession.follow(this.session);
    this.watchStore.follow(this.session?.store);
  }

  override render() {
    const { session } = this;
    const { store } = session ?? {};
    if (!session || !store?.plan || !store.scenario) return html`<p role="status">${store?.failure || 'The column is being packed …'}</p>`;
    return html`
      <h1>What goes wrong</h1>
      <div class="bar"><bf-fault-clock .store=${store}></bf-fault-clock></div>
      ${isHidden(session.mystery) ? nothing : html`
        <bf-segmented class="parts" label="show" .value=${this.showing} .choices=${PARTS} @bf-change=${this.take}></bf-segmented>
        ${this.shown(session)}`}`;
  }

  override updated() {
    const { twin } = this;
    if (this.showing === 'twin' && this.session && !isHidden(this.session.mystery)) twin?.start();
    else twin?.stop();
  }

  private shown(session: Session) {
    if (this.showing === 'board') return html`<bf-fault-board .session=${session}></bf-fault-board>`;
    this.twin ??= new Twin(session, workerThread);
    return html`<bf-twin .session=${session} .twin=${this.twin}></bf-twin>`;
  }

  private take(event: CustomEvent<{ value: string }>) {
    this.showing = PARTS.find(({ value }) => value === event.detail.value)?.value ?? 'board';
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-faults': FaultsView;
  }
}
