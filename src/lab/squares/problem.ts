// What a weighted nonlinear fit is given, and what it tells on its way. Parameters are in units of their own width around their start,
// u = 0 at the start, so that one step size suits all.

export interface Problem {
  /** Value of the model for every measurement. Does not throw; NaN where the model has no value. */
  readonly model: (u: readonly number[]) => readonly number[];
  readonly measured: readonly number[];
  /** Standard deviation of every measurement. */
  readonly deviation: readonly number[];
  readonly parameters: number;
  /** Least and most of every u. */
  readonly bounds?: { readonly least: readonly number[]; readonly most: readonly number[] };
  /** Every u is near 0 within 1 (one standard deviation) before anything was measured. */
  readonly prior: boolean;
  /** Step of u for slopes; too small a step would show the time steps of the model. */
  readonly step: number;
  readonly rounds?: number;
  /** Called after every run of the model with the number of runs, the most that are possible and the smallest sum of squares so far. */
  readonly told?: (progress: FitProgress) => void;
}

export interface FitProgress {
  readonly runs: number;
  readonly runsMost: number;
  readonly chiSquare: number;
}
