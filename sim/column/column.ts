// What stays fixed during a run: geometry, tables and rate constants computed once from a scenario.
import { beadOf, sectionOf } from '../terms/geometry.ts';
import { IONS } from '../terms/ions.ts';
import { type Lanes, lanesOf } from './lanes.ts';
import type { IonId, Parameters, Scenario } from '../terms/types.ts';
import { liquidTable, resinFrom, shareTable, type UptakeTable, uptakeTable } from '../chemistry/index.ts';
import { cbrt, power } from '../math/elementary.ts';
import { square } from '../math/square.ts';

/** Seconds in a minute, the model's unit of time. */
const S_PER_MIN = 60;
/** cm/s². */
const GRAVITY = 980.665;
/** Viscosity falls about 2 % per kelvin, diffusion rises 2.5 % (CRC Handbook, 2 to 3 %, read). */
const VISCOSITY_PER_K = -0.02;
const DIFFUSION_PER_K = 0.025;

/** What depends on the HCl molarity for one metal. */
export interface MetalTable extends UptakeTable {
  /** 1/kL without film, min. */
  readonly bead: Float64Array;
}

export interface Column {
  readonly scenario: Scenario;
  readonly lanes: Lanes;
  readonly ions: readonly IonId[];
  /** cm² of the tube. */
  readonly section: number;
  readonly length: number;
  /** Length of one cell, cm. */
  readonly dz: number;
  readonly porosity: number;
  /** Bed volume of one cell of each lane, mL. */
  readonly cellVolume: Float64Array;
  /** Highest liquid above the bed before it overflows, mL. */
  readonly headMax: number;
  readonly outlet: number;
  /** cm² of the ideal packing. */
  readonly permeability: number;
  /** (g/cm²) per (cm/min) and mPa s: resistance of 1 cm of ideal packing. */
  readonly dragPerCm: number;
  /** g/cm² lost per mL/min of water through the open clamp. */
  readonly clampDrag: number;
  /** Suction at which air enters each lane of a fresh bed, g/cm². */
  readonly airEntry: Float64Array;
  readonly capacity: number;
  readonly fixedCharge: number;
  readonly resinPore: number;
  readonly invasion: number;
  /** 1/kL of HCl in the beads, min. */
  readonly bead: number;
  /** The least 1/kL of any metal without film, min. */
  readonly beadLeast: number;
  /** Film part of 1/kL per unit D at Sherwood number 1, min. */
  readonly film: number;
  readonly sherwood: number;
  /** Molecular diffusion, cm²/min: HCl first, then metals. */
  readonly diffusion: Float64Array;
  readonly anionCharge: Float64Array;
  readonly tables: readonly MetalTable[];
  readonly liquid: { readonly density: Float64Array; readonly viscosity: Float64Array };
  /** All that depends on the HCl molarity, side by side: one row for each entry of the tables; coion, exchange, bead per metal, then density, viscosity. */
  readonly rows: Float64Array;
  readonly viscosityFactor: number;
  /** mol/L of every component of each bottle. */
  readonly liquids: Readonly<Record<string, Float64Array>>;
}

/** Everything a run of this scenario needs that does not change. */
export function columnOf(scenario: Scenario): Column {
  const v = scenario.values;
  const lanes = lanesOf(v, scenario.seed);
  const section = sectionOf(v);
  const dz = v['bed.length_cm'] / v['bed.plates'];
  const resin = resinFrom(v);
  const warm = v['bench.temperature_C'] - 20;
  const rates = kinetics(scenario, 1 + DIFFUSION_PER_K * warm);
  const permeability = kozenyCarman(beadOf(v), v['bed.porosity'], v['bed.kozeny']);
  return {
    scenario,
    lanes,
    ions: scenario.ions,
    section,
    length: v['bed.length_cm'],
    dz,
    porosity: v['bed.porosity'],
    cellVolume: lanes.area.map((area) => area * dz),
    headMax: section * (v['column.tube_cm'] - v['bed.length_cm']),
    outlet: v['column.outlet_cm'],
    permeability,
    dragPerCm: 0.01 / (permeability * GRAVITY * S_PER_MIN),
    clampDrag: v['column.open_cm_per_mL_min'] * 0.9982,
    airEntry: airEntries(scenario, lanes),
    capacity: v['resin.capacity_eq_per_L'],
    fixedCharge: resin.Q,
    resinPore: resin.pore,
    invasion: resin.kappa,
    ...rates,
    rows: rowsOf(rates.tables, liquidTable()),
    anionCharge: Float64Array.from(scenario.ions, (ion) => IONS[ion].anionCharge),
    liquid: liquidTable(),
    viscosityFactor: 1 + VISCOSITY_PER_K * warm,
    liquids: Object.fromEntries(
      Object.entries(scenario.liquids).map(([id, { HCl_M, ions }]) => [id, Float64Array.from([HCl_M, ...scenario.ions.map((ion) => ions[ion] ?? 0)])]),
    ),
  };
}

/** The tables in one array, so that what a cell needs lies together in memory. */
export function rowsOf(tables: readonly MetalTable[], { density, viscosity }: Column['liquid']): Float64Array {
  const columns = [...tables.flatMap(({ coion, exchange, bead }) => [coion, exchange, bead]), density, viscosity];
  const rows = new Float64Array(columns.length * density.length);
  for (const [n, values] of columns.entries()) for (let i = 0; i < values.length; i++) rows[i * columns.length + n] = values[i];
  return rows;
}

/** Kozeny-Carman permeability, cm², of spheres of diameter d (cm) at porosity e. */
export function kozenyCarman(d: number, e: number, constant: number): number {
  return (d * d * power(e, 3)) / (constant * square(1 - e));
}

function kinetics(scenario: Scenario, warmth: number): Pick<Column, 'bead' | 'beadLeast' | 'film' | 'sherwood' | 'diffusion' | 'tables'> {
  const v = scenario.values;
  const radius = beadOf(v) / 2;
  const metal = v['flow.D_metal_cm2_s'] * warmth * S_PER_MIN;
  // Linear driving force, Glueckauf 1955 (recalled): 1/kL = r²/(15 Ds) + K r/(3 kf).
  const lag = (Ds: number): number => (radius * radius) / (15 * Ds * warmth * S_PER_MIN);
  const tables = scenario.ions.map((ion) => ({
    ...uptakeTable(scenario, ion),
    bead: shareTable(ion, resinFrom(v)).map((share) => lag(resinDiffusion(v, share))),
  }));
  return {
    tables,
    bead: lag(v['resin.Ds_HCl_cm2_s']),
    beadLeast: Math.min(...tables.map(({ bead }) => bead.reduce((least, time) => Math.min(least, time)))),
    // K = D/(1-e) bead over liquid; kf = Sh Dm/d.
    film: (radius * 2 * radius) / (3 * metal * (1 - v['bed.porosity'])),
    // Sh = (1.09/e) (u d/Dm)^(1/3), Wilson and Geankoplis 1966 (coefficient recalled, range read).
    sherwood: (1.09 / v['bed.porosity']) * cbrt((2 * radius) / metal),
    diffusion: Float64Array.from([v['flow.D_HCl_cm2_s'] * warmth * S_PER_MIN, ...scenario.ions.map(() => metal)]),
  };
}

/**
 * Diffusion of a metal in the beads, cm²/s, of which this share is complex anion: anion and free cation are at equilibrium in
 * every bead, so their fluxes add in proportion to their shares (derived). Slow in strong acid, fast in water.
 */
function resinDiffusion(values: Parameters, share: number): number {
  return share * values['resin.Ds_exchange_cm2_s'] + (1 - share) * values['resin.Ds_coion_cm2_s'];
}

/** Air entry head 5.5 gamma/(R rho g) of a perfect packing times each lane's factor; surface tension 72.8 mN/m (recalled). */
function airEntries(scenario: Scenario, lanes: Lanes): Float64Array {
  const radius = beadOf(scenario.values) / 2;
  const sound = (5.5 * 72.8) / (radius * GRAVITY);
  return lanes.area.map((_, i) => sound * scenario.values[i === 0 ? 'bed.air_entry_core' : 'bed.air_entry_wall']);
}
