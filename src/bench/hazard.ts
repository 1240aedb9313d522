import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { isSample } from '../../sim/history/index.ts';
import type { ColumnStore } from '../store/column-store.ts';
import { LiveElement } from '../store/live-element.ts';
import type { CautionId } from '../ui/safety/cautions.ts';
import { CAUTIONS } from '../ui/safety/cautions.ts';
import { pictogram } from '../ui/safety/pictograms.ts';
import { controlStyles } from '../ui/styles.ts';
import '../ui/safety/caution.ts';

/** Acid from which the acid caution is shown, mol/L; below it the usual goggles and gloves do. Common practice, no source. */
const STRONG_M = 1;
/** A card that opened by itself folds again after this, ms: time to read about 120 words. A choice. */
const FOLDS_MS = 30_000;
/** Cautions that were opened since the page was; each visit shows them again. */
const MET = new Set<CautionId>();

/** Pictograms of the hazards on this bench. Each opens by itself once, when the hazard is first met, and whenever it is pressed. */
@customElement('bf-hazard')
export class HazardSigns extends LiveElement {
  static override styles = [
    controlStyles,
    css`
      :host { display: block; }
      .signs { display: flex; gap: 2px; pointer-events: auto; }
      .signs button { min-height: 1.75rem; padding: 0 0.2rem; border-color: transparent; background: none; color: var(--caution-ink); display: flex; align-items: center; }
      .signs button[aria-expanded='true'] { background: var(--caution-paper); border-color: var(--caution-edge); }
      .signs svg { width: 1.35rem; height: 1.35rem; }
      .card { pointer-events: auto; position: absolute; z-index: 5; top: 2rem; right: 0; width: min(24rem, 100%); max-height: calc(100% - 2.25rem); overflow-y: auto; font-size: var(--text-small); box-shadow: 0 4px 16px rgb(0 0 0 / 20%); }
      @media (pointer: coarse) { .signs button { min-width: 2.75rem; min-height: 2.75rem; justify-content: center; } .card { top: 3rem; max-height: calc(100% - 3.25rem); } }
      @media print { :host { display: none; } }
    `,
  ];

  @property({ attribute: false }) store: ColumnStore | undefined;
  /** Nobody handles anything: nothing opens by itself. */
  @property({ type: Boolean }) quiet = false;
  @state() private open: CautionId | undefined;
  private folding: ReturnType<typeof setTimeout> | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    clearTimeout(this.folding);
  }

  override willUpdate() {
    const met = this.met().find((topic) => !MET.has(topic));
    if (met === undefined || this.quiet) return;
    MET.add(met);
    this.open = met;
    clearTimeout(this.folding);
    this.folding = setTimeout(() => this.close(), FOLDS_MS);
  }

  override render() {
    const topics = this.topics();
    const { open } = this;
    return html`<div class="signs">${topics.map(
      (topic) =>
        html`<button type="button" aria-expanded=${topic === open ? 'true' : 'false'} aria-label="Caution: ${CAUTIONS[topic].heading}" @click=${() => this.flip(topic)}>${pictogram(CAUTIONS[topic].pictogram)}</button>`,
    )}</div>
      ${open ? html`<bf-caution class="card" .topic=${open} @bf-caution-read=${this.close}></bf-caution>` : nothing}`;
  }

  private topics(): CautionId[] {
    const liquids = Object.values(this.store?.scenario?.liquids ?? {});
    return [...(liquids.some(({ HCl_M }) => HCl_M >= STRONG_M) ? (['acid'] as const) : []), ...(liquids.some(isSample) ? (['metals'] as const) : [])];
  }

  /** Hazards that have been poured. */
  private met(): CautionId[] {
    const { scenario, moment } = this.store ?? {};
    return (moment?.events ?? []).flatMap(({ action, refused }): CautionId[] => {
      const liquid = action?.do === 'pour' && !refused ? scenario?.liquids[action.liquid] : undefined;
      if (!liquid) return [];
      return [...(liquid.HCl_M >= STRONG_M ? (['acid'] as const) : []), ...(isSample(liquid) ? (['metals'] as const) : [])];
    });
  }

  private flip(topic: CautionId) {
    clearTimeout(this.folding);
    this.open = this.open === topic ? undefined : topic;
  }

  private close() {
    this.open = undefined;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hazard': HazardSigns;
  }
}
