import type { Issue } from '../terms/types.ts';
import { FLASK_MAX_ML, type Dose, type ReagentId } from './actions.ts';
import { type Bench, inHand, type Note, type Outcome, refuse, withFlask, type WorkUpState } from './bench.ts';
import { added, balanceIn, dissolved, type Flask, mixed, MOLAR_MASS, restingBalance, THIOCYANATE_HEAT } from '../flask/index.ts';
import { notesOn } from './notes.ts';
import { rootOf } from '../math/root.ts';
import { titratedTo } from './titration.ts';

// Adding a reagent to the flask in hand, in drops, mL, g or until something is seen.

/** Below this pH thiocyanate must not meet the flask: acids set toxic gases free from it (EUH032, recalled). */
const THIOCYANATE_PH_MIN = 3;
/** °C from which drops of strong alkali boil where they fall; assumed. */
const SPITTING_C = 70;
/** Poured from a cylinder, not dripped; mL/min; common practice, no source. */
const CYLINDER: readonly ReagentId[] = ['acetone', 'water'];
const CYLINDER_ML_MIN = 100;
/** Acetone boils at 56 °C. */
const ACETONE_C = 45;

const SPITTING: Note = { kind: 'caution', hazard: 'alkali', text: 'Strong acid and strong alkali mixed fast boil and spit: dilute, cool, add in portions.' };

export function addedTo(state: WorkUpState, reagent: ReagentId, dose: Dose, bench: Bench): Outcome {
  const refused = hazard(state, reagent, bench);
  if (refused) return refused;
  if (reagent === 'EDTA') return titratedTo(state, dose, bench);
  if ('g' in dose) return weighedIn(state, dose.g, bench);
  const volume = volumeOf(inHand(state), reagent, dose, bench);
  if (typeof volume !== 'number') return { refused: volume };
  if (volume === 0) return { state, used: 0, notes: [{ kind: 'seen', text: 'The flask is already there; nothing was added.' }] };
  return ranIn(state, reagent, volume, bench);
}

function ranIn(state: WorkUpState, reagent: ReagentId, volume: number, bench: Bench): Outcome {
  const flask = inHand(state);
  const room = FLASK_MAX_ML - flask.volume_mL;
  if (volume > room) return refuse(`${reagent}.mL`, `at most ${Math.max(0, room).toFixed(0)} mL into this flask`, `${volume.toFixed(2)} mL`);
  const around = CYLINDER.includes(reagent) ? { ...bench.around, pour: CYLINDER_ML_MIN } : bench.around;
  const next = added(flask, bench.reagents[reagent], volume, around);
  if (next.temperature_C > SPITTING_C) {
    const received = `${volume.toFixed(2)} mL, ${next.temperature_C.toFixed(0)} °C`;
    return refuse(`${reagent}.mL`, 'a diluted, cooled flask: this would boil and spit', received, [SPITTING]);
  }
  return { state: after(state, next, reagent, volume, volume / around.pour), used: volume, notes: notesOn(flask, next, reagent, bench) };
}

function weighedIn(state: WorkUpState, grams: number, bench: Bench): Outcome {
  const flask = inHand(state);
  const next = dissolved(flask, { NH4: 1, SCN: 1 }, (grams / MOLAR_MASS.NH4SCN) * 1000, THIOCYANATE_HEAT.value, bench.around);
  return { state: after(state, next, 'thiocyanate', grams, 1), used: grams, notes: notesOn(flask, next, 'thiocyanate', bench) };
}

function after(state: WorkUpState, flask: Flask, reagent: ReagentId, amount: number, minutes: number): WorkUpState {
  const used = { ...state.used, [reagent]: state.used[reagent] + amount };
  return { ...withFlask(state, flask), used, time_min: state.time_min + minutes };
}

/** mL in whole drops; to a pH as a patient operator reaches it, letting lumps dissolve. */
function volumeOf(flask: Flask, reagent: ReagentId, dose: Exclude<Dose, { g: number }>, bench: Bench): number | Issue {
  const drop = bench.values['workup.drop_mL'];
  if ('drops' in dose) return dose.drops * drop;
  if ('mL' in dose) return dose.mL;
  if (dose.until === 'pink') return { path: `${reagent}.until`, expected: 'a pH', received: 'pink' };
  const target = dose.until.pH;
  const sign = reagent === 'NaOH' ? 1 : -1;
  const short = (mL: number) => sign * (target - restingBalance(mixed(flask, bench.reagents[reagent], mL, flask.temperature_C), bench.around.chemistry).pH);
  if (short(0) <= 0) return 0;
  const room = FLASK_MAX_ML - flask.volume_mL;
  const { label } = bench.reagents[reagent];
  if (room <= 0 || short(room) > 0) return { path: `${reagent}.until.pH`, expected: `a pH that ${label} reaches in this flask`, received: String(target) };
  return drop * Math.ceil(rootOf(short, 0, room, 1e-6) / drop - 1e-6);
}

/** Steps that are never taken, whatever the values. */
function hazard(state: WorkUpState, reagent: ReagentId, bench: Bench): Outcome | undefined {
  const flask = inHand(state);
  const acid = reagent === 'acetic' || reagent === 'HCl';
  if (acid && flask.amounts.SCN > 0) return thiocyanateHazard(`${reagent}`, 'a flask without thiocyanate', 'acid into thiocyanate');
  const { pH } = balanceIn(flask, bench.around.chemistry);
  if (reagent === 'thiocyanate' && pH < THIOCYANATE_PH_MIN) return thiocyanateHazard('thiocyanate', 'a flask neutralised to about pH 6', `pH ${pH.toFixed(1)}`);
  if (reagent === 'acetone' && flask.temperature_C > ACETONE_C) {
    const notes: Note[] = [{ kind: 'caution', hazard: 'acetone', text: 'Acetone boils at 56 °C and its vapour catches fire: cool the flask first.' }];
    return refuse('acetone', `a flask below ${ACETONE_C} °C`, `${flask.temperature_C.toFixed(0)} °C`, notes);
  }
  return undefined;
}

function thiocyanateHazard(path: string, expected: string, received: string): Outcome {
  const text = 'Acid and thiocyanate set toxic gases free. Neutralise first; nothing acid goes into a flask that holds thiocyanate.';
  return refuse(path, expected, received, [{ kind: 'caution', hazard: 'thiocyanate', text }]);
}
