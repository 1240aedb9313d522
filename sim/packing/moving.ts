import { AT, type Bed, type Column } from '../column/index.ts';

// Moving resin and liquid by hand: amounts are pooled and shared out again, so nothing is lost.

/** A cell and the resin it will have afterwards, over that of a sound cell. */
export interface Placed {
  readonly at: number;
  readonly share: number;
  /** Space between the beads afterwards, mL. */
  readonly room: number;
}

/** Mixes the resin of these cells, with what it holds, and puts it back in the given shares (their sum over volume is kept by scaling). */
export function mixResin(bed: Bed, column: Column, cells: readonly Placed[]): void {
  const volumeOf = (at: number): number => column.cellVolume[Math.floor(at / bed.plates)];
  const count = bed.lanes * bed.plates;
  const had = cells.reduce((sum, { at }) => sum + bed.resinShare[at] * volumeOf(at), 0);
  const given = cells.reduce((sum, { at, share }) => sum + share * volumeOf(at), 0);
  if (!(had > 0 && given > 0)) return;
  const scale = had / given;
  for (let k = 0; k < bed.components; k++) {
    const held = cells.reduce((sum, { at }) => sum + bed.sorbed[k * count + at] * volumeOf(at), 0);
    for (const { at, share } of cells) bed.sorbed[k * count + at] = (held * share) / given;
  }
  for (const { at, share } of cells) bed.resinShare[at] = share * scale;
}

/** Gives cells another space between the beads; liquid comes from above the bed or goes there. */
export function resize(bed: Bed, cells: readonly Placed[]): void {
  for (const { at, room } of cells) {
    bed.room[at] = room;
    const liquid = bed.mobile[at] + bed.stillVolume[at];
    const wanted = room * (1 - bed.gas[at]) - liquid;
    if (wanted > 0) takeFromHead(bed, at, Math.min(wanted, bed.scalar[AT.headVolume]));
    else giveToHead(bed, at, Math.min(-wanted, bed.mobile[at] / 2));
    bed.gas[at] = Math.max(0, 1 - (bed.mobile[at] + bed.stillVolume[at]) / room);
  }
  bed.scalar[AT.uneven] = 1;
}

/** Liquid from above the bed straight into a wet cell. */
export function takeFromHead(bed: Bed, at: number, volume: number): void {
  const s = bed.scalar;
  if (!(volume > 0) || bed.mobile[at] <= 0) return;
  const share = volume / s[AT.headVolume];
  for (let k = 0; k < bed.components; k++) {
    const x = k * bed.lanes * bed.plates + at;
    const brought = bed.head[k] * share;
    bed.head[k] -= brought;
    bed.pore[x] = (bed.pore[x] * bed.mobile[at] + brought) / (bed.mobile[at] + volume);
  }
  bed.mobile[at] += volume;
  s[AT.headVolume] = Math.max(0, s[AT.headVolume] - volume);
}

function giveToHead(bed: Bed, at: number, volume: number): void {
  if (!(volume > 0)) return;
  for (let k = 0; k < bed.components; k++) bed.head[k] += bed.pore[k * bed.lanes * bed.plates + at] * volume;
  bed.mobile[at] -= volume;
  bed.scalar[AT.headVolume] += volume;
}

/** Mixes the moving liquid of these cells, and what stands above the bed if asked, to one composition. */
export function mixLiquid(bed: Bed, cells: readonly number[], withHead: boolean): void {
  const count = bed.lanes * bed.plates;
  const above = withHead ? bed.scalar[AT.headVolume] : 0;
  const volume = cells.reduce((sum, at) => sum + bed.mobile[at], above);
  if (!(volume > 0)) return;
  for (let k = 0; k < bed.components; k++) {
    const amount = cells.reduce((sum, at) => sum + bed.pore[k * count + at] * bed.mobile[at], withHead ? bed.head[k] : 0);
    for (const at of cells) if (bed.mobile[at] > 0) bed.pore[k * count + at] = amount / volume;
    if (withHead) bed.head[k] = (amount * above) / volume;
  }
}

/** Cells of all lanes above a depth (cm), leaving out drained ones. */
export function cellsAbove(bed: Bed, column: Column, depth_cm: number): number[] {
  const deep = Math.min(bed.plates, Math.max(1, Math.round(depth_cm / column.dz)));
  const cells: number[] = [];
  for (let i = 0; i < bed.lanes; i++) for (let j = bed.drained[i]; j < deep; j++) cells.push(i * bed.plates + j);
  return cells;
}
