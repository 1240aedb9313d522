import type { Titre } from '../workup/index.ts';
import type { Receiver } from '../flask/index.ts';
import type { Sample } from './sample.ts';
import type { Titration, WorkUp } from './workup.ts';

// The figures of a work-up as one plain object, the same from the command line and from the page.

type Plain<T, Left extends keyof T> = Readonly<Omit<T, Left>>;

export interface WorkUpReport extends Plain<WorkUp, 'state' | 'titrations'> {
  readonly receiver: Receiver;
  /** As `portion_mL`, by its earlier name. */
  readonly portion_mL: number;
  readonly sample: Sample | undefined;
  readonly titrations: readonly (Plain<Titration, 'titre'> & { readonly titre: Plain<Titre, 'before'> })[];
  readonly steps: readonly {
    readonly action: unknown;
    readonly used: number;
    readonly pH?: number;
    readonly temperature_C?: number;
    readonly volume_mL?: number;
    readonly seen?: string;
  }[];
}

export function reportOf(receiver: Receiver, sample: Sample | undefined, { state, titrations, ...figures }: WorkUp): WorkUpReport {
  return {
    receiver,
    sample,
    ...figures,
    portion_mL: figures.portion_mL,
    titrations: titrations.map(({ titre: { before: _before, ...titre }, ...one }) => ({ ...one, titre })),
    steps: state.events.map(({ action, used, reading }) => ({
      action,
      used,
      ...(reading && {
        pH: reading.pH,
        temperature_C: reading.temperature_C,
        volume_mL: reading.volume_mL,
        seen: [reading.appearance.liquid, reading.appearance.solid].filter(Boolean).join('; '),
      }),
    })),
  };
}
