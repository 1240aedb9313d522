import type { Moment } from '../../store/threads/planner.ts';
import type { BedPaint } from '../bed-paint.ts';
import { wallLanes } from '../sides.ts';

// The bed all round, without teeth at the borders of lanes. Mixing the colours of two neighbouring lanes at equal depth would
// turn a slanting front into stairs. Instead depths are matched: each lane is divided into steps that hold equal shares of its
// change of colour (and of its length), and between lanes the depths of equal steps are joined by a smooth curve.

/** Directions per lane, steps down a lane, rows of the picture of the bed. */
const PER_LANE = 4;
const STEPS = 128;
const ROWS = 160;
/** Weight of the whole length over that of a change from white to black in all three colours (765). */
const LENGTH_WEIGHT = 300;
/** Red, green, blue, resin, gas, dryness, each 0 to 255. */
const CHANNELS = 6;

export class SmoothBed {
  readonly width: number;
  readonly height = ROWS;
  /** Red, green, blue and resin by row and direction, the first direction at the front, going round by the left. */
  readonly colours: Uint8Array;
  /** Gas and dryness, likewise, in the first two of four. */
  readonly state: Uint8Array;
  private readonly lanes: readonly number[];
  private readonly plates: number;
  private readonly perLane: number;
  private readonly held: Float32Array;
  /** Depth in cells, and what is there, at each step of each lane. */
  private readonly depths: Float32Array;
  private readonly stepped: Float32Array;
  private readonly path = new Float32Array(STEPS + 1);
  private readonly run: Float64Array;

  constructor(lanes: number, plates: number) {
    this.lanes = wallLanes(lanes);
    this.plates = plates;
    this.perLane = this.lanes.length === 1 ? 1 : PER_LANE;
    this.width = this.perLane * this.lanes.length;
    this.colours = new Uint8Array(4 * this.width * ROWS);
    this.state = new Uint8Array(4 * this.width * ROWS);
    this.held = new Float32Array(this.lanes.length * plates * CHANNELS).fill(-1);
    this.depths = new Float32Array(this.lanes.length * (STEPS + 1));
    this.stepped = new Float32Array(this.lanes.length * (STEPS + 1) * CHANNELS);
    this.run = new Float64Array(plates + 2);
  }

  /** Brings the picture to this moment; whether it changed. */
  paint(paint: BedPaint, moment: Moment): boolean {
    if (!this.hold(paint, moment)) return false;
    for (let lane = 0; lane < this.lanes.length; lane++) this.divide(lane);
    for (let column = 0; column < this.width; column++) this.join(column);
    return true;
  }

  /** Notes what the wall lanes hold; whether any of it is new. */
  private hold(paint: BedPaint, moment: Moment): boolean {
    let changed = false;
    this.lanes.forEach((lane, i) => {
      for (let plate = 0; plate < this.plates; plate++) {
        const cell = lane * this.plates + plate;
        const to = (i * this.plates + plate) * CHANNELS;
        const dry = plate < moment.drained[lane] ? 255 : 0;
        for (let c = 0; c < CHANNELS; c++) {
          const value = c < 4 ? paint.rgba[4 * cell + c] : c === 4 ? Math.round(255 * moment.gas[cell]) : dry;
          if (this.held[to + c] === value) continue;
          this.held[to + c] = value;
          changed = true;
        }
      }
    });
    return changed;
  }

  /** Divides a lane into steps of equal change. Nodes are the middles of its cells and its two ends. */
  private divide(lane: number): void {
    const { plates, run } = this;
    for (let node = 1; node <= plates + 1; node++)
      run[node] = run[node - 1] + this.change(lane, node) + (LENGTH_WEIGHT / plates) * (depthOf(node, plates) - depthOf(node - 1, plates));
    let node = 1;
    for (let step = 0; step <= STEPS; step++) {
      const wanted = (run[plates + 1] * step) / STEPS;
      while (node < plates + 1 && run[node] < wanted) node++;
      const share = (wanted - run[node - 1]) / (run[node] - run[node - 1]);
      const at = lane * (STEPS + 1) + step;
      this.depths[at] = depthOf(node - 1, plates) + share * (depthOf(node, plates) - depthOf(node - 1, plates));
      const [before, after] = [this.cellOf(lane, node - 1), this.cellOf(lane, node)];
      for (let c = 0; c < CHANNELS; c++) this.stepped[at * CHANNELS + c] = this.held[before + c] + share * (this.held[after + c] - this.held[before + c]);
    }
  }

  private change(lane: number, node: number): number {
    const [before, after] = [this.cellOf(lane, node - 1), this.cellOf(lane, node)];
    let sum = 0;
    for (let c = 0; c < CHANNELS; c++) sum += Math.abs(this.held[after + c] - this.held[before + c]);
    return sum;
  }

  private cellOf(lane: number, node: number): number {
    return (lane * this.plates + Math.min(this.plates - 1, Math.max(0, node - 1))) * CHANNELS;
  }

  /** One direction: depths of its steps on a smooth curve through four lanes, contents mixed from the nearest two. */
  private join(column: number): void {
    const count = this.lanes.length;
    const left = Math.floor(column / this.perLane);
    const share = column / this.perLane - left;
    const [a, b, c, d] = [left + count - 1, left, left + 1, left + 2].map((lane) => (lane % count) * (STEPS + 1));
    const [wa, wb, wc, wd] = curveWeights(share);
    const { depths, path } = this;
    for (let step = 0; step <= STEPS; step++) {
      const depth = wa * depths[a + step] + wb * depths[b + step] + wc * depths[c + step] + wd * depths[d + step];
      path[step] = step > 0 && depth < path[step - 1] ? path[step - 1] : depth;
    }
    let step = 1;
    for (let row = 0; row < ROWS; row++) {
      const depth = ((row + 0.5) / ROWS) * this.plates;
      while (step < STEPS && path[step] < depth) step++;
      const along = (depth - path[step - 1]) / Math.max(1e-6, path[step] - path[step - 1]);
      this.put(4 * (row * this.width + column), b + step, c + step, share, Math.min(1, Math.max(0, along)));
    }
  }

  /** Contents part of the way along from the step before, mixed from two lanes. */
  private put(to: number, left: number, right: number, share: number, along: number): void {
    const { stepped, colours, state } = this;
    const [w1, w2] = [(1 - share) * along, share * along];
    const [w3, w4] = [1 - share - w1, share - w2];
    const [i, j] = [left * CHANNELS, right * CHANNELS];
    for (let c = 0; c < CHANNELS; c++) {
      const value = w1 * stepped[i + c] + w2 * stepped[j + c] + w3 * stepped[i + c - CHANNELS] + w4 * stepped[j + c - CHANNELS];
      // Half is added since the array cuts fractions off.
      if (c < 4) colours[to + c] = value + 0.5;
      else state[to + c - 4] = value + 0.5;
    }
  }
}

/** Depth of a node, in cells. */
function depthOf(node: number, plates: number): number {
  return Math.min(plates, Math.max(0, node - 0.5));
}

/**
 * Weights of four neighbours in a smooth curve from the second to the third: half way between one through the points (Catmull
 * and Rom 1974) and the cubic B-spline, which rounds them (both recalled). A front that is a whole lane ahead of its neighbours
 * keeps 5/6 of its lead.
 */
function curveWeights(t: number): readonly number[] {
  const through = (x: number): number => (x < 1 ? 1 + x * x * (1.5 * x - 2.5) : 2 + x * (-4 + x * (2.5 - 0.5 * x)));
  const rounded = (x: number): number => (x < 1 ? (4 + x * x * (3 * x - 6)) / 6 : (2 - x) ** 3 / 6);
  return [1 + t, t, 1 - t, 2 - t].map((x) => 0.5 * (through(x) + rounded(x)));
}
