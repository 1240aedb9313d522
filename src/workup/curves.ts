import { mixed, restingBalance, titrationCurve } from '../../sim/flask/index.ts';
import { type Bench, inHand, type Titre, titreInHand, type WorkUpEvent, type WorkUpState } from '../../sim/workup/index.ts';

// The curves of the flask against the volume run into it: alkali first, then titrant.

export interface Curve {
  readonly id: 'pH' | 'pCo' | 'blue';
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

/** A reading that was taken on the way. */
export interface Dot {
  readonly mL: number;
  readonly pH: number;
}

export interface FlaskCurves {
  readonly kind: 'alkali' | 'titrant';
  readonly curves: readonly Curve[];
  readonly dots: readonly Dot[];
  readonly now_mL: number;
  /** The same as the burette shows it. */
  readonly read_mL: number;
  readonly end_mL: number;
  /** Of a titration: where it was meant to end, where the eye saw it, and the faintest blue it sees. */
  readonly marks?: { readonly equivalence_mL: number; readonly seen_mL: number | undefined; readonly threshold_A: number };
}

const POINTS = 121;
/** The axis of a titration goes this far beyond equivalence. */
const BEYOND = 1.2;
/** The alkali curve goes this far beyond what was added. */
const MORE = 1.15;

/** Undefined while nothing was run into the flask in hand. `before`: the state before a step. */
export function curvesOf(state: WorkUpState, bench: Bench, before: (entry: number) => WorkUpState | undefined): FlaskCurves | undefined {
  const events = sincePortion(state.events);
  const titre = titreInHand(state);
  if (titre) return titrantCurves(titre, events, bench);
  const first = events.find(({ action }) => action.do === 'add' && action.reagent === 'NaOH');
  const start = first && before(first.entry);
  return first && start && alkaliCurves(start, events, first.entry, bench);
}

/** Up to what was delivered; the whole curve once the end point is seen, so that it gives nothing away before. */
function titrantCurves(titre: Titre, events: readonly WorkUpEvent[], bench: Bench): FlaskCurves {
  const end_mL = Math.max(titre.delivered_mL, titre.equivalence_mL * BEYOND);
  const drawn = titre.pink ? end_mL : titre.delivered_mL;
  const points = titrationCurve(titre.before, { ...bench.titration, threshold_A: titre.threshold_A }, drawn, POINTS);
  const xs = points.map(({ mL }) => mL);
  let mL = 0;
  const dots = events.flatMap(({ action, used, reading }): Dot[] => {
    if (action.do !== 'add' || action.reagent !== 'EDTA' || !reading) return [];
    mL += used;
    return [{ mL, pH: reading.pH }];
  });
  return {
    kind: 'titrant',
    curves: [
      { id: 'blue', xs, ys: points.map(({ absorbance }) => absorbance) },
      { id: 'pCo', xs, ys: points.map(({ pCo }) => pCo) },
      { id: 'pH', xs, ys: points.map(({ pH }) => pH) },
    ],
    dots,
    now_mL: titre.delivered_mL,
    read_mL: titre.read_mL,
    end_mL,
    marks: { equivalence_mL: titre.equivalence_mL, seen_mL: titre.pink ? titre.delivered_mL : undefined, threshold_A: titre.threshold_A },
  };
}

/** pH against alkali alone, at rest; acid that was added afterwards moves the dots off it. */
function alkaliCurves(start: WorkUpState, events: readonly WorkUpEvent[], entry: number, bench: Bench): FlaskCurves {
  let mL = 0;
  const dots = events.flatMap(({ action, used, reading, entry: at }): Dot[] => {
    if (at < entry || !reading) return [];
    if (action.do === 'add' && action.reagent === 'NaOH') mL += used;
    return [{ mL, pH: reading.pH }];
  });
  const end_mL = Math.max(mL * MORE, bench.values['workup.drop_mL'] * 4);
  const flask = inHand(start);
  const xs = Array.from({ length: POINTS }, (_, i) => (mL * i) / (POINTS - 1));
  const ys = xs.map((volume) => restingBalance(mixed(flask, bench.reagents.NaOH, volume, flask.temperature_C), bench.around.chemistry).pH);
  return { kind: 'alkali', curves: [{ id: 'pH', xs, ys }], dots, now_mL: mL, read_mL: mL, end_mL };
}

function sincePortion(events: readonly WorkUpEvent[]): readonly WorkUpEvent[] {
  return events.slice(
    Math.max(
      0,
      events.findLastIndex(({ action, refused }) => action.do === 'portion' && !refused),
    ),
  );
}
