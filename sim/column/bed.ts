// The whole changing state of a run in one ArrayBuffer, allocated once, so that a checkpoint is one copy.
import type { Lanes } from './lanes.ts';
import type { Scenario } from '../terms/types.ts';

/** Slots of `scalar`. Times in min, volumes in mL. */
export const AT = {
  time: 0,
  delivered: 1,
  poured: 2,
  headVolume: 3,
  clampOpen: 4,
  receiver: 5,
  receivers: 6,
  steps: 7,
  entry: 8,
  entryTime: 9,
  entryDelivered: 10,
  flow: 11,
  mixingDue: 12,
  feedLiquid: 13,
  feedVolume: 14,
  frames: 15,
  frameAt: 16,
  /** Work done so far, in cells times components of a step (see `sim/run/bounds.ts`). */
  work: 17,
  /** 1 once the run has ended by itself. */
  ended: 18,
  lowestHead: 19,
  supportClog: 20,
  spilled: 21,
  dryMinutes: 22,
  drainings: 23,
  worstLedger: 24,
  /** Time of the last action, min. */
  changed: 25,
  /** 1 once cells of a lane differ in liquid, or some liquid does not move. */
  uneven: 26,
  /** Times the bed was stirred up. */
  stirs: 27,
  /** Disturbed top of the bed, cm: churned by every pour. */
  looseTop: 28,
  /** g/cm² per mL/min that the support gains with every mL passed. */
  clogPerMl: 29,
  /** Shrinkage of the bed in 9 M HCl, as a share. */
  shrinkage: 30,
  /** Pours that struck the bed. */
  strikes: 31,
  /** Faults imposed since the bed settled, one bit per kind. */
  imposed: 32,
  /** Water that the bed has lost to the air, mL. */
  evaporated: 33,
  /** Portions of resin poured into the tube; 0 while it is empty. */
  portions: 34,
  /** Time at which poured resin has settled, min. */
  settledAt: 35,
  size: 36,
} as const;

/** Receivers a run can hold. */
export const RECEIVERS_MAX = 24;

/** Float64 views into one buffer. Arrays over cells run species by species, then lane by lane, then from the top down. */
export interface Bed {
  readonly buffer: ArrayBuffer;
  readonly components: number;
  readonly lanes: number;
  readonly plates: number;
  readonly stages: number;
  readonly scalar: Float64Array;
  /** mmol of each component above the bed. */
  readonly head: Float64Array;
  /** mmol of each component poured so far, including what the bed held at the start. */
  readonly pouredAmount: Float64Array;
  /** mmol of each component lost to the bench. */
  readonly spilledAmount: Float64Array;
  /** mol/L between the beads, per component and cell. */
  readonly pore: Float64Array;
  /** mmol in the beads per mL of nominal bed, per component and cell. */
  readonly sorbed: Float64Array;
  /** mmol per component and lane that were too thin to keep in their cell: they wait here for the next cell that is swept. */
  readonly dust: Float64Array;
  /** mol/L in liquid that does not move, per component and cell. */
  readonly still: Float64Array;
  /** Moving liquid of a cell, mL. */
  readonly mobile: Float64Array;
  /** Liquid of a cell that does not move, mL. */
  readonly stillVolume: Float64Array;
  /** Space between the beads of a cell, mL. */
  readonly room: Float64Array;
  /** Gas as a share of the space between the beads. */
  readonly gas: Float64Array;
  /** Length of a cell over its nominal length; and its present length over that in water, since beads shrink in acid. */
  readonly height: Float64Array;
  readonly swollen: Float64Array;
  /** Scratch for the swelling: wanted over present length, liquid gained (mL), liquid that rises out (mL), per cell of a lane. */
  readonly growth: Float64Array;
  readonly gain: Float64Array;
  readonly rise: Float64Array;
  /** Resin of a cell over that of a sound cell. */
  readonly resinShare: Float64Array;
  /** Flow resistance of a cell over that of the ideal packing: of its packing alone, and with gas and cracks. */
  readonly packing: Float64Array;
  readonly resistance: Float64Array;
  /** HCl molarity at which the cached properties of a cell were last computed; -1 forces it. */
  readonly seen: Float64Array;
  /** HCl in the beads at equilibrium with a cell's liquid, mmol per mL of bed, and the molarity for which it was computed. */
  readonly invaded: Float64Array;
  readonly invadedAt: Float64Array;
  /** 1 where acid and beads were at rest after the last step. */
  readonly rest: Float64Array;
  readonly density: Float64Array;
  readonly viscosity: Float64Array;
  /** D_v of each metal per cell: Donnan part and exchange part. */
  readonly coion: Float64Array;
  readonly exchange: Float64Array;
  /** 1/kL of each metal in the beads of a cell without film, min; and how much HCl the beads take up beside their charge (`saltOf`). */
  readonly bead: Float64Array;
  readonly salt: Float64Array;
  /** D_v of each metal per cell at the end of the last step, with the capacity then taken. */
  readonly grip: Float64Array;
  /** Share of the capacity taken by metal complexes, per cell; and the free share expected after the next step. */
  readonly taken: Float64Array;
  readonly ahead: Float64Array;
  /** Per lane: drained cells at the top, 1 if its acid is steady, sums of density*dz and viscosity*resistance*dz, superficial velocity cm/min. */
  readonly drained: Float64Array;
  readonly steady: Float64Array;
  readonly weight: Float64Array;
  readonly drag: Float64Array;
  readonly velocity: Float64Array;
  /** Per lane: largest difference between a cell's acid and what enters it or its beads (over c + 0.1); and share of a metal in one cell times the square of its speed over the liquid's. */
  readonly unrest: Float64Array;
  readonly haste: Float64Array;
  /** Per lane: suction at which air enters (g/cm²), width of the crack beside it (cm), cells of it beside the crack. */
  readonly airEntry: Float64Array;
  readonly crack: Float64Array;
  readonly cracked: Float64Array;
  /** Per lane: last cell with any capacity taken, and how strongly the most loaded cell's uptake depends on its load. */
  readonly reach: Float64Array;
  readonly pull: Float64Array;
  /** Per metal and lane: first and last cell that can hold any of it. */
  readonly first: Float64Array;
  readonly last: Float64Array;
  /** Scratch of one lane for the spreading along it: factors of the elimination, and the new concentrations. */
  readonly ratio: Float64Array;
  readonly spread: Float64Array;
  /** mol/L in each mixing stage below the bed, component by component. */
  readonly tip: Float64Array;
  /** Per receiver: volume mL, then mmol of each component. */
  readonly receivers: Float64Array;
}

/** A fresh, zeroed state for this scenario. */
export function bedFor(scenario: Scenario, lanes: Lanes): Bed {
  const components = scenario.ions.length + 1;
  const plates = scenario.values['bed.plates'];
  const stages = scenario.values['column.tip_plates'];
  const cells = lanes.count * plates;
  const metals = components - 1;
  const sizes = {
    scalar: AT.size,
    head: components,
    pouredAmount: components,
    spilledAmount: components,
    pore: components * cells,
    sorbed: components * cells,
    dust: components * lanes.count,
    still: components * cells,
    mobile: cells,
    stillVolume: cells,
    room: cells,
    gas: cells,
    height: cells,
    swollen: cells,
    growth: plates,
    gain: plates,
    rise: plates + 1,
    resinShare: cells,
    packing: cells,
    resistance: cells,
    seen: cells,
    invaded: cells,
    invadedAt: cells,
    rest: cells,
    density: cells,
    viscosity: cells,
    coion: metals * cells,
    exchange: metals * cells,
    bead: metals * cells,
    salt: cells,
    grip: metals * cells,
    taken: cells,
    ahead: cells,
    drained: lanes.count,
    steady: lanes.count,
    weight: lanes.count,
    drag: lanes.count,
    velocity: lanes.count,
    unrest: lanes.count,
    haste: lanes.count,
    airEntry: lanes.count,
    crack: lanes.count,
    cracked: lanes.count,
    reach: lanes.count,
    pull: lanes.count,
    first: metals * lanes.count,
    last: metals * lanes.count,
    ratio: plates,
    spread: plates,
    tip: components * stages,
    receivers: RECEIVERS_MAX * (components + 1),
  };
  const total = Object.values(sizes).reduce((sum, size) => sum + size, 0);
  const buffer = new ArrayBuffer(total * 8);
  let offset = 0;
  const view = (size: number): Float64Array => {
    const array = new Float64Array(buffer, offset, size);
    offset += size * 8;
    return array;
  };
  const views = Object.fromEntries(Object.entries(sizes).map(([name, size]) => [name, view(size)]));
  // The keys of `sizes` are exactly the array members of Bed.
  return { buffer, components, lanes: lanes.count, plates, stages, ...views } as unknown as Bed;
}

/** A copy of the state, to go back to. */
export function checkpoint(bed: Bed): ArrayBuffer {
  return bed.buffer.slice(0);
}

/** Puts a copied state back. */
export function restore(bed: Bed, saved: ArrayBuffer): void {
  new Uint8Array(bed.buffer).set(new Uint8Array(saved));
}
