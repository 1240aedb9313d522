import { type AfterStep, CONVERGED, solverFor } from './solver.ts';

/**
 * The column equations integrated by a general-purpose solver, written without any code of the model. Lanes of stirred
 * cells, c mol/L in the liquid (m mL per cell), q mmol per mL of bed on the resin (V mL of bed per cell), Q mL/min:
 *
 *   m dc_j/dt = Q (c_(j-1) - c_j) - V dq_j/dt + sum over neighbours of G (c_other - c_j)
 *   HCl:    dq/dt = (P x(c) - q)/a,  x = (-Qf + sqrt(Qf² + 4 kappa² c²))/2
 *   metals: dq/dt = (q* - q)/(a + D b),  D = D0(c_HCl) + De(c_HCl) (y/y0)^z,  q* = D c,  theta = sum of z q/capacity,
 *           y from electroneutrality and Donnan with the charge that is left, Qf (1 - theta), and y0 with all of it;
 *           y/y0 at most the root of (1 - theta)/last
 *
 * Units mL, min, mmol; a and b in min. Component 0 is HCl, then the metals in the order given.
 */
export interface ReferenceColumn {
  readonly plates: number;
  readonly lanes: readonly ReferenceLane[];
  readonly exchanges: readonly ReferenceExchange[];
  readonly acid: { readonly P: number; readonly Qf: number; readonly kappa: number; readonly a: number; readonly last: number };
  readonly metals: readonly ReferenceMetal[];
  /** mmol of charge per mL of bed. */
  readonly capacity: number;
  /** What enters all lanes from a time on, mol/L per component; in order of time, the first at 0. */
  readonly inflow: readonly { readonly from: number; readonly c: readonly number[] }[];
  /** Times at which the outlet is wanted, ascending, min. */
  readonly sampleAt: readonly number[];
  readonly end: number;
  /** Uniform start, mol/L; the resin is in equilibrium with it (metals: at theta = 0, so give none or little). */
  readonly start: readonly number[];
  /** Relative to the largest concentration of each component. */
  readonly tolerance?: number;
}

export interface ReferenceLane {
  /** Liquid and bed of one cell, mL. */
  readonly m: number;
  readonly V: number;
  /** mL/min. */
  readonly Q: number;
  /** Film resistance per unit of D, min. */
  readonly b: number;
}

/** Lanes a and b exchange G mL/min in every cell. */
export interface ReferenceExchange {
  readonly a: number;
  readonly b: number;
  readonly G: number;
}

export interface ReferenceMetal {
  readonly a: number;
  readonly z: number;
  readonly D0: (acid: number) => number;
  readonly De: (acid: number) => number;
}

export interface ReferenceRun {
  /** Flow-weighted outlet concentration per component, mol/L at `sampleAt`. */
  readonly outlet: readonly Float64Array[];
  /** At the end, at [(lane * plates + plate) * components + component]. */
  readonly c: Float64Array;
  readonly q: Float64Array;
  /** mmol per component since the start. */
  readonly amountIn: Float64Array;
  readonly amountOut: Float64Array;
  /** mmol per component in liquid and resin. */
  readonly startHeld: Float64Array;
  readonly endHeld: Float64Array;
  readonly evaluations: number;
}

const TOLERANCE = 1e-9;
const MAX_STEPS = 1_000_000;

export function referenceRun(column: ReferenceColumn): ReferenceRun {
  const components = 1 + column.metals.length;
  const size = column.lanes.length * column.plates * components;
  const outlet = Array.from({ length: components }, () => new Float64Array(column.sampleAt.length));
  const amountIn = new Float64Array(components);
  let y = startOf(column, components, size);
  const startHeld = heldBy(column, components, size, y);
  let evaluations = 0;
  column.inflow.forEach(({ from, c }, i) => {
    const to = Math.min(column.end, column.inflow[i + 1]?.from ?? column.end);
    if (to <= from) return;
    const result = segment(column, components, size, y, { from, to, inflow: c }, outlet);
    y = result.y;
    evaluations += result.nEval;
    for (let s = 0; s < components; s++) amountIn[s] += (to - from) * c[s] * totalFlow(column);
  });
  return {
    outlet,
    amountIn,
    startHeld,
    evaluations,
    c: Float64Array.from(y.slice(0, size)),
    q: Float64Array.from(y.slice(size, 2 * size)),
    amountOut: Float64Array.from(y.slice(2 * size)),
    endHeld: heldBy(column, components, size, y),
  };
}

/** From one change of eluent to the next, where the inflow is constant. */
function segment(
  column: ReferenceColumn,
  components: number,
  size: number,
  y: number[],
  { from, to, inflow }: { from: number; to: number; inflow: readonly number[] },
  outlet: Float64Array[],
): { readonly y: number[]; readonly nEval: number } {
  const solver = solverFor(y.length);
  const tolerance = column.tolerance ?? TOLERANCE;
  const last = column.lanes.map((_, lane) => (lane * column.plates + column.plates - 1) * components);
  solver.maxSteps = MAX_STEPS;
  solver.initialStepSize = 1e-3 * Math.min(...column.lanes.map(({ m, Q }) => m / Math.max(Q, m)));
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerancesOf(column, components, size, tolerance);
  solver.denseOutput = true;
  solver.denseComponents = last.flatMap((at) => Array.from({ length: components }, (_, s) => at + s));
  const flow = totalFlow(column);
  let next = column.sampleAt.findIndex((t) => t >= from);
  const sample: AfterStep = (_step, _old, x, now, dense) => {
    for (; next >= 0 && next < column.sampleAt.length && column.sampleAt[next] <= x; next++) {
      const t = column.sampleAt[next];
      for (let s = 0; s < components; s++)
        outlet[s][next] = last.reduce((sum, at, lane) => sum + column.lanes[lane].Q * (dense && t < x ? dense(at + s, t) : now[at + s]), 0) / flow;
    }
    return undefined;
  };
  const result = solver.solve(slopeOf(column, components, size, inflow), from, y, to, sample);
  if (result.outcome !== CONVERGED) throw new Error(`reference column: expected to reach ${to} min, received outcome ${result.outcome} of the solver`);
  return result;
}

/** The right-hand side; y is c of all cells, q of all cells, then the amounts that have left. */
function slopeOf(column: ReferenceColumn, components: number, size: number, inflow: readonly number[]): (t: number, y: number[]) => number[] {
  const { plates, lanes, exchanges, acid, metals, capacity } = column;
  const slope = new Array<number>(2 * size + components).fill(0);
  const fixed2 = acid.Qf * acid.Qf;
  const kappa2 = 4 * acid.kappa * acid.kappa;

  /** dq/dt of a cell, into the q part of `slope`. */
  const uptakeInto = (y: number[], at: number, film: number): void => {
    const HCl = Math.max(0, y[at]);
    const x = (kappa2 * HCl * HCl) / (2 * (acid.Qf + Math.sqrt(fixed2 + kappa2 * HCl * HCl)));
    slope[size + at] = (acid.P * x - y[size + at]) / acid.a;
    let charge = 0;
    for (let s = 1; s < components; s++) charge += metals[s - 1].z * y[size + at + s];
    const free = Math.min(1, Math.max(0, 1 - charge / capacity));
    const left = acid.Qf * free;
    const salt = kappa2 * HCl * HCl;
    const donnan = (left + Math.sqrt(left * left + salt)) / (acid.Qf + Math.sqrt(fixed2 + salt));
    const chloride = Math.min(donnan, Math.sqrt(free / acid.last));
    for (let s = 1; s < components; s++) {
      const { a, z, D0, De } = metals[s - 1];
      const D = D0(HCl) + De(HCl) * chloride ** z;
      slope[size + at + s] = (D * y[at + s] - y[size + at + s]) / (a + D * film);
    }
  };

  return (_t, y) => {
    for (let s = 0; s < components; s++) slope[2 * size + s] = 0;
    for (let lane = 0; lane < lanes.length; lane++) {
      const { m, V, Q, b } = lanes[lane];
      for (let j = 0; j < plates; j++) {
        const at = (lane * plates + j) * components;
        uptakeInto(y, at, b);
        for (let s = 0; s < components; s++) slope[at + s] = (Q * ((j === 0 ? inflow[s] : y[at + s - components]) - y[at + s]) - V * slope[size + at + s]) / m;
      }
      const last = (lane * plates + plates - 1) * components;
      for (let s = 0; s < components; s++) slope[2 * size + s] += Q * y[last + s];
    }
    for (const { a, b, G } of exchanges) {
      const shift = (b - a) * plates * components;
      const from = a * plates * components;
      for (let i = from; i < from + plates * components; i++) {
        const across = G * (y[i + shift] - y[i]);
        slope[i] += across / lanes[a].m;
        slope[i + shift] -= across / lanes[b].m;
      }
    }
    return slope;
  };
}

function startOf({ start, acid, metals }: ReferenceColumn, components: number, size: number): number[] {
  const [HCl] = start;
  const invaded = (-acid.Qf + Math.sqrt(acid.Qf ** 2 + 4 * acid.kappa ** 2 * HCl ** 2)) / 2;
  const sorbed = [acid.P * invaded, ...metals.map(({ D0, De }, i) => (start[i + 1] === 0 ? 0 : (D0(HCl) + De(HCl)) * start[i + 1]))];
  const cells = Array.from({ length: size }, (_, i) => i % components);
  return [...cells.map((s) => start[s]), ...cells.map((s) => sorbed[s]), ...start.map(() => 0)];
}

function heldBy({ plates, lanes }: ReferenceColumn, components: number, size: number, y: readonly number[]): Float64Array {
  const held = new Float64Array(components);
  for (let i = 0; i < size; i++) {
    const { m, V } = lanes[Math.floor(i / (plates * components))];
    held[i % components] += m * y[i] + V * y[size + i];
  }
  return held;
}

/** Absolute tolerance of c, q and amounts: that share of the largest concentration of the component. */
function tolerancesOf({ inflow, start, lanes, plates }: ReferenceColumn, components: number, size: number, tolerance: number): number[] {
  const largest = Array.from({ length: components }, (_, s) => Math.max(1e-6, start[s], ...inflow.map(({ c }) => c[s])));
  const bed = plates * lanes.reduce((sum, { V }) => sum + V, 0);
  return Array.from({ length: 2 * size + components }, (_, i) => tolerance * largest[i % components] * (i < 2 * size ? 1 : bed));
}

function totalFlow({ lanes }: ReferenceColumn): number {
  return lanes.reduce((sum, { Q }) => sum + Q, 0);
}
