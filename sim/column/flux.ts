// What enters and leaves the lanes during a step, and scratch rows for a sweep.

/**
 * What enters one lane in a step and what leaves it, reused between calls: numbers passed as arguments would each take
 * memory that has to be freed again, thousands of times a run.
 */
export interface Flux {
  /** mL that pass the lane during the step, and its length, min. */
  volume: number;
  time: number;
  /** 1/kL of the liquid film round a bead, per unit D, min. */
  film: number;
  /** mol/L entering the lane, per component: mean over the step. */
  readonly inflow: Float64Array;
  /** mmol that left the lanes during the step, per component. */
  readonly outflow: Float64Array;
  /** Scratch per metal: concentration leaving the cell above, before plus after the step. */
  readonly above: Float64Array;
  /** Scratch per metal: new liquid and bead concentrations and D of the cell at hand. */
  readonly liquid: Float64Array;
  readonly beads: Float64Array;
  readonly D: Float64Array;
  /** Scratch per metal: 1 where the cell at hand gives at its new concentration instead of the mean. */
  readonly late: Float64Array;
  /** Scratch per metal: mmol/mL below which a cell counts as empty. */
  readonly empty: Float64Array;
  /** Scratch per cell of a lane: `chlorideLeft` at the load expected after the step. */
  readonly open: Float64Array;
}

export function fluxFor(components: number, plates: number): Flux {
  const row = (): Float64Array => new Float64Array(components);
  return {
    volume: 0.5,
    time: 0.5,
    film: 0.5,
    inflow: row(),
    outflow: row(),
    above: row(),
    liquid: row(),
    beads: row(),
    D: row(),
    late: row(),
    empty: row(),
    open: new Float64Array(plates),
  };
}
