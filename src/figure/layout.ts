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
export const HEIGHT_MIN_PX = 396;

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
/** The same rows where the run is seen by eye: nothing is measured, so the bed takes the room, and the glass beside it with it. */
const EYE = {
  lane: { wide: 92, narrow: 104 },
  gap: 22,
  strip: 44,
  receivers: 46,
  side: { wide: { left: 66, right: 24 }, narrow: { left: 30, right: 12 } },
} as const;

export function layoutOf(width: number, height: number, byEye = false): FigureLayout {
  const narrow = width < NARROW_PX;
  const kind = narrow ? 'narrow' : 'wide';
  const side = byEye ? EYE.side[kind] : SIDE[kind];
  const full = Math.max(height, HEIGHT_MIN_PX);
  const above = byEye ? EYE.lane[kind] : LANE;
  const [gap, receiving] = byEye ? [EYE.gap, EYE.receivers] : [LEGEND, RECEIVERS];
  const free = full - above - POURED - POURED_LABELS - gap - AXIS - receiving;
  const deep = byEye ? free - EYE.strip : Math.round(free * DEPTH_SHARE);
  const lane = { top: 0, bottom: above };
  const poured = { top: above, bottom: above + POURED };
  const depth = below(poured, POURED_LABELS, deep);
  const legend = below(depth, 0, gap);
  const effluent = below(legend, 0, free - deep);
  const receivers = below(effluent, AXIS, receiving);
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
