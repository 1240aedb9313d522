/// <reference lib="webworker" />
import type { Alive } from '../../store/threads/errand.ts';
import { signOfLife } from '../../store/threads/watchdog.ts';
import type { Scenario } from '../../../sim/terms/types.ts';
import { type Calibration, calibrated } from './calibrate.ts';
import { type ModelCurves, modelCurves } from './curves.ts';
import type { FitProgress } from '../squares/problem.ts';
import type { Measurement } from './measurements.ts';
import { FITTED_PATHS } from './parameters.ts';

// Fits one scenario to one table of readings and reports its progress.

export interface FitRequest {
  readonly scenario: Scenario;
  readonly measurements: readonly Measurement[];
}

export interface FitAnswer {
  readonly calibration: Calibration;
  readonly curves: ModelCurves;
}

export type FitReply =
  | { readonly do: 'progress'; readonly progress: FitProgress }
  | { readonly do: 'done'; readonly answer: FitAnswer }
  | { readonly do: 'failed'; readonly message: string };

self.onmessage = ({ data }: MessageEvent<FitRequest>) => {
  const { scenario, measurements } = data;
  const alive = signOfLife(() => say({ alive: true }));
  try {
    const calibration = calibrated(scenario, measurements, FITTED_PATHS, (progress) => say({ do: 'progress', progress }), alive);
    say({ do: 'done', answer: { calibration, curves: modelCurves(scenario, calibration) } });
  } catch (error) {
    say({ do: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
};

function say(reply: FitReply | Alive): void {
  self.postMessage(reply);
}
