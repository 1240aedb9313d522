// One time step of the whole column: how much flows, how it passes the head, the lanes, the tip, and into the receiver.
import { AT, type Bed, type Column, type Flux } from '../column/index.ts';
import {
  acidIsSteady,
  BESIDE_M,
  drainable,
  drainLane,
  flowInto,
  levelOf,
  mix,
  MIX_EVERY,
  MIX_PACED,
  MUCH,
  passSteadyAcid,
  sweepAcid,
  sweepMetals,
} from '../flow/index.ts';
import { age } from '../packing/index.ts';

/** Where a step must not go past. */
export interface Limits {
  time: number;
  delivered: number;
  /** mL above the bed. */
  head: number;
}

/** Head of less than this (mL) is no liquid at all. */
const DROPLET = 1e-9;
/** Longest step over the time since the last action; and most liquid that passes in it, in cells. */
const REST = 0.05;
const CREEP = 0.05;
/** Times a stirred volume may be replaced in one trapezoidal step with nothing turning negative (derived: 1 - turn/2 >= 0). */
const TURNS_MAX = 2;

/** Advances the state by one step that ends at the latest at `limits`. */
export function step(bed: Bed, column: Column, limits: Limits, feed: Float64Array | undefined, flux: Flux): void {
  const s = bed.scalar;
  const level = levelOf(bed, column);
  const dry = s[AT.headVolume] <= 0;
  const flow = flowInto(bed, column, level);
  const fed = feed !== undefined && s[AT.feedVolume] > 0;
  const pace = flow > 0 && !dry ? paceOf(bed, fed ? feed : undefined) : 1;
  const longest = longestStep(bed, column, flow) * pace;
  const cap = flow > 0 ? volumeCap(bed, column, flow, limits, dry, fed, pace) : 0;
  let volume = Math.min(cap, flow * longest);
  // Flow at the middle of the step, from the head at the middle: second order for a falling head.
  const middle = flow > 0 && !dry && !fed ? flowInto(bed, column, Math.max(0, level - volume / 2 / column.section)) : flow;
  // The lanes share the flow otherwise at the middle; beyond twice the liquid of its cells a lane falls back to first order.
  if (middle > 0 && middle !== flow) volume = Math.min(volume, lanesCap(bed, column, middle, TURNS_MAX * pace));
  let dt = volume > 0 ? volume / middle : longest;
  let end = s[AT.time] + dt;
  if (end > limits.time) {
    dt = limits.time - s[AT.time];
    end = limits.time;
    volume = Math.min(volume, middle * dt);
  }
  const reached = volume > 0 && volume === cap;
  passHead(bed, volume, fed ? feed : undefined, dry, flux);
  passLanes(bed, column, volume, middle, dt, dry, flux);
  passTip(bed, column, volume, flux);
  s[AT.time] = end;
  s[AT.delivered] = reached && s[AT.delivered] + volume > limits.delivered - 1e-9 ? Math.max(limits.delivered, s[AT.delivered]) : s[AT.delivered] + volume;
  s[AT.flow] = dt > 0 ? volume / dt : 0;
  s[AT.steps] += 1;
  s[AT.mixingDue] += dt;
  if (s[AT.steps] % (pace > 1 ? MIX_PACED : MIX_EVERY) === 0 || dt > column.scenario.values['numerics.step_max_min']) {
    mix(bed, column);
    age(bed, column, s[AT.mixingDue]);
    s[AT.mixingDue] = 0;
  }
}

/**
 * Longest step, min. What was set in motion by the last action dies away: once it is long ago, steps of a twentieth of the time
 * since then follow it as well, so a long rest takes few steps. While liquid creeps, it may creep a twentieth of a cell.
 */
function longestStep(bed: Bed, column: Column, flow: number): number {
  const s = bed.scalar;
  const creep = flow > 0 ? (CREEP * bed.mobile[bed.mobile.length - 1] * bed.lanes) / flow : Number.POSITIVE_INFINITY;
  return Math.max(column.scenario.values['numerics.step_max_min'], Math.min(REST * (s[AT.time] - s[AT.changed]), creep));
}

/** A metal that moves this share of one cell in a step of one cell of liquid may as well move that whole cell (see DEVELOPERS.md). */
const PACE = 0.5;
const PACE_MAX = 100;
/** Difference of acid (over c + 0.1) at which a step passes no more than usual; the error goes with the square of the step, so a quarter of it allows twice as much. */
const UNREST = 1e-2;
/** Share of all that was poured of a metal whose entering sets the pace in full. */
const ENTERING = 1e-3;
/** mmol: of less the share of what was poured is no longer told by the numbers of the machine (zero over zero). */
const TELLABLE = 1e-300;

/**
 * How many times the Courant limit a step may pass: 1 while an acid front or an unretained metal moves or enters, more the fainter
 * what still moves is, and while it is a band that creeps at 1/(1 + k) of the liquid.
 */
function paceOf(bed: Bed, feed: Float64Array | undefined): number {
  const s = bed.scalar;
  const acid = bed.head[0] / s[AT.headVolume];
  let unrest = feed === undefined ? 0 : apart(feed[0], acid);
  let haste = 0;
  for (let k = 1; k < bed.components; k++) {
    if (feed !== undefined && feed[k] > 0) return 1;
    if (bed.head[k] > TELLABLE) haste = Math.max(haste, (PACE * PACE * MUCH * bed.head[k]) / (ENTERING * bed.pouredAmount[k]));
  }
  for (let i = 0; i < bed.lanes; i++) {
    unrest = Math.max(unrest, bed.unrest[i], apart(acid, bed.pore[i * bed.plates]));
    haste = Math.max(haste, bed.haste[i]);
  }
  return Math.max(1, Math.min(PACE_MAX, Math.sqrt(UNREST / unrest), PACE * Math.sqrt(MUCH / haste)));
}

function apart(acid: number, other: number): number {
  return Math.abs(acid - other) / (other + BESIDE_M);
}

/** Most mL one step may pass: Courant limit of lanes and tip, liquid above, limits, drainable cells. */
function volumeCap(bed: Bed, column: Column, flow: number, limits: Limits, dry: boolean, fed: boolean, pace: number): number {
  const s = bed.scalar;
  const courant = column.scenario.values['numerics.courant'];
  const frame = column.scenario.values['numerics.frame_mL'];
  let cap = Math.min(limits.delivered - s[AT.delivered], (2 * courant * column.scenario.values['column.tip_mL']) / bed.stages);
  if (!dry && !fed) cap = Math.min(cap, s[AT.headVolume] - limits.head);
  if (fed) cap = Math.min(cap, s[AT.feedVolume]);
  cap = Math.min(cap, Math.max(lanesCap(bed, column, flow, courant), pace > 1 ? Math.min(frame, lanesCap(bed, column, flow, courant * pace)) : 0));
  if (dry)
    for (let i = 0; i < bed.lanes; i++) if (bed.velocity[i] > 0) cap = Math.min(cap, (drainable(bed, i) * flow) / (bed.velocity[i] * column.lanes.area[i]));
  return cap;
}

/** mL at which some lane passes this many times the liquid of its smallest cell. */
function lanesCap(bed: Bed, column: Column, flow: number, courant: number): number {
  let cap = Number.POSITIVE_INFINITY;
  for (let i = 0; i < bed.lanes; i++) {
    const part = (bed.velocity[i] * column.lanes.area[i]) / flow;
    if (part > 0) cap = Math.min(cap, (courant * smallestCell(bed, i)) / part);
  }
  return cap;
}

/** Liquid of the smallest wet cell, mL; gas and a disturbed top make cells of a lane differ. */
function smallestCell(bed: Bed, lane: number): number {
  const base = lane * bed.plates;
  const from = bed.drained[lane] + (bed.scalar[AT.headVolume] <= 0 ? 1 : 0);
  if (bed.scalar[AT.uneven] === 0) return bed.mobile[base + bed.plates - 1];
  let least = Number.POSITIVE_INFINITY;
  for (let j = Math.min(from, bed.plates - 1); j < bed.plates; j++) if (bed.mobile[base + j] < least) least = bed.mobile[base + j];
  return least;
}

/** Takes `volume` from the stirred liquid above the bed: it sinks, or a reservoir keeps its level. */
function passHead(bed: Bed, volume: number, feed: Float64Array | undefined, dry: boolean, flux: Flux): void {
  flux.inflow.fill(0);
  flux.outflow.fill(0);
  if (volume <= 0 || dry) return;
  if (feed === undefined) sinkHead(bed, volume, flux);
  else feedHead(bed, volume, feed, flux);
}

function sinkHead(bed: Bed, volume: number, flux: Flux): void {
  const s = bed.scalar;
  for (let k = 0; k < bed.components; k++) {
    const c = bed.head[k] / s[AT.headVolume];
    flux.inflow[k] = c;
    // The last of it may leave a rounding below zero.
    bed.head[k] = Math.max(0, bed.head[k] - volume * c);
  }
  s[AT.headVolume] -= volume;
  if (s[AT.headVolume] < DROPLET) s[AT.headVolume] = 0;
  if (s[AT.headVolume] < s[AT.lowestHead]) s[AT.lowestHead] = s[AT.headVolume];
}

function feedHead(bed: Bed, volume: number, feed: Float64Array, flux: Flux): void {
  const s = bed.scalar;
  const held = s[AT.headVolume];
  const turn = volume / held;
  // Trapezoidal while the head turns over slowly, backward Euler when a step replaces it more than twice.
  const slow = turn <= TURNS_MAX;
  for (let k = 0; k < bed.components; k++) {
    const c = bed.head[k] / held;
    const next = slow ? (c * (1 - turn / 2) + turn * feed[k]) / (1 + turn / 2) : (c + turn * feed[k]) / (1 + turn);
    flux.inflow[k] = slow ? (c + next) / 2 : next;
    bed.head[k] = next * held;
    bed.pouredAmount[k] += volume * feed[k];
  }
  // A step passes no more than the reservoir holds (`volumeCap`).
  s[AT.feedVolume] -= volume;
  s[AT.poured] += volume;
}

function passLanes(bed: Bed, column: Column, volume: number, flow: number, dt: number, dry: boolean, flux: Flux): void {
  flux.time = dt;
  for (let i = 0; i < bed.lanes; i++) {
    if (bed.drained[i] >= bed.plates) continue;
    flux.volume = volume > 0 && flow > 0 ? (volume * bed.velocity[i] * column.lanes.area[i]) / flow : 0;
    const open = dry && flux.volume > 0;
    if (!open && acidIsSteady(bed, i, flux)) passSteadyAcid(flux);
    else sweepAcid(bed, column, i, open, flux);
    sweepMetals(bed, column, i, open, flux);
    if (open) drainLane(bed, column, i, flux.volume);
  }
}

/** The dead volume below the bed, then the receiver. */
function passTip(bed: Bed, column: Column, volume: number, flux: Flux): void {
  if (volume <= 0) return;
  const { tip, stages } = bed;
  const turns = (volume * stages) / column.scenario.values['column.tip_mL'];
  // Stages smaller than half of what passes are taken in several turns, each short enough that nothing turns negative.
  const parts = Math.max(1, Math.ceil(turns / TURNS_MAX));
  const turn = turns / parts;
  const [keeps, takes] = [(1 - turn / 2) / (1 + turn / 2), turn / (1 + turn / 2)];
  const slot = bed.scalar[AT.receiver] * (bed.components + 1);
  for (let k = 0; k < bed.components; k++) {
    const entering = flux.outflow[k] / volume;
    let left = 0;
    for (let part = 0; part < parts; part++) {
      let mean = entering;
      for (let n = 0; n < stages; n++) {
        const x = k * stages + n;
        const next = tip[x] * keeps + mean * takes;
        mean = (tip[x] + next) / 2;
        tip[x] = next;
      }
      left += mean;
    }
    bed.receivers[slot + 1 + k] += (volume * left) / parts;
  }
  bed.receivers[slot] += volume;
}
