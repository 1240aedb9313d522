import type { Moment } from '../store/threads/planner.ts';
import { isMissing } from './bed-paint.ts';

// Marks on the bed that do not rest on colour: hatching where it has run dry, bubbles where gas is trapped, dots where resin is missing.

/** Pixels of the pattern over the whole depth, about those on screen. */
const DEPTH_PX = 320;
/** Hatching: one line each so many pixels, as thick as this. */
const HATCH = 8;
const HATCH_LINE = 2;
/** Side of the square in which at most one bubble stands, px. */
const BUBBLE_SQUARE = 8;
const BUBBLE_RADIUS = 2.6;
/** Share of gas from which bubbles are drawn; bubbles per square at this gas and more is one. */
const GAS_SHOWN = 0.02;
const GAS_FULL = 0.4;

const INK = [24, 32, 44] as const;
const WHITE = [255, 255, 255] as const;

/** The pattern over lanes side by side, with alpha; kept and drawn again only when gas or resin has changed. */
export class BedPattern {
  readonly lanes: readonly number[];
  readonly width: number;
  readonly height = DEPTH_PX;
  readonly rgba: Uint8Array;
  /** Whether there is anything to show. */
  marked = false;
  private readonly plates: number;
  private readonly laneWidth: number;
  private readonly seen: Uint8Array;

  /** `laneWidth`: pixels across each lane, about those on screen. */
  constructor(lanes: readonly number[], plates: number, laneWidth: number) {
    this.lanes = lanes;
    this.plates = plates;
    this.laneWidth = laneWidth;
    this.width = laneWidth * lanes.length;
    this.rgba = new Uint8Array(4 * this.width * this.height);
    this.seen = new Uint8Array(lanes.length * plates);
  }

  /** Brings the pattern to this moment; whether it changed. */
  draw(moment: Moment): boolean {
    if (!this.look(moment)) return false;
    this.marked = this.seen.some((kind) => kind > 0);
    this.rgba.fill(0);
    if (!this.marked) return true;
    for (let y = 0; y < this.height; y++) for (let x = 0; x < this.width; x++) this.mark(x, y);
    return true;
  }

  /** Notes what each cell shows: 0 nothing, 255 dry, 254 missing, else the gas in hundredths. */
  private look(moment: Moment): boolean {
    let changed = false;
    this.lanes.forEach((lane, column) => {
      for (let plate = 0; plate < this.plates; plate++) {
        const cell = lane * this.plates + plate;
        const gas = moment.gas[cell];
        const kind = isMissing(moment, cell) ? 254 : plate < moment.drained[lane] ? 255 : gas < GAS_SHOWN ? 0 : Math.round(100 * gas);
        const at = column * this.plates + plate;
        if (this.seen[at] === kind) continue;
        this.seen[at] = kind;
        changed = true;
      }
    });
    return changed;
  }

  private kindAt(x: number, y: number): number {
    const column = Math.floor(x / this.laneWidth);
    const plate = Math.floor(((y + 0.5) / this.height) * this.plates);
    return this.seen[column * this.plates + plate];
  }

  private mark(x: number, y: number): void {
    const kind = this.kindAt(x, y);
    if (kind === 0) return;
    if (kind === 255) {
      const edge = y + 2 < this.height && this.kindAt(x, y + 2) !== 255;
      if (edge || (x + y) % HATCH < HATCH_LINE) this.put(x, y, INK, edge ? 1 : 0.6);
    } else if (kind === 254) {
      if (x % 4 === 0 && y % 4 === 0) this.put(x, y, INK, 0.8);
    } else this.bubble(x, y, kind / 100);
  }

  private bubble(x: number, y: number, gas: number): void {
    const column = Math.floor(x / BUBBLE_SQUARE);
    const row = Math.floor(y / BUBBLE_SQUARE);
    const chance = scattered(column, row);
    if (chance > gas / GAS_FULL) return;
    const play = BUBBLE_SQUARE - 2 * BUBBLE_RADIUS - 1;
    const dx = x - column * BUBBLE_SQUARE - BUBBLE_RADIUS - play * scattered(row, column);
    const dy = y - row * BUBBLE_SQUARE - BUBBLE_RADIUS - play * scattered(column + 71, row);
    const distance = Math.hypot(dx, dy);
    if (distance < BUBBLE_RADIUS - 1) this.put(x, y, WHITE, 0.95);
    else if (distance < BUBBLE_RADIUS) this.put(x, y, INK, 0.75);
  }

  private put(x: number, y: number, colour: readonly [number, number, number], alpha: number): void {
    const at = 4 * (y * this.width + x);
    this.rgba.set(colour, at);
    this.rgba[at + 3] = Math.round(255 * alpha);
  }
}

/** A number of 0 to 1 for a square, scattered but always the same. */
function scattered(column: number, row: number): number {
  const mixed = Math.imul(column * 73856093 + row * 19349663 + 1, 0x9e3779b1) >>> 0;
  return ((mixed ^ (mixed >>> 15)) % 1000) / 1000;
}
