import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { workerThread } from '../store/threads/model-thread.ts';
import { isHidden } from '../store/keep/mystery.ts';
import type { Session } from '../store/session.ts';
import { Twin } from '../store/twin.ts';
import { LiveElement } from '../store/live-element.ts';
import { addKeys } from '../ui/keys.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import '../ui/segmented.ts';
import './board.ts';
import './twin/clock.ts';
import './demonstrations.ts';
import './hide.ts';
import './mystery-part.ts';
import './rescue.ts';
import type { Asked } from './twin/twin-part.ts';
import './twin/twin-part.ts';
import './why-lost.ts';

const PARTS = [
  { value: 'board', label: 'Fault board' },
  { value: 'twin', label: 'Beside the healthy twin' },
  { value: 'rescue', label: 'Rescue' },
  { value: 'why', label: 'Where it went, and why' },
  { value: 'demonstrations', label: 'Demonstrations' },
] as const;

const CLOSED =
  'The fault board opens when the run has ended, and you answer then: it shows the bed unrolled, its core, and curves and numbers of the whole run, which nobody sees at a bench. Until then look at glass, drops and receivers on the bench.';

type Part = (typeof PARTS)[number]['value'];

/** What goes wrong: faults imposed on the run, the run beside its healthy twin, and where the target went. */
@customElement('bf-faults')
export class FaultsView extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      .bar { position: sticky; top: 0; z-index: 2; background: var(--paper); border-bottom: 1px solid var(--rule); padding: var(--gap-small) 0; margin-bottom: var(--gap); }
      h1 { margin: 0; font-size: var(--text-large); }
      bf-hide-faults { display: block; margin-top: var(--gap-large); }
      .parts { margin-bottom: var(--gap-small); }
      @media (max-height: 30rem) { .bar { position: static; } }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private showing: Part = 'board';
  /** Shown to a class. */
  @state() private projected = false;
  @state() private asked: Asked | undefined;
  private twin: Twin | undefined;
  /** The faults of the run were shown here when it was drawn last. */
  private open = false;
  private dropEscape: (() => void) | undefined;

  override connectedCallback() {
    super.connectedCallback();
    // The twin was stopped when the view was left.
    if (this.hasUpdated) this.requestUpdate();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.twin?.stop();
    this.show(false);
  }

  override render() {
    const { session } = this;
    const { store } = session ?? {};
    if (!session || !store?.plan || !store.scenario) return html`<p role="status">${store?.failure || 'The column is being packed …'}</p>`;
    if (this.projected && this.showing === 'twin' && !isHidden(session.mystery)) return html`<h1 class="unseen">What goes wrong</h1>${this.partOf(session)}`;
    return html`
      <h1 class=${this.showing === 'twin' ? 'unseen' : ''}>What goes wrong</h1>
      <div class="bar"><bf-fault-clock .store=${store}></bf-fault-clock></div>
      ${
        isHidden(session.mystery)
          ? this.whileHidden(session)
          : html`
        ${session.mystery ? html`<bf-mystery .session=${session} .twin=${this.twinOf(session)}></bf-mystery>` : nothing}
        <bf-segmented class="parts" label="show" label-unseen .value=${this.showing} .choices=${PARTS} @bf-change=${this.take}></bf-segmented>
        <div @bf-open-part=${this.openPart}>${this.partOf(session)}</div>`
      }`;
  }

  override updated() {
    const { session, twin } = this;
    const hidden = isHidden(session?.mystery);
    // What hid the faults stands far down; the question that takes its place is at the top.
    if (hidden && this.open) this.scrollIntoView();
    this.open = !hidden && session?.store.plan !== undefined;
    const needed = session?.mystery ? !hidden : this.showing === 'twin';
    if (needed) twin?.start();
    else twin?.stop();
  }

  private whileHidden(session: Session) {
    return html`${isClosed(session) ? html`<h2>What is wrong with this column?</h2><p role="status">${CLOSED}</p><p><button type="button" class="primary" @click=${toBench}>To the bench</button></p>` : html`<bf-mystery .session=${session}></bf-mystery>`}<details><summary>What can be done about it</summary><bf-rescue .session=${session}></bf-rescue></details>`;
  }

  private partOf(session: Session) {
    switch (this.showing) {
      case 'twin':
        return html`<bf-twin .session=${session} .twin=${this.twinOf(session)} .projected=${this.projected} .asked=${this.asked} @bf-project=${this.project} @bf-asked=${this.ask}></bf-twin>
          ${this.projected ? nothing : html`<bf-hide-faults .session=${session}></bf-hide-faults>`}`;
      case 'rescue':
        return html`<bf-rescue .session=${session}></bf-rescue>`;
      case 'why':
        return html`<bf-why-lost .session=${session}></bf-why-lost>`;
      case 'demonstrations':
        return html`<bf-demonstrations .session=${session}></bf-demonstrations>`;
      default:
        return html`<bf-fault-board .session=${session}></bf-fault-board>`;
    }
  }

  private twinOf(session: Session): Twin {
    this.twin ??= new Twin(session, workerThread);
    return this.twin;
  }

  private openPart(event: CustomEvent<{ part: string }>) {
    this.showing = PARTS.find(({ value }) => value === event.detail.part)?.value ?? this.showing;
  }

  private project(event: CustomEvent<{ on: boolean }>) {
    this.show(event.detail.on);
  }

  private ask(event: CustomEvent<Asked>) {
    this.asked = event.detail;
  }

  /** Escape leaves the projector view, and means that only while it is there. */
  private show(projected: boolean) {
    this.projected = projected;
    this.dropEscape?.();
    this.dropEscape = projected
      ? addKeys({ heading: 'Projector', entries: [{ key: 'Escape', does: 'leave the projector view', run: () => this.show(false) }] })
      : undefined;
  }

  private take(event: CustomEvent<{ value: string }>) {
    this.showing = PARTS.find(({ value }) => value === event.detail.value)?.value ?? 'board';
  }
}

function toBench(): void {
  location.hash = '#bench';
}

/** While less than everything may be seen before the end, the pictures and numbers that tell a hidden fault would tell it early. */
function isClosed({ sees, seeingMost }: Session): boolean {
  return sees !== 'forecast' && seeingMost !== 'forecast';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-faults': FaultsView;
  }
}
