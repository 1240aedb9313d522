import { isSample } from '../../../sim/history/index.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { tracked } from '../../store/tracked.ts';
import type { Message } from '../../ui/message.ts';
import { type CautionId, CAUTIONS } from '../../ui/safety/cautions.ts';

/** Acid from which the acid caution is shown, mol/L; below it the usual goggles and gloves do. Common practice, no source. */
const STRONG_M = 1;
/** A card that opened by itself folds again after this, ms: time to read about 120 words. A choice. */
const FOLDS_MS = 30_000;
const PHONE = '(max-width: 40rem)';
/** Cautions that were opened since the page was; each visit shows them again. */
const MET = new Set<CautionId>();

/** The cautions of this bench, and which of them is open: each opens by itself once, when the hazard is first met. */
export class Hazards {
  @tracked open: CautionId | undefined;
  private folding: ReturnType<typeof setTimeout> | undefined;

  topics({ scenario }: ColumnStore): CautionId[] {
    const liquids = Object.values(scenario?.liquids ?? {});
    return [...(liquids.some(({ HCl_M }) => HCl_M >= STRONG_M) ? (['acid'] as const) : []), ...(liquids.some(isSample) ? (['metals'] as const) : [])];
  }

  /** Opens what has just been poured for the first time; where it would lie over the figure it is only offered. */
  meet(store: ColumnStore, offer: (message: Message) => void): void {
    const met = poured(store).find((topic) => !MET.has(topic));
    if (met === undefined) return;
    MET.add(met);
    if (this.overFigure) return offer({ text: `Caution: ${CAUTIONS[met].heading}`, kind: 'note', action: { label: 'Read', run: () => this.flip(met) } });
    this.show(met);
    clearTimeout(this.folding);
    this.folding = setTimeout(() => this.close(), FOLDS_MS);
  }

  /** A telephone has no other place for the card than over the figure. */
  get overFigure(): boolean {
    return matchMedia(PHONE).matches;
  }

  flip(topic: CautionId): void {
    clearTimeout(this.folding);
    if (this.open === topic) this.open = undefined;
    else this.show(topic);
  }

  /** The card comes when it is wanted; until then its heading is the name of the pictogram. */
  private show(topic: CautionId): void {
    this.open = topic;
    import('./card.ts').catch(() => undefined);
  }

  close(): void {
    clearTimeout(this.folding);
    this.open = undefined;
  }
}

/** Hazards that have been poured. */
function poured({ scenario, moment }: ColumnStore): CautionId[] {
  return (moment?.events ?? []).flatMap(({ action, refused }): CautionId[] => {
    const liquid = action?.do === 'pour' && !refused ? scenario?.liquids[action.liquid] : undefined;
    if (!liquid) return [];
    return [...(liquid.HCl_M >= STRONG_M ? (['acid'] as const) : []), ...(isSample(liquid) ? (['metals'] as const) : [])];
  });
}
