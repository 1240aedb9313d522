import type { Solution } from '../../sim/colour/index.ts';

// Liquids by their colour.

/** Factor on the absorbance of liquids when faint colours are exaggerated. */
export const EXAGGERATION = 5;

/** What a liquid's colour depends on, to three figures: the same text, the same colour. */
export function stainOf({ HCl_M, ions }: Solution, exaggerate: boolean): string {
  return [exaggerate, HCl_M.toPrecision(3), ...Object.values(ions).map((concentration) => concentration.toPrecision(3))].join(' ');
}
