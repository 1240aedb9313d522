import { bandIn, sectorsOf } from '../column/index.ts';
import type { IonId, Scenario } from '../terms/types.ts';
import { placeOf } from './effluent.ts';

/** Cells of a bed or of a moment of it: arrays over solute, lane and plate. */
export interface Cells {
  readonly pore: ArrayLike<number>;
  readonly sorbed: ArrayLike<number>;
  readonly gas: ArrayLike<number>;
}

/** How the leading edge of a band stands round the bed. */
export interface Lean {
  /** cm between the sides that are furthest ahead and furthest behind; 0 is level. */
  readonly lean_cm: number;
  /** Degrees round the bed of these sides. */
  readonly ahead_deg: number;
  readonly behind_deg: number;
  /** cm by which the core is ahead of the mean of the sides; negative if behind. */
  readonly core_cm: number;
  /** Deepest leading edge over the mean one, all lanes by area; 1 is level. */
  readonly leadingEdgeRatio: number;
}

/** A lane with less than this share of the ion's mean in the lanes has no edge of its own: its band has left, or has not come. A choice. */
const FAINT = 0.02;

interface Edge {
  readonly lane: number;
  readonly cm: number;
}

/**
 * `bed_cm`: height of the bed now, since it is the bed as it is that leans; as packed if not given.
 * Undefined for a bed of one lane, and while the bed holds none of the ion or fewer than two sides do.
 */
export function leanOf(cells: Cells, scenario: Scenario, ion: IonId, bed_cm = scenario.values['bed.length_cm']): Lean | undefined {
  const shown = bed_cm / scenario.values['bed.length_cm'];
  const { area, angleDeg } = sectorsOf(scenario.values);
  const edges = edgesOf(cells, scenario, ion);
  const sides = edges.filter(({ lane }) => lane > 0);
  if (sides.length < 2) return undefined;
  const deepest = (a: Edge, b: Edge): Edge => (b.cm > a.cm ? b : a);
  const ahead = sides.reduce(deepest);
  const behind = sides.reduce((a, b) => (b.cm < a.cm ? b : a));
  const covered = edges.reduce((sum, { lane }) => sum + area[lane], 0);
  const mean = edges.reduce((sum, { lane, cm }) => sum + cm * area[lane], 0) / covered;
  const core = edges.find(({ lane }) => lane === 0);
  return {
    lean_cm: (ahead.cm - behind.cm) * shown,
    ahead_deg: angleDeg[ahead.lane],
    behind_deg: angleDeg[behind.lane],
    core_cm: core ? (core.cm - sides.reduce((sum, { cm }) => sum + cm, 0) / sides.length) * shown : Number.NaN,
    leadingEdgeRatio: mean > 0 ? edges.reduce(deepest).cm / mean : 1,
  };
}

/** Leading edges of the lanes that hold the ion. Amounts per mL of bed stand for amounts, as all cells of a lane are alike. */
function edgesOf({ pore, sorbed, gas }: Cells, { values, ions }: Scenario, ion: IonId): Edge[] {
  const [lanes, plates, porosity] = [values['bed.lanes'], values['bed.plates'], values['bed.porosity']];
  const profile = new Float64Array(plates);
  const bands = Array.from({ length: lanes }, (_, lane) => {
    const from = (placeOf(ions, ion) * lanes + lane) * plates;
    for (let j = 0; j < plates; j++) profile[j] = sorbed[from + j] + pore[from + j] * (porosity * (1 - gas[lane * plates + j]));
    return bandIn(profile, values['bed.length_cm'] / plates);
  });
  const mean = bands.reduce((sum, band) => sum + (band?.amount_mmol ?? 0), 0) / lanes;
  return bands.flatMap((band, lane) => (band && band.amount_mmol > FAINT * mean ? [{ lane, cm: band.leading_cm }] : []));
}
