import type { Parameters } from '../terms/fields.ts';
import type { Issue } from '../terms/types.ts';
import type { ReagentId, WorkUpAction } from './actions.ts';
import {
  type Appearance,
  type Chemistry,
  CHEMISTRY,
  edtaOf,
  type Flask,
  flaskOf,
  type Reagent,
  type Receiver,
  type Surroundings,
  type Titration,
} from '../flask/index.ts';
import { type Apparatus, apparatusOf } from './apparatus.ts';
import { pow10 } from '../math/elementary.ts';

// The bench of a work-up: reagents and glass as the values and the seed make them, and the state that actions change.

export interface Bench {
  readonly values: Parameters;
  readonly apparatus: Apparatus;
  readonly around: Surroundings;
  /** With the true molarity of the EDTA. */
  readonly titration: Titration;
  readonly reagents: Readonly<Record<ReagentId, Reagent>>;
  /** Which of several work-ups on this bench: their readings differ, their glass is the same. */
  readonly replicate: number;
}

/** One filling of a flask from the burette. */
export interface Titre {
  /** The flask before the first drop. */
  readonly before: Flask;
  readonly initial_mL: number;
  /** Burette reading now; the titre is the difference. */
  readonly final_mL: number;
  readonly read_mL: number;
  /** What truly went in. */
  readonly delivered_mL: number;
  readonly equivalence_mL: number;
  /** Where the eye loses the blue, if titrant is added steadily. */
  readonly endPoint_mL: number;
  /** Faintest blue that the eye saw in this flask. */
  readonly threshold_A: number;
  /** What had gone in when the flask was first seen pink. */
  readonly firstPink_mL: number | undefined;
  /** The eye saw pink and it lasted. */
  readonly pink: boolean;
  /** Times the blue came back after a wait. */
  readonly blueReturned: number;
}

export interface Note {
  readonly kind: 'caution' | 'seen' | 'advice';
  /** Hazard a caution belongs to: acid, alkali, thiocyanate, acetone or metals. */
  readonly hazard?: 'acid' | 'alkali' | 'thiocyanate' | 'acetone' | 'metals';
  readonly text: string;
}

export interface Reading {
  /** As the meter shows it. */
  readonly pH: number;
  readonly temperature_C: number;
  readonly volume_mL: number;
  readonly burette_mL: number;
  readonly appearance: Appearance;
}

export interface WorkUpEvent {
  readonly entry: number;
  readonly action: WorkUpAction;
  readonly refused?: Issue;
  readonly notes: readonly Note[];
  /** mL (g of solid thiocyanate) that went in. */
  readonly used: number;
  /** What was seen afterwards; undefined if the action was refused. */
  readonly reading?: Reading;
}

export interface WorkUpState {
  /** What the column delivered, less the portions. */
  readonly eluate: Flask;
  /** The portion in hand; null while the eluate itself is. */
  readonly portion: Flask | null;
  readonly putAside: readonly Flask[];
  /** What stayed on the beaker when the eluate was poured over into a flask; null while it is in the beaker. */
  readonly onGlass: Flask | null;
  /** Nominal volumes; null until made up and pipetted. */
  readonly flask_mL: number | null;
  readonly portion_mL: number | null;
  readonly titres: readonly Titre[];
  readonly used: Readonly<Record<ReagentId, number>>;
  readonly hottest_C: number;
  readonly time_min: number;
  readonly events: readonly WorkUpEvent[];
}

/** mol/L of thiocyanate when it is added as a liquid; common practice, no source. */
const THIOCYANATE_M = 4;
/** mol/L of hydrochloric acid and sodium acetate on the bench; common practice, no source. */
const HCL_M = 1;
const ACETATE_M = 1;

export function benchOf(values: Parameters, seed: number, replicate = 0): Bench {
  const apparatus = apparatusOf(values, seed);
  const chemistry: Chemistry = { ...CHEMISTRY, Ksp: { ...CHEMISTRY.Ksp, Co: pow10(values['workup.log_Ksp_Co']) } };
  const pour = values['workup.pour_mL_min'];
  const EDTA_M = apparatus.EDTA_M;
  const NaOH = values['bench.NaOH_M'];
  const acetic = values['workup.acetic_M'];
  return {
    values,
    apparatus,
    around: { chemistry, room_C: values['bench.temperature_C'], neutralisation: values['workup.neutralisation_kJ_mol'], pour },
    titration: { EDTA_M, threshold_A: values['workup.threshold_A'], path_cm: values['workup.path_cm'], pour, chemistry },
    reagents: {
      water: { label: 'water', molarity: {} },
      HCl: { label: `${HCL_M} mol/L HCl`, molarity: { Cl: HCL_M } },
      NaOH: { label: `${NaOH} mol/L NaOH`, molarity: { Na: NaOH } },
      acetic: { label: `${acetic} mol/L acetic acid`, molarity: { Ac: acetic } },
      acetate: { label: `${ACETATE_M} mol/L sodium acetate`, molarity: { Na: ACETATE_M, Ac: ACETATE_M } },
      thiocyanate: { label: `${THIOCYANATE_M} mol/L ammonium thiocyanate`, molarity: { NH4: THIOCYANATE_M, SCN: THIOCYANATE_M } },
      acetone: { label: 'acetone', molarity: {}, acetoneShare: 1 },
      EDTA: edtaOf(EDTA_M),
    },
    replicate,
  };
}

export function startOf(receiver: Receiver, bench: Bench): WorkUpState {
  return {
    eluate: flaskOf(receiver, bench.around.room_C),
    portion: null,
    putAside: [],
    onGlass: null,
    flask_mL: null,
    portion_mL: null,
    titres: [],
    used: { water: 0, HCl: 0, NaOH: 0, acetic: 0, acetate: 0, thiocyanate: 0, acetone: 0, EDTA: 0 },
    hottest_C: bench.around.room_C,
    time_min: 0,
    events: [],
  };
}

/** What an action comes to. */
export type Outcome =
  | { readonly state: WorkUpState; readonly used: number; readonly notes: readonly Note[] }
  | { readonly refused: Issue; readonly notes?: readonly Note[] };

export function refuse(path: string, expected: string, received: string, notes: readonly Note[] = []): Outcome {
  return { refused: { path, expected, received }, notes };
}

/** The flask that actions work on. */
export function inHand(state: WorkUpState): Flask {
  return state.portion ?? state.eluate;
}

export function withFlask(state: WorkUpState, flask: Flask): WorkUpState {
  const hottest_C = Math.max(state.hottest_C, flask.temperature_C);
  return state.portion ? { ...state, portion: flask, hottest_C } : { ...state, eluate: flask, hottest_C };
}

/** Titration under way in the flask in hand, if EDTA is in it. */
export function titreInHand(state: WorkUpState): Titre | undefined {
  return inHand(state).amounts.Y > 0 ? state.titres[state.titres.length - 1] : undefined;
}
