// Where the rows of the figure lie: heights are fixed by the height of the element alone, so that the glass can line up.

/** A row, px from the top of the figure. */
export interface Row {
  readonly top: number;
  readonly bottom: number;
}

export interface FigureLayout {
  readonly width: number;
  readonly height: number;
  /** Ends of the shared axis, px. */
  readonly left: number;
  readonly right: number;
  /** Room is short: titles move into the rows, labels thin out. */
  readonly narrow: boolean;
  /** Handles of the eluent changes. */
  readonly lane: Row;
  readonly poured: Row;
  readonly depth: Row;
  readonly legend: Row;
  readonly effluent: Row;
  /** Brackets of the receivers and their handles. */
  readonly receivers: Row;
}

/** Below this width, px, the figure is laid out for a phone. */
export const NARROW_PX = 560;
/** Least height at which every row can still be read, px. */
export const HEIGHT_MIN_PX = 440;

const LANE = 57;
const POURED = 24;
/** Labels of bars too short for their own. */
const POURED_LABELS = 22;
const LEGEND = 50;
/** Numbers, title and the mark of the present moment. */
const AXIS = 44;
const RECEIVERS = 60;
const DEPTH_SHARE = 0.6;
const SIDE = { wide: { left: 66, right: 58 }, narrow: { left: 44, right: 30 } } as const;

export function layoutOf(width: number, height: number): FigureLayout {
  const narrow = width < NARROW_PX;
  const side = narrow ? SIDE.narrow : SIDE.wide;
  const full = Math.max(height, HEIGHT_MIN_PX);
  const free = full - LANE - POURED - POURED_LABELS - LEGEND - AXIS - RECEIVERS;
  const lane = { top: 0, bottom: LANE };
  const poured = { top: LANE, bottom: LANE + POURED };
  const depth = below(poured, POURED_LABELS, Math.round(free * DEPTH_SHARE));
  const legend = below(depth, 0, LEGEND);
  const effluent = below(legend, 0, free - (depth.bottom - depth.top));
  const receivers = below(effluent, AXIS, RECEIVERS);
  return {
    width,
    height: full,
    left: side.left,
    right: Math.max(side.left + 50, width - side.right),
    narrow,
    lane,
    poured,
    depth,
    legend,
    effluent,
    receivers,
  };
}

function below(row: Row, gap: number, height: number): Row {
  return { top: row.bottom + gap, bottom: row.bottom + gap + height };
}
