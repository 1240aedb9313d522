import { AT, type Bed } from '../../sim/column/bed.ts';
import { type Column, columnOf, rowsOf } from '../../sim/column/column.ts';
import { type FieldPath, parameterDefaults } from '../../sim/terms/fields.ts';
import type { IonId } from '../../sim/terms/ions.ts';
import type { LaneEdge } from '../../sim/column/lanes.ts';
import { mix } from '../../sim/flow/mixing.ts';
import { packedBed } from '../../sim/column/start.ts';
import { type Flux, fluxFor } from '../../sim/column/flux.ts';
import { acidIsSteady, passSteadyAcid, sweepAcid } from '../../sim/flow/sweep-acid.ts';
import { sweepMetals } from '../../sim/flow/sweep-metals.ts';
import type { Scenario } from '../../sim/terms/types.ts';

// The lanes of the model without head, tip and gravity: constant flow, chosen inflow, constants set by the test.

export interface RigSpec {
  readonly plates: number;
  readonly ions?: readonly IonId[];
  /** Constant D_v per ion; without it the scenario's own curves. */
  readonly D?: Partial<Record<IonId, number>>;
  readonly values?: Partial<Record<FieldPath, number>>;
  /** 1/kL without film, min: HCl, then metals. */
  readonly bead?: readonly number[];
  /** Film part per unit D and Sherwood number, min. */
  readonly film?: number;
  readonly capacity?: number;
  /** Share of the cross-section of each lane. */
  readonly shares?: readonly number[];
  readonly edges?: readonly LaneEdge[];
  /** cm²/min, all components: sideways dispersion when `edges` are given. */
  readonly diffusion?: number;
}

export interface Rig {
  readonly bed: Bed;
  readonly column: Column;
  readonly flux: Flux;
  /** Liquid between the beads, mL. */
  readonly holdup: number;
  /** Passes `volume` mL of `inflow` (mol/L per component) at `flow` mL/min in total, shared between lanes as given. */
  step(inflow: readonly number[], volume: number, flow: number, split?: readonly number[]): Float64Array;
}

const NOT_SLOW = 1e-9;

/** A rig with 1 cm² of cross-section and 1 cm of length per default. */
export function rigFor(spec: RigSpec): Rig {
  const scenario = scenarioOf(spec);
  const column = columnFor(spec, scenario);
  const bed = packedBed(column);
  const flux = fluxFor(bed.components, bed.plates);
  const holdup = bed.mobile.reduce((sum, volume) => sum + volume, 0);
  return { bed, column, flux, holdup, step: (inflow, volume, flow, split = shareOf(column)) => stepRig(bed, column, flux, inflow, volume, flow, split) };
}

/** Scenario with one bottle of water, for tests that build their own. */
export function scenarioOf(spec: RigSpec): Scenario {
  const ions = spec.ions ?? ['Ni'];
  const curves = Object.fromEntries(
    Object.entries(spec.D ?? {}).map(([ion, D]) => [
      ion,
      [
        [0, D],
        [13, D],
      ],
    ]),
  );
  const values = {
    ...parameterDefaults(),
    'column.bore_cm': Math.sqrt(4 / Math.PI),
    'bed.length_cm': 1,
    'bed.plates': spec.plates,
    'bed.lanes': spec.shares?.length ?? 1,
    'bed.bead_um': 125,
    'resin.shrinkage': 0,
    'bench.evaporation_mm_h': 0,
    'bed.packing': 0,
    'bed.spread': 0,
    'flow.obstruction': 0,
    ...spec.values,
  };
  const liquids = { water: { label: 'water', HCl_M: 0, ions: {} } };
  return {
    id: 'rig',
    title: 'rig',
    purpose: '',
    notice: [],
    sources: [],
    ions,
    liquids,
    values,
    curves: curves as Scenario['curves'],
    faults: [],
    procedure: [],
    seed: 1,
  };
}

function columnFor(spec: RigSpec, scenario: Scenario): Column {
  const column = columnOf(scenario);
  const bead = spec.bead ?? [NOT_SLOW, ...column.tables.map(() => NOT_SLOW)];
  const area = Float64Array.from(spec.shares ?? [1], (share) => share * column.section);
  const tables = column.tables.map((table, s) => ({ ...table, bead: table.bead.map(() => bead[s + 1]) }));
  return {
    ...column,
    rows: rowsOf(tables, column.liquid),
    bead: bead[0],
    beadLeast: Math.min(...bead.slice(1)),
    tables,
    film: spec.film ?? 0,
    capacity: spec.capacity ?? column.capacity,
    lanes: { ...column.lanes, area, edges: spec.edges ?? [] },
    cellVolume: area.map((a) => a * column.dz),
    diffusion: spec.diffusion === undefined ? column.diffusion : column.diffusion.map(() => spec.diffusion ?? 0),
  };
}

function shareOf(column: Column): number[] {
  return Array.from(column.lanes.area, (area) => area / column.section);
}

function stepRig(bed: Bed, column: Column, flux: Flux, inflow: readonly number[], volume: number, flow: number, split: readonly number[]): Float64Array {
  flux.outflow.fill(0);
  flux.inflow.set(inflow);
  const dt = volume / flow;
  flux.time = dt;
  for (let i = 0; i < bed.lanes; i++) {
    flux.volume = volume * split[i];
    bed.velocity[i] = (flow * split[i]) / column.lanes.area[i];
    if (acidIsSteady(bed, i, flux)) passSteadyAcid(flux);
    else sweepAcid(bed, column, i, false, flux);
    sweepMetals(bed, column, i, false, flux);
  }
  bed.scalar[AT.time] += dt;
  bed.scalar[AT.mixingDue] = dt;
  if (column.lanes.edges.length > 0) mix(bed, column);
  return flux.outflow.map((amount) => amount / volume);
}
