import { isSample } from '../../../sim/history/index.ts';
import type { Liquid } from '../../../sim/terms/types.ts';
import type { ColumnStore } from '../../store/column-store.ts';
import { tracked } from '../../store/tracked.ts';
import type { Message } from '../../ui/message.ts';
import type { CautionId } from '../../ui/safety/cautions.ts';

/** Acid from which the acid caution is shown, mol/L; below it the usual goggles and gloves do. Common practice, no source. */
const STRONG_M = 1;
/** A card that opened by itself folds again after this, ms: time to read some 50 words twice. A choice. */
const FOLDS_MS = 30_000;
const PHONE = '(max-width: 40rem)';
/** Offered in few words; the cautions themselves come once the bench is drawn. */
const SAID = { acid: { text: 'Caution: strong hydrochloric acid burns.' }, metals: { text: 'Caution: cobalt and nickel can sensitise for life.' } } as const;
type Topic = keyof typeof SAID & CautionId;
/** Cautions that were opened since the page was; each visit shows them again. */
const MET = new Set<CautionId>();

/** The cautions of this bench, and which of them is open: each opens by itself once, when the hazard is first met. */
export class Hazards {
  @tracked open: CautionId | undefined;
  private folding: ReturnType<typeof setTimeout> | undefined;

  topics({ scenario }: ColumnStore): Topic[] {
    return [...new Set(Object.values(scenario?.liquids ?? {}).flatMap(topicsOf))].sort();
  }

  /** Opens what has just been poured for the first time; where it would lie over the figure it is only offered. */
  meet(store: ColumnStore, offer: (message: Message) => void): void {
    const met = poured(store).find((topic) => !MET.has(topic));
    if (met === undefined) return;
    MET.add(met);
    if (this.overFigure) return offer({ ...SAID[met], kind: 'note', action: { label: 'Read', run: () => this.flip(met) } });
    this.open = met;
    clearTimeout(this.folding);
    this.folding = setTimeout(() => this.close(), FOLDS_MS);
  }

  /** A telephone has no other place for the card than over the figure. */
  get overFigure(): boolean {
    return matchMedia(PHONE).matches;
  }

  flip(topic: CautionId): void {
    clearTimeout(this.folding);
    this.open = this.open === topic ? undefined : topic;
  }

  /** The one that is open is being read and stays. */
  keep(): void {
    clearTimeout(this.folding);
  }

  close(): void {
    clearTimeout(this.folding);
    this.open = undefined;
  }
}

/** Hazards that have been poured. */
function poured({ scenario, moment }: ColumnStore): Topic[] {
  return (moment?.events ?? []).flatMap(({ action, refused }): Topic[] => {
    const liquid = action?.do === 'pour' && !refused ? scenario?.liquids[action.liquid] : undefined;
    return liquid ? topicsOf(liquid) : [];
  });
}

function topicsOf(liquid: Liquid): Topic[] {
  return [...(liquid.HCl_M >= STRONG_M ? (['acid'] as const) : []), ...(isSample(liquid) ? (['metals'] as const) : [])];
}
