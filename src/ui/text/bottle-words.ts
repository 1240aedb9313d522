import type { BottleAmount } from '../../../sim/lab/index.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import { quantity, withUnit } from './format.ts';

/** How a bottle is made up for the class. `stock_M` is the acid as bought, mol/L. */
export function bottleWords({ HCl_M, class_mL, stock_mL, metals }: BottleAmount, stock_M: number): string {
  if (class_mL === 0) return 'not used by the procedure';
  const weighed = metals.map(metalWords);
  if (HCl_M === 0) return [...weighed, 'deionised water'].join('; ');
  if (HCl_M > stock_M) return [...weighed, 'concentrated acid as bought'].join('; ');
  return [...weighed, `${quantity(stock_mL, 'mL')} of ${stock_M} mol/L HCl into water in the hood, then to volume`].join('; ');
}

/** By the salt that is weighed where the metal has a usual one. */
function metalWords({ ion, molarity_M, metal_g, salt }: BottleAmount['metals'][number]): string {
  const weighed = salt ? `${quantity(salt.g, 'g')} of ${salt.formula}` : `a chloride with ${quantity(metal_g, 'g')} of the metal`;
  return `${withUnit(String(molarity_M), 'mol/L')} ${IONS[ion].name}: ${weighed}`;
}
