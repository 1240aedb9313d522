// A pour that is to be left out once a band is low enough: whether it is, as the bed stands.
import { bandOf } from '../column/index.ts';
import { BAND_LEAST } from '../history/index.ts';
import { IONS } from '../terms/ions.ts';
import type { Action } from '../terms/types.ts';
import type { Run } from './state.ts';

/** Why a sound action is left out now, with the figure that was looked at; undefined if it is to be done. No band is no reason. */
export function leftOut({ bed, column, scenario }: Run, action: Action): string | undefined {
  if (action.do !== 'pour' || action.unless === undefined) return undefined;
  const { ion, above_bottom_mm } = action.unless;
  const band = bandOf(bed, column, ion);
  if (!band || band.amount_mmol < BAND_LEAST * bed.pouredAmount[column.ions.indexOf(ion) + 1]) return undefined;
  const stands_mm = (column.length - band.leading_cm) * 10;
  if (stands_mm > above_bottom_mm) return undefined;
  const what = `${action.volume_mL} mL of ${scenario.liquids[action.liquid].label}`;
  return `left out: ${what}; the leading edge of ${IONS[ion].name} is ${stands_mm.toFixed(1)} mm above the bottom, and ${above_bottom_mm} mm was the mark to stop at`;
}
