import { createRequire } from 'node:module';

// The general-purpose integrator: `odex`, a port of ODEX (extrapolated midpoint rule), Hairer, Norsett and Wanner,
// Solving Ordinary Differential Equations I, 1993, II.9. Its package carries TypeScript source that a strict compiler
// refuses, so the part used here is typed by hand.

/** Called after every step; `dense` interpolates component i at x within the step. */
export type AfterStep = (step: number, xOld: number, x: number, y: number[], dense?: (i: number, x: number) => number) => boolean | undefined;

export interface Solver {
  maxSteps: number;
  initialStepSize: number;
  denseOutput: boolean;
  denseComponents: number[];
  relativeTolerance: number;
  absoluteTolerance: number[];
  solve(
    slope: (x: number, y: number[]) => number[],
    x: number,
    y: number[],
    xEnd: number,
    after?: AfterStep,
  ): { readonly y: number[]; readonly outcome: number; readonly nEval: number };
}

/** A solver for n equations. */
export function solverFor(n: number): Solver {
  return new library.Solver(n);
}

/** Outcome of a solve that reached its end. */
export const CONVERGED = 0;

// `require` gives an unknown; the shape is that of node_modules/odex/src/odex.ts.
const library = createRequire(import.meta.url)('odex') as { readonly Solver: new (n: number) => Solver };
