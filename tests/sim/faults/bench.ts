import { AT, type Bed } from '../../../sim/column/bed.ts';
import { parameterDefaults } from '../../../sim/terms/fields.ts';
import { onBed } from '../../../sim/column/start.ts';
import type { Run } from '../../../sim/run/run.ts';
import type { Action, FieldPath, Log, Scenario } from '../../../sim/terms/types.ts';

// A small column of fine resin for tests of what goes wrong: the cathode leach with fewer and coarser cells.

const SMALL: Partial<Record<FieldPath, number>> = {
  'bed.bead_um': 125,
  'bed.spread': 0.05,
  'column.outlet_cm': 3,
  'resin.shrinkage': 0,
  'bed.air_creep_min': 1e6,
  'bench.evaporation_mm_h': 0,
  'bed.plates': 30,
  'bed.lanes': 7,
  'bed.packing': 0,
  'numerics.frame_mL': 0.5,
};

export function leach(values: Partial<Record<FieldPath, number>> = {}, parts: Partial<Scenario> = {}): Scenario {
  const liquids = {
    acid: { label: '9 M HCl', HCl_M: 9, ions: {} },
    sample: { label: 'leach in 9 M HCl', HCl_M: 9, ions: { Co: 0.18, Ni: 0.22 } },
    water: { label: 'water', HCl_M: 0, ions: {} },
  };
  return {
    id: 'leach',
    title: 'leach',
    purpose: '',
    notice: [],
    sources: [],
    ions: ['Co', 'Ni'],
    liquids,
    values: { ...parameterDefaults(), ...SMALL, ...values },
    curves: {},
    faults: [],
    procedure: procedure(),
    seed: 3,
    ...parts,
  };
}

/** Condition, load, rinse, wash, elute; two portions of wash and of water. */
export function procedure(): Log {
  const down: Action = { do: 'wait', until: { liquid_mm: 1 } };
  const pour = (liquid: string, volume_mL: number): Action[] => [{ do: 'pour', liquid, volume_mL }, down];
  return [
    { do: 'receiver', label: 'nickel' },
    { do: 'clamp', open_percent: 100 },
    down,
    ...pour('acid', 5),
    ...pour('acid', 4),
    ...pour('sample', 1),
    ...pour('acid', 0.5),
    ...pour('acid', 6),
    ...pour('acid', 6),
    { do: 'pour', liquid: 'water', volume_mL: 6 },
    { do: 'wait', until: { more_mL: 2 } },
    { do: 'receiver', label: 'cobalt' },
    down,
    ...pour('water', 6),
    { do: 'clamp', open_percent: 0 },
  ];
}

/** mmol of a component in head, bed and what was spilled: what moving things about must not change. */
export function heldAmount({ bed, column }: Run, k: number): number {
  return bed.head[k] + onBed(bed, column, k);
}

/** Largest relative gap between the space of a cell and the liquid and gas in it. */
export function spaceError(bed: Bed): number {
  let worst = 0;
  for (let at = 0; at < bed.room.length; at++)
    worst = Math.max(worst, Math.abs(bed.mobile[at] + bed.stillVolume[at] + bed.gas[at] * bed.room[at] - bed.room[at]) / bed.room[at]);
  return worst;
}

/** mL of resin in the bed, as sound bed volume. */
export function resinVolume({ bed, column }: Run): number {
  return bed.resinShare.reduce((sum, share, at) => sum + share * column.cellVolume[Math.floor(at / bed.plates)], 0);
}

/** Lowest value in the state's amounts and volumes; NaN if any is. */
export function lowest({ bed }: Run): number {
  let least = 0;
  for (const array of [bed.pore, bed.sorbed, bed.still, bed.head, bed.tip, bed.receivers, bed.mobile, bed.stillVolume, bed.gas, bed.resinShare]) {
    for (const value of array) if (!(value >= least)) least = value;
  }
  return Math.min(bed.scalar[AT.headVolume], least);
}
