import { frameAt } from '../../../sim/history/index.ts';
import { type Drawing, shownOf } from '../drawing.ts';

// The cursor of the figure: where it is, and how keys and pointer move it.

export interface Look {
  readonly mL: number;
  /** Depth as a share of the bed; more than 1 in the row below it. */
  readonly share: number;
}

/** Steps of the arrow keys, alone and with shift, mL, and as a share of the bed. */
const STEP_ML = 0.1;
const STRIDE_ML = 1;
const STEP_SHARE = 0.02;
/** An empty tube has no depth to point at; this keeps the division sound. */
const LEAST_SHOWN = 1e-3;

/** Where a key takes the cursor; undefined for keys it does not answer to. */
export function lookByKey({ mL, share }: Look, { key, shiftKey }: Pick<KeyboardEvent, 'key' | 'shiftKey'>, end_mL: number): Look | undefined {
  const step = shiftKey ? STRIDE_ML : STEP_ML;
  const places: Readonly<Record<string, Look>> = {
    ArrowLeft: { mL: mL - step, share },
    ArrowRight: { mL: mL + step, share },
    ArrowUp: { mL, share: Math.min(1, share) - STEP_SHARE },
    ArrowDown: { mL, share: share + STEP_SHARE },
    Home: { mL: 0, share },
    End: { mL: end_mL, share },
  };
  const place = places[key];
  return place && within(place, end_mL);
}

/** Where a pointer at these px of the figure points. */
export function lookByPointer(drawing: Drawing, px: number, py: number, end_mL: number): Look {
  const { x, plan, layout } = drawing;
  const { top, bottom } = layout.depth;
  const mL = Math.max(0, Math.min(end_mL, x.invert(px)));
  const shown = Math.max(LEAST_SHOWN, shownOf(plan, frameAt(plan, mL)));
  const up = (bottom - py) / (bottom - top);
  return { mL, share: up < 0 ? 1 - up : Math.max(0, 1 - up / shown) };
}

function within({ mL, share }: Look, end_mL: number): Look {
  return { mL: Math.max(0, Math.min(end_mL, mL)), share: Math.max(0, Math.min(1, share)) };
}
