import { bedColour, type BedOptions, bedPainter, type BedPainter, liquidColour } from '../../sim/colour/index.ts';
import type { IonId, Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { EXAGGERATION } from '../plot/liquid.ts';

// Colours of all cells of the bed, kept between moments so that only cells that changed are computed again.

/** Share of the sound amount of resin below which a cell counts as empty of it. */
export const MISSING_BELOW = 0.5;
/** Relative change of HCl, gas or a concentration that may call for a new colour. */
const NOTICED = 0.004;
/** Change of HCl (mol/L) and of gas that never does. */
const UNNOTICED = 1e-4;
/** The same for a metal: what moves no channel by more than this, of 255, where the bed holds none of it and shows it most. */
const UNNOTICED_STEP = 0.5;
/** mol/L and mmol/mL at which that is measured, in these acids, mol/L. */
const TRACE = 1e-3;
const ACIDS_M = [0.1, 6, 9, 12];

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
  /** Goes up with every change of colour. */
  version = 0;
  private readonly scenario: Scenario;
  private readonly exaggerate: number;
  private readonly painter: BedPainter;
  /** What each cell was painted for: HCl, gas, then liquid and beads of each metal. */
  private readonly seen: Float32Array;
  private readonly inputs: number;
  private readonly now: Float64Array;
  /** Change of each input that is not seen. */
  private readonly unnoticed: Float64Array;
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
    const tint = values['resin.tint_per_cm'];
    this.unnoticed = Float64Array.from([
      UNNOTICED,
      UNNOTICED,
      ...ions.map((ion) => unnoticed('pore', ion, tint, options)),
      ...ions.map((ion) => unnoticed('resin', ion, tint, options)),
    ]);
  }

  /** Brings the colours to this moment; returns how many cells were computed. */
  paint(moment: Moment): number {
    if (moment === this.moment) return 0;
    this.moment = moment;
    let painted = 0;
    for (let lane = 0; lane < this.lanes; lane++) {
      for (let plate = 0; plate < this.plates; plate++) {
        const cell = lane * this.plates + plate;
        if (isMissing(moment, cell)) painted += this.paintLiquid(moment, cell);
        else if (this.readInto(this.now, moment, cell, plate < moment.drained[lane])) {
          this.paintBed(cell);
          painted++;
        }
      }
    }
    if (painted > 0) this.version++;
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
      if (!(Math.abs(now[k] - seen) <= this.unnoticed[k] + NOTICED * seen)) return true;
    }
    return false;
  }

  private paintBed(cell: number): void {
    const { now, rgba } = this;
    this.seen.set(now, cell * this.inputs);
    this.painter.colourInto(rgba, 4 * cell, now[0], now, 2, now, 2 + this.scenario.ions.length, now[1]);
    rgba[4 * cell + 3] = 255;
  }

  private paintLiquid(moment: Moment, cell: number): number {
    const cells = this.lanes * this.plates;
    const { ions, values } = this.scenario;
    const solution = { HCl_M: moment.pore[cell], ions: Object.fromEntries(ions.map((ion, k) => [ion, moment.pore[(k + 1) * cells + cell]])) };
    const colour = liquidColour(solution, values['column.bore_cm'], { exaggerate: this.exaggerate });
    for (let channel = 0; channel < 3; channel++) this.rgba[4 * cell + channel] = Math.round(255 * colour[channel]);
    this.rgba[4 * cell + 3] = 0;
    this.seen[cell * this.inputs] = Number.NaN;
    return 1;
  }
}

/** Change of a metal between or in the beads that cannot be seen. */
function unnoticed(where: 'pore' | 'resin', ion: IonId, tint: number, options: BedOptions): number {
  let steepest = 0;
  for (const HCl_M of ACIDS_M) {
    const bare = bedColour({ HCl_M, pore: {}, resin: {} }, tint, options);
    const stained = bedColour({ HCl_M, pore: {}, resin: {}, [where]: { [ion]: TRACE } }, tint, options);
    for (let channel = 0; channel < 3; channel++) steepest = Math.max(steepest, Math.abs(stained[channel] - bare[channel]) / TRACE);
  }
  return UNNOTICED_STEP / 255 / Math.max(steepest, 1e-6);
}

/** Whether a cell has lost so much of its resin that it shows as a gap; in a tube that is being filled every cell holds a part of it. */
export function isMissing({ resinShare, fullest }: Moment, cell: number): boolean {
  return resinShare[cell] < MISSING_BELOW * Math.min(1, fullest) || fullest <= 0;
}
