import { AT, type Bed, checkpoint, type Column, restore } from '../column/index.ts';
import type { Issue } from '../terms/types.ts';

/** mL above the rim that are rounding. */
const SLIGHT_ML = 1e-9;

/** Does `act` whole or not at all: refused, or with liquid driven over the rim, the state is what it was before. */
export function attempt(bed: Bed, column: Column, act: () => Issue | undefined): Issue | undefined {
  const before = checkpoint(bed);
  const refused = act() ?? overRim(bed, column);
  if (refused) restore(bed, before);
  return refused;
}

function overRim(bed: Bed, column: Column): Issue | undefined {
  const above = bed.scalar[AT.headVolume];
  if (above >= 0 && above <= column.headMax + SLIGHT_ML) return undefined;
  if (!(above >= 0)) return { path: 'do', expected: 'enough liquid above the bed to fill it', received: 'less' };
  const over = (above - column.headMax).toFixed(2);
  return { path: 'do', expected: 'room above the bed for the liquid that is driven out of it', received: `${over} mL more than the tube holds` };
}
