import type { Amounts, IonId } from '../terms/types.ts';
import { deliveredOf, type Frames, instantAt, valueAt } from './frames.ts';
import type { Plan } from './plan.ts';
import { FRAME, type RunRecord } from './record.ts';

// What leaves the tip, against delivered volume.

/** What liquids hold: the acid and the metals. */
export type Solute = IonId | 'HCl';

/** What has to be known of a run to read what left. */
export type Effluent = Frames & Readonly<Pick<RunRecord, 'ions'>>;

/** Share of what was poured of an ion that has left when it is said to begin to leave. A choice. */
export const BEGINS_SHARE = 0.01;

export interface EffluentCurve {
  /** Delivered volumes, mL. */
  readonly xs: readonly number[];
  /** Leaving the tip, mol/L. */
  readonly ys: readonly number[];
}

export function solutesOf({ ions }: Pick<Effluent, 'ions'>): readonly Solute[] {
  return ['HCl', ...ions];
}

/** Concentration leaving the tip at a delivered volume, mol/L. */
export function leavingAt(run: Effluent, solute: Solute, delivered_mL: number): number {
  return valueAt(run, leavingColumn(run, solute), instantAt(run, delivered_mL));
}

/** Concentrations leaving the tip in some frames. */
export function effluentCurve(run: Effluent, solute: Solute, frames: readonly number[]): EffluentCurve {
  const column = leavingColumn(run, solute);
  return { xs: frames.map((frame) => deliveredOf(run, frame)), ys: frames.map((frame) => run.rows[frame * run.stride + column]) };
}

/** The highest concentration of the run, mol/L, and where it leaves. */
export function highestLeaving(run: Effluent, solute: Solute): { readonly delivered_mL: number; readonly molarity_M: number } {
  const column = leavingColumn(run, solute);
  const leaving = (frame: number): number => run.rows[frame * run.stride + column];
  let best = 0;
  for (let frame = 1; frame < run.count; frame++) if (leaving(frame) > leaving(best)) best = frame;
  return { delivered_mL: deliveredOf(run, best), molarity_M: leaving(best) };
}

/** The first delivered volume beyond `from_mL` at which less than this leaves, mL. */
export function leavesBelow(run: Effluent, solute: Solute, from_mL: number, below_M: number): number | undefined {
  const column = leavingColumn(run, solute);
  for (let frame = 0; frame < run.count; frame++) {
    if (deliveredOf(run, frame) > from_mL && run.rows[frame * run.stride + column] < below_M) return deliveredOf(run, frame);
  }
  return undefined;
}

/** mmol delivered up to a volume. */
export function collectedAt(run: Effluent, solute: Solute, delivered_mL: number): number {
  return valueAt(run, collectedColumn(run, solute), instantAt(run, delivered_mL));
}

/** mmol of every solute delivered between two volumes. */
export function collected(run: Effluent, from_mL: number, to_mL: number): Amounts {
  const [from, to] = [instantAt(run, from_mL), instantAt(run, to_mL)];
  const amount = (solute: Solute): number => valueAt(run, collectedColumn(run, solute), to) - valueAt(run, collectedColumn(run, solute), from);
  return Object.fromEntries([['HCl_mmol', amount('HCl')], ...run.ions.map((ion) => [`${ion}_mmol`, amount(ion)])]);
}

/** Smallest delivered volume at which at least this much, mmol, has been delivered; undefined if the run never brings it. */
export function volumeAt(run: Effluent, solute: Solute, amount_mmol: number): number | undefined {
  const column = collectedColumn(run, solute);
  for (let frame = 0; frame < run.count; frame++) {
    if (run.rows[frame * run.stride + column] >= amount_mmol) return frame === 0 ? 0 : crossing(run, column, frame - 1, amount_mmol);
  }
  return undefined;
}

/** Largest delivered volume at which no more than this much, mmol, has been delivered. */
export function lastVolumeAt(run: Effluent, solute: Solute, amount_mmol: number): number {
  const column = collectedColumn(run, solute);
  let frame = run.count - 1;
  while (frame > 0 && run.rows[frame * run.stride + column] > amount_mmol) frame -= 1;
  return crossing(run, column, frame, amount_mmol);
}

/** Delivered volume at which a share of what was poured of an ion has left; undefined if it was not poured or never does. */
export function leavesAt(plan: Plan, ion: IonId, share: number): number | undefined {
  const poured = pouredOf(plan, ion);
  return poured > 0 ? volumeAt(plan, ion, share * poured) : undefined;
}

/** mmol poured in the whole run. */
export function pouredOf({ results }: Pick<Plan, 'results'>, ion: IonId): number {
  return results.loaded[`${ion}_mmol`] ?? 0;
}

/** Volume between a frame and the next at which a growing amount passes a value. */
function crossing(run: Effluent, column: number, frame: number, value: number): number {
  const from = deliveredOf(run, frame);
  if (frame + 1 >= run.count) return from;
  const low = run.rows[frame * run.stride + column];
  const high = run.rows[(frame + 1) * run.stride + column];
  const step = deliveredOf(run, frame + 1) - from;
  return high > low ? from + step * Math.min(1, Math.max(0, (value - low) / (high - low))) : from + step;
}

function leavingColumn({ ions }: Effluent, solute: Solute): number {
  return FRAME.parts + placeOf(ions, solute);
}

function collectedColumn({ ions }: Effluent, solute: Solute): number {
  return FRAME.parts + 1 + ions.length + placeOf(ions, solute);
}

/** Place of a solute in every record: the acid first, then the ions in the order of the scenario; NaN for one that the run does not hold. */
export function placeOf(ions: readonly IonId[], solute: Solute): number {
  if (solute === 'HCl') return 0;
  const place = ions.indexOf(solute);
  return place < 0 ? Number.NaN : place + 1;
}
