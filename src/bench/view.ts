import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { handlesOf, movedEluent, movedReceiver } from '../store/edit.ts';
import type { Session } from '../store/session.ts';
import { Watch } from '../store/watch.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';
import '../figure/figure.ts';
import '../glass/glass.ts';
import './now.ts';
import './strip.ts';

interface HandleMove {
  readonly entry: number;
  readonly kind: 'eluent' | 'receiver';
  readonly delivered_mL: number;
  readonly phase: 'move' | 'drop' | 'cancel';
}

/** The bench: glass beside figure, read-outs, and the strip of controls. */
@customElement('bf-bench')
export class BenchView extends LitElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; }
      .bench { display: grid; gap: var(--gap); grid-template-columns: minmax(11rem, 15rem) minmax(0, 1fr) minmax(13rem, 17rem);
        grid-template-areas: 'glass figure side' 'strip strip strip'; }
      bf-glass { grid-area: glass; min-height: 34rem; }
      bf-figure { grid-area: figure; min-height: 34rem; }
      .side { grid-area: side; display: grid; gap: var(--gap); align-content: start; }
      bf-strip { grid-area: strip; border-top: 1px solid var(--rule); padding-top: var(--gap); }
      @media (max-width: 60rem) {
        .bench { grid-template-columns: minmax(8rem, 11rem) minmax(0, 1fr); grid-template-areas: 'glass figure' 'strip strip' 'side side'; }
      }
      @media (max-width: 40rem) {
        .bench { grid-template-columns: minmax(0, 1fr); grid-template-areas: 'glass' 'figure' 'strip' 'side'; }
        bf-glass { min-height: 24rem; }
      }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  @state() private bedTop = 0;
  @state() private bedBottom = 0;
  @state() private depth_cm: number | undefined;
  private readonly watchSession = new Watch(this);
  private readonly watchStore = new Watch(this);

  override willUpdate() {
    this.watchSession.follow(this.session);
    this.watchStore.follow(this.session?.store);
  }

  override render() {
    const { session } = this;
    const store = session?.store;
    if (!session || !store?.scenario) return html`<p>${store?.failure ?? nothing}</p>`;
    const shown = store.preview ?? store.plan;
    return html`<div class="bench">
      <bf-glass .scenario=${store.scenario} .moment=${store.moment} .labels=${store.plan?.labels ?? []} .exaggerate=${session.exaggerate}
        .bedTop=${this.bedTop} .bedBottom=${this.bedBottom} .playing=${store.playing} .speed=${store.speed} .depth_cm=${this.depth_cm} @bf-depth=${this.point}></bf-glass>
      <bf-figure .scenario=${store.scenario} .plan=${store.plan} .preview=${store.preview} .now_mL=${store.moment?.delivered_mL ?? 0} .now_min=${store.now}
        .handles=${shown ? handlesOf(shown.log, shown.events) : []} .showForecast=${true} .depth_cm=${this.depth_cm}
        @bf-handle=${this.drag} @bf-layout=${this.align} @bf-point=${this.point}></bf-figure>
      <div class="side"><bf-now .store=${store}></bf-now></div>
      <bf-strip .store=${store}></bf-strip>
    </div>`;
  }

  private align(event: CustomEvent<{ bedTop: number; bedBottom: number }>) {
    this.bedTop = event.detail.bedTop;
    this.bedBottom = event.detail.bedBottom;
  }

  private point(event: CustomEvent<{ depth_cm?: number } | undefined>) {
    this.depth_cm = event.detail?.depth_cm;
  }

  private drag(event: CustomEvent<HandleMove>) {
    const store = this.session?.store;
    const { plan } = store ?? {};
    if (!store || !plan) return;
    const { entry, kind, delivered_mL, phase } = event.detail;
    if (phase === 'cancel') return void store.dropPreview();
    const log = (kind === 'receiver' ? movedReceiver : movedEluent)(plan.log, plan.events, entry, delivered_mL);
    if (phase === 'drop') void store.replace(log, store.now);
    else if (kind === 'eluent') void store.tryOut(log);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-bench': BenchView;
  }
}
