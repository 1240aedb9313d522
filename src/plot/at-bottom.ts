import type { Plan } from '../../sim/history/index.ts';

/** A band this near the bottom has reached it: the ruler is read no finer, cm. */
const READ_CM = 0.05;

/** Whether a band, as the ruler reads it, has reached the bottom of the bed; false without a band. */
export function isAtBottom({ length_cm }: Plan, band: { readonly leading_cm: number } | undefined): boolean {
  return band !== undefined && band.leading_cm >= length_cm - READ_CM;
}

/** The first of these volumes, in steps, at which something is so; mL. */
export function firstVolume(from_mL: number, to_mL: number, step_mL: number, isSo: (mL: number) => boolean): number | undefined {
  for (let mL = from_mL; mL <= to_mL; mL += step_mL) if (isSo(mL)) return mL;
  return undefined;
}
