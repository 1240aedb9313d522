// What the figure and the results are drawn from: one row per frame, and the bands as depth profiles.
import { AT, type Bed, bedLengthOf, type Column, inReceivers } from '../column/index.ts';
import type { IonId } from '../terms/types.ts';

/** Columns of a frame row that come before the components. Only this room knows them. */
export const FRAME = { time: 0, delivered: 1, level: 2, flow: 3, receiver: 4, poured: 5, bed: 6, parts: 7 } as const;

/**
 * Frames of a run, oldest first. `rows`: FRAME columns (min, mL, cm, mL/min, slot, mL, cm), then mol/L leaving the tip and
 * mmol delivered so far per component. `profiles`: per component and plate, mean over the lanes, top first; HCl in mol/L
 * between the beads, metals in mmol per mL of bed, beads and liquid together.
 */
export interface RunRecord {
  readonly ions: readonly IonId[];
  readonly components: number;
  readonly plates: number;
  readonly stride: number;
  count: number;
  rows: Float64Array;
  profiles: Float32Array;
}

export function recordFor(ions: readonly IonId[], plates: number): RunRecord {
  const components = ions.length + 1;
  const stride = FRAME.parts + 2 * components;
  return { ions, components, plates, stride, count: 0, rows: new Float64Array(256 * stride), profiles: new Float32Array(256 * components * plates) };
}

/** Appends the present state. */
export function recordInto(record: RunRecord, bed: Bed, column: Column): void {
  if ((record.count + 1) * record.stride > record.rows.length) grow(record);
  const s = bed.scalar;
  const row = record.count * record.stride;
  record.rows[row + FRAME.time] = s[AT.time];
  record.rows[row + FRAME.delivered] = s[AT.delivered];
  record.rows[row + FRAME.level] = s[AT.headVolume] / column.section;
  record.rows[row + FRAME.flow] = s[AT.flow];
  record.rows[row + FRAME.receiver] = s[AT.receiver];
  record.rows[row + FRAME.poured] = s[AT.poured];
  record.rows[row + FRAME.bed] = bedLengthOf(bed, column);
  for (let k = 0; k < bed.components; k++) {
    record.rows[row + FRAME.parts + k] = bed.tip[(k + 1) * bed.stages - 1];
    record.rows[row + FRAME.parts + bed.components + k] = inReceivers(bed, k);
  }
  profileInto(record.profiles, record.count * record.components * record.plates, bed, column);
  record.count += 1;
}

/** A copy without spare room. */
export function trimmed(record: RunRecord): RunRecord {
  const { count, stride, components, plates } = record;
  return { ...record, rows: record.rows.slice(0, count * stride), profiles: record.profiles.slice(0, count * components * plates) };
}

/** The rows with another receiver under the tip, told by its place for each delivered volume, mL. */
export function withReceivers({ rows, stride, count }: Readonly<RunRecord>, slotAt: (delivered_mL: number) => number): Float64Array {
  const changed = rows.slice();
  for (let row = 0; row < count * stride; row += stride) changed[row + FRAME.receiver] = slotAt(rows[row + FRAME.delivered]);
  return changed;
}

function grow(record: RunRecord): void {
  const rows = new Float64Array(record.rows.length * 2);
  rows.set(record.rows);
  const profiles = new Float32Array(record.profiles.length * 2);
  profiles.set(record.profiles);
  record.rows = rows;
  record.profiles = profiles;
}

/** Mean over the lanes, by area, of every component at every plate, written from `offset` on. */
export function profileInto(out: Float32Array, offset: number, bed: Bed, column: Column): void {
  const { components, plates } = bed;
  for (let j = 0; j < plates; j++) out[offset + j] = meanAcid(bed, j);
  let section = 0;
  for (let i = 0; i < bed.lanes; i++) section += column.cellVolume[i];
  for (let k = 1; k < components; k++) {
    const from = offset + k * plates;
    const [first, last] = heldIn(bed, k - 1);
    for (let j = 0; j < plates; j++) out[from + j] = j < first || j > last ? 0 : heldAt(bed, column, k, j) / section;
  }
}

/** mol/L of HCl in the liquid of all lanes at one plate. */
function meanAcid({ pore, still, mobile, stillVolume, lanes, plates }: Bed, plate: number): number {
  let sum = 0;
  let room = 0;
  for (let at = plate; at < lanes * plates; at += plates) {
    sum += pore[at] * mobile[at] + still[at] * stillVolume[at];
    room += mobile[at] + stillVolume[at];
  }
  return room > 0 ? sum / room : 0;
}

/** mmol of a metal in all lanes at one plate. */
function heldAt({ pore, sorbed, still, mobile, stillVolume, lanes, plates }: Bed, column: Column, component: number, plate: number): number {
  const base = component * lanes * plates;
  let sum = 0;
  for (let i = 0, at = plate; i < lanes; i++, at += plates)
    sum += pore[base + at] * mobile[at] + still[base + at] * stillVolume[at] + sorbed[base + at] * column.cellVolume[i];
  return sum;
}

/** First and last plate at which some lane can hold any of a metal; all of them where some liquid does not move. */
function heldIn(bed: Bed, metal: number): readonly [first: number, last: number] {
  if (bed.scalar[AT.uneven] > 0) return [0, bed.plates - 1];
  let [first, last] = [bed.plates, -1];
  for (let w = metal * bed.lanes; w < (metal + 1) * bed.lanes; w++) {
    first = Math.min(first, bed.first[w]);
    last = Math.max(last, bed.last[w]);
  }
  return [first, last];
}
