import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { SEEINGS, type Seeing } from '../../sim/terms/seeing.ts';
import { LiveElement } from '../store/live-element.ts';
import type { Session } from '../store/session.ts';
import { controlStyles, hiddenStyles } from '../ui/styles.ts';

const LABELS: Readonly<Record<Seeing, string>> = { eye: 'by eye', figure: 'with the figure', forecast: 'with the forecast' };
/** What a telephone has room for. */
const SHORT: Readonly<Record<Seeing, string>> = { eye: 'by eye', figure: 'figure', forecast: 'forecast' };

/** How much of the run is shown while it lasts; what the scenario does not allow cannot be chosen. */
@customElement('bf-seeing-choice')
export class SeeingChoice extends LiveElement {
  static override styles = [
    controlStyles,
    hiddenStyles,
    css`
      :host { display: block; flex: none; }
      select { width: auto; max-width: 9.5rem; min-height: var(--target); padding: 0 0.25em; border-color: transparent; background: none; color: var(--soft); }
      select:hover { border-color: var(--edge); }
    `,
  ];

  @property({ attribute: false }) session: Session | undefined;
  /** In few words. */
  @property({ type: Boolean }) short = false;

  override render() {
    const { session } = this;
    if (!session) return nothing;
    const most = SEEINGS.indexOf(session.seeingMost);
    const words = this.short ? SHORT : LABELS;
    return html`<label><span class="unseen">How the run is seen</span>
      <select @change=${this.choose}><optgroup label=${session.allOpen ? 'all is open now' : 'while the run lasts'}>${SEEINGS.map(
        (seeing, i) =>
          html`<option value=${seeing} .selected=${seeing === (session.watching ? session.sees : session.chosen)} ?disabled=${i > most}>${words[seeing]}</option>`,
      )}</optgroup></select></label>`;
  }

  private choose(event: Event & { target: HTMLSelectElement }) {
    this.session?.setSeeing(SEEINGS.find((seeing) => seeing === event.target.value) ?? 'eye');
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-seeing-choice': SeeingChoice;
  }
}
