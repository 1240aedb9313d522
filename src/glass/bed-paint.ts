import { bedPainter, type BedPainter } from '../../sim/colour/bed.ts';
import { liquidColour } from '../../sim/colour/liquid.ts';
import type { Scenario } from '../../sim/types.ts';
import type { Moment } from '../store/planner.ts';
import { EXAGGERATION } from './liquids.ts';

// Colours of all cells of the bed, kept between moments so that only cells that changed are computed again.

/** Share of the sound amount of resin below which a cell counts as empty of it. */
export const MISSING_BELOW = 0.5;
/** Relative change of a concentration that calls for a new colour: dE00 under 0.2 for the strongest colours (computed). */
const NOTICED = 0.004;
/** Change (mol/L, mmol/mL, share) that never does. */
const UNNOTICED = 2e-6;

const kept = new WeakMap<Scenario, Map<boolean, BedPaint>>();

/** The paint of a scenario, shared by all who draw its bed. */
export function bedPaint(scenario: Scenario, exaggerate: boolean): BedPaint {
  const paints = kept.get(scenario) ?? new Map<boolean, BedPaint>();
  kept.set(scenario, paints);
  const paint = paints.get(exaggerate) ?? new BedPaint(scenario, exaggerate);
  paints.set(exaggerate, paint);
  return paint;
}

export class BedPaint {
  /** Red, green, blue, alpha of each cell, lane by lane from the top down; alpha 0 where resin is missing. */
  readonly rgba: Uint8Array;
  readonly lanes: number;
  readonly plates: number;
  private readonly scenario: Scenario;
  private readonly exaggerate: number;
  private readonly painter: BedPainter;
  /** What each cell was painted for: HCl, gas, then liquid and beads of each metal. */
  private readonly seen: Float32Array;
  private readonly inputs: number;
  private readonly now: Float64Array;
  private moment: Moment | undefined;

  constructor(scenario: Scenario, exaggerate: boolean) {
    const { values, ions } = scenario;
    this.scenario = scenario;
    this.exaggerate = exaggerate ? EXAGGERATION : 1;
    this.lanes = values['bed.lanes'];
    this.plates = values['bed.plates'];
    this.rgba = new Uint8Array(this.lanes * this.plates * 4);
    this.inputs = 2 + 2 * ions.length;
    this.now = new Float64Array(this.inputs);
    this.seen = new Float32Array(this.lanes * this.plates * this.inputs).fill(Number.NaN);
    const options = { porosity: values['bed.porosity'], beadUm: values['bed.bead_um'], exaggerate: this.exaggerate };
    this.painter = bedPainter(ions, values['resin.tint_per_cm'], options);
  }

  /** Brings the colours to this moment; returns how many cells were computed. */
  paint(moment: Moment): number {
    if (moment === this.moment) return 0;
    this.moment = moment;
    let painted = 0;
    for (let lane = 0; lane < this.lanes; lane++) {
      for (let plate = 0; plate < this.plates; plate++) {
        const cell = lane * this.plates + plate;
        if (isMissing(moment, cell)) this.paintLiquid(moment, cell);
        else if (this.readInto(this.now, moment, cell, plate < moment.drained[lane])) {
          this.paintBed(cell);
          painted++;
        }
      }
    }
    return painted;
  }

  /** Reads what colours a cell; whether it differs from what the cell was last painted for. */
  private readInto(now: Float64Array, moment: Moment, cell: number, drained: boolean): boolean {
    const cells = this.lanes * this.plates;
    // A drained cell keeps its last liquid round the beads, where it no longer moves.
    const liquid = drained ? moment.still : moment.pore;
    const metals = this.scenario.ions.length;
    now[0] = liquid[cell];
    now[1] = moment.gas[cell];
    for (let k = 0; k < metals; k++) {
      now[2 + k] = liquid[(k + 1) * cells + cell];
      now[2 + metals + k] = moment.sorbed[(k + 1) * cells + cell];
    }
    const at = cell * this.inputs;
    for (let k = 0; k < this.inputs; k++) {
      const seen = this.seen[at + k];
      if (!(Math.abs(now[k] - seen) <= UNNOTICED + NOTICED * seen)) return true;
    }
    return false;
  }

  private paintBed(cell: number): void {
    const { now, rgba } = this;
    this.seen.set(now, cell * this.inputs);
    this.painter.colourInto(rgba, 4 * cell, now[0], now, 2, now, 2 + this.scenario.ions.length, now[1]);
    rgba[4 * cell + 3] = 255;
  }

  private paintLiquid(moment: Moment, cell: number): void {
    const cells = this.lanes * this.plates;
    const { ions, values } = this.scenario;
    const solution = { HCl_M: moment.pore[cell], ions: Object.fromEntries(ions.map((ion, k) => [ion, moment.pore[(k + 1) * cells + cell]])) };
    const colour = liquidColour(solution, values['column.bore_cm'], { exaggerate: this.exaggerate });
    for (let channel = 0; channel < 3; channel++) this.rgba[4 * cell + channel] = Math.round(255 * colour[channel]);
    this.rgba[4 * cell + 3] = 0;
    this.seen[cell * this.inputs] = Number.NaN;
  }
}

/** Whether a cell has lost so much of its resin that it shows as a gap. */
export function isMissing(moment: Moment, cell: number): boolean {
  return moment.resinShare[cell] < MISSING_BELOW;
}
