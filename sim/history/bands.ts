import { type Band, bandIn } from '../column/index.ts';
import type { IonId } from '../terms/types.ts';
import { pouredOf } from './effluent.ts';
import type { Plan, Results } from './plan.ts';
import { profileOf } from './profiles.ts';

/** Share of what was poured of an ion that must be on the bed for it to make a band; less is a trace. A choice. */
export const BAND_LEAST = 0.02;

/** The bands of one ion through a run, one value for each frame; depths along the bed as packed, are NaN where there is no band. */
export interface Track {
  readonly ion: IonId;
  /** On the bed, as a share of what was poured in the whole run. */
  readonly share: Float32Array;
  readonly leading_cm: Float32Array;
  readonly trailing_cm: Float32Array;
  readonly middle_cm: Float32Array;
}

/** The band of an ion in a frame, along the bed as packed or as a ruler reads a bed of this height; undefined while it holds no more than a trace of it. */
export function bandAt(plan: Plan, ion: IonId, frame: number, height_cm = plan.length_cm): Band | undefined {
  const cell_mL = plan.results.bed.volume_mL / plan.plates;
  return bandIn(profileOf(plan, ion, frame), height_cm / plan.plates, cell_mL, leastOf(plan, ion), plan.length_cm - height_cm);
}

/** The band of an ion by the figures of a moment, as the ruler reads it; undefined while the bed holds no more than a trace of it. */
export function bandNow(results: Results, ion: IonId): Band | undefined {
  const band = results.bands[ion];
  return band && band.amount_mmol >= leastOf({ results }, ion) ? band : undefined;
}

export function trackOf(plan: Plan, ion: IonId): Track {
  const poured = pouredOf(plan, ion);
  const depths = (): Float32Array => new Float32Array(plan.count).fill(Number.NaN);
  const track = { ion, share: new Float32Array(plan.count), leading_cm: depths(), trailing_cm: depths(), middle_cm: depths() };
  for (let frame = 0; frame < plan.count; frame++) {
    const band = bandAt(plan, ion, frame);
    if (!band) continue;
    track.share[frame] = poured > 0 ? band.amount_mmol / poured : 1;
    track.leading_cm[frame] = band.leading_cm;
    track.trailing_cm[frame] = band.trailing_cm;
    track.middle_cm[frame] = band.centroid_cm;
  }
  return track;
}

function leastOf(plan: Pick<Plan, 'results'>, ion: IonId): number {
  return BAND_LEAST * pouredOf(plan, ion);
}
