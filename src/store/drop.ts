import { dropOf } from '../../sim/flow/index.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from './threads/planner.ts';

/** Volume (mL) of the drop that forms at the tip now: it shrinks as the liquid there turns to strong acid. */
export function dropAt({ values }: Pick<Scenario, 'values'>, { tip }: Pick<Moment, 'tip'>): number {
  return dropOf(values, tip[values['column.tip_plates'] - 1]);
}
