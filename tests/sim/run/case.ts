import type { Run } from '../../../sim/run/run.ts';
import { type FieldPath, parameterDefaults } from '../../../sim/terms/fields.ts';
import type { Action, Scenario } from '../../../sim/terms/types.ts';

/** A small sound scenario with acid, sample and water; values as given over the defaults. */
export function caseOf(values: Partial<Record<FieldPath, number>> = {}, more: Partial<Scenario> = {}): Scenario {
  return {
    id: 'case',
    title: 'case',
    purpose: '',
    notice: [],
    sources: [],
    ions: ['Co', 'Ni'],
    liquids: {
      acid: { label: 'acid', HCl_M: 9, ions: {} },
      sample: { label: 'sample', HCl_M: 9, ions: { Co: 0.1, Ni: 0.1 } },
      water: { label: 'water', HCl_M: 0, ions: {} },
    },
    values: { ...parameterDefaults(), 'bed.lanes': 4, 'bed.plates': 30, ...values },
    curves: {},
    faults: [],
    procedure: [],
    seed: 1,
    ...more,
  };
}

export const clamp = (open_percent: number): Action => ({ do: 'clamp', open_percent });
export const pour = (liquid: string, volume_mL: number, more: { how?: 'wall' | 'bed'; hold_level?: boolean } = {}): Action => ({
  do: 'pour',
  liquid,
  volume_mL,
  ...more,
});
export const until = (wait: Extract<Action, { do: 'wait' }>['until']): Action => ({ do: 'wait', until: wait });

/** Least amount or molarity anywhere in a run; NaN if one is not a number. */
export function lowest({ bed, record }: Run): number {
  let least = 0;
  for (const array of [bed.pore, bed.sorbed, bed.still, bed.head, bed.tip, bed.receivers, bed.dust, record.rows]) {
    for (const value of array) {
      if (Number.isNaN(value)) return Number.NaN;
      if (value < least) least = value;
    }
  }
  return least;
}
