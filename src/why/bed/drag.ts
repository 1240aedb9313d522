import { emit } from '../../ui/emit.ts';
import { acidScale, ACID_TOP_M } from '../ion/species-drawing.ts';

/** Molarities chosen by pointer are multiples of this, mol/L. */
const STEP_M = 0.1;

/** Asks for the molarity under the pointer while a button or finger is down on a drawing whose axis is HCl. */
export function dragAcid(host: EventTarget, event: PointerEvent, width: number): void {
  if (event.buttons === 0 || !(event.currentTarget instanceof SVGElement)) return;
  const px = event.clientX - event.currentTarget.getBoundingClientRect().left;
  const value = Math.round(acidScale(width).invert(px) / STEP_M) * STEP_M;
  emit(host, 'bf-molarity', { value: Math.min(ACID_TOP_M, Math.max(0, Number(value.toFixed(2)))) });
}
