import type { Scenario } from '../../../sim/terms/types.ts';
import { type Calibration, withFitted } from './calibrate.ts';
import type { Measurement } from './measurements.ts';
import { predicted } from './predict.ts';

// Values of the model between the readings, to be drawn as a line.

/** Quantities that have a value at every moment of a run. */
const STEADY = ['flow', 'bed', 'leading', 'trailing'] as const;
export type Steady = (typeof STEADY)[number];

export type Curves = Readonly<Record<Steady, readonly number[]>>;

export interface ModelCurves {
  /** Volumes delivered, mL, of every value. */
  readonly at_mL: readonly number[];
  readonly before: Curves;
  readonly after: Curves;
}

/** Places along a line: the liquid over the bed falls with every pour, and the flow with it. */
const PLACES = 160;

export function isSteady(quantity: string): quantity is Steady {
  return STEADY.some((one) => one === quantity);
}

/** The run before and after a fit, up to the last reading. */
export function modelCurves(scenario: Scenario, calibration: Calibration): ModelCurves {
  const last = Math.max(...calibration.measurements.map(({ at_mL }) => at_mL));
  const at_mL = Array.from({ length: PLACES + 1 }, (_, i) => (last * i) / PLACES);
  return {
    at_mL,
    before: curvesOf(withFitted(scenario, calibration, 'before'), at_mL),
    after: curvesOf(withFitted(scenario, calibration, 'value'), at_mL),
  };
}

function curvesOf(scenario: Scenario, at_mL: readonly number[]): Curves {
  const readings = STEADY.flatMap((quantity) => at_mL.map((at): Measurement => readingOf(quantity, at)));
  const values = predicted(scenario, readings);
  const of = (quantity: Steady): number[] => values.filter((_, i) => readings[i].quantity === quantity);
  return { flow: of('flow'), bed: of('bed'), leading: of('leading'), trailing: of('trailing') };
}

function readingOf(quantity: Steady, at_mL: number): Measurement {
  return { row: 0, column: '', quantity, at_mL, from_mL: 0, value: 0, deviation: 1 };
}
