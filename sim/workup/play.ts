import { FLASK_MAX_ML, misfit, type WorkUpAction, type WorkUpLog } from './actions.ts';
import { added, appearanceOf, balanceIn, emptyAmounts, mixed, parted, passed, type Receiver } from '../flask/index.ts';
import { flaskSize } from '../hands/index.ts';
import { type Bench, inHand, type Note, type Outcome, refuse, startOf, titreInHand, withFlask, type WorkUpState } from './bench.ts';
import { power } from '../math/elementary.ts';
import { addedTo } from './dose.ts';
import { notesOnRest } from './notes.ts';

// A work-up is played action by action. What cannot be done is refused with a reason and changes nothing.

export function playWorkUp(receiver: Receiver, log: WorkUpLog, bench: Bench): WorkUpState {
  return log.reduce((state, action) => workUpStep(state, action, bench), startOf(receiver, bench));
}

/** State after one action, with an event for it at the end of `events`. */
export function workUpStep(state: WorkUpState, action: WorkUpAction, bench: Bench): WorkUpState {
  const entry = state.events.length;
  const outcome = outcomeOf(state, action, bench);
  if ('refused' in outcome) {
    const event = { entry, action, refused: outcome.refused, notes: outcome.notes ?? [], used: 0 };
    return { ...state, events: [...state.events, event] };
  }
  const { state: next, used, notes } = outcome;
  const event = { entry, action, notes, used, reading: readingOf(next, bench, entry) };
  return { ...next, events: [...state.events, event] };
}

function outcomeOf(state: WorkUpState, action: WorkUpAction, bench: Bench): Outcome {
  const wrong = misfit(action);
  if (wrong) return { refused: wrong };
  const worked = action.do === 'swirl' || action.do === 'wait' || action.do === 'add' ? inHand(state) : state.eluate;
  if (worked.volume_mL <= 0) return refuse('flask', 'a flask with liquid in it', 'an empty one');
  if (action.do === 'transfer') return poured(state, action.rinses, action.rinse_mL, bench);
  if (action.do === 'make up') return madeUp(state, action.to_mL, bench);
  if (action.do === 'portion') return pipetted(state, action.mL, bench);
  if (action.do === 'add') return addedTo(state, action.reagent, action.dose, bench);
  const how = action.do === 'swirl' ? 'swirled' : action.ice ? 'ice' : 'standing';
  const flask = passed(inHand(state), action.min, bench.around, how);
  return { state: { ...withFlask(state, flask), time_min: state.time_min + action.min }, used: 0, notes: notesOnRest(flask, bench) };
}

/** A dry beaker. */
const NOTHING = { volume_mL: 0, acetone_mL: 0, amounts: emptyAmounts(), solid: {} };
/** Minutes to pour over and to rinse once; common practice, no source. */
const TRANSFER_MIN = 0.5;

/** A film stays on the beaker; each rinse thins it by film / (film + rinse). */
function poured(state: WorkUpState, rinses: number, rinse_mL: number, bench: Bench): Outcome {
  const { eluate } = state;
  if (state.onGlass) return refuse('transfer', 'the eluate still in its receiver', 'an eluate in the flask');
  if (state.portion) return refuse('transfer', 'the eluate in hand, before the first portion', 'a portion in hand');
  const film = Math.min(bench.apparatus.film(`transfer ${bench.replicate}`), eluate.volume_mL / 2);
  const water = rinses * rinse_mL;
  const room = FLASK_MAX_ML - eluate.volume_mL;
  if (water > room) return refuse('transfer.rinse_mL', `at most ${Math.max(0, room).toFixed(0)} mL of water into this flask`, `${water.toFixed(1)} mL`);
  const stays = (film / eluate.volume_mL) * power(film / (film + rinse_mL), rinses);
  const [onGlass, rest] = stays > 0 ? parted(eluate, stays * eluate.volume_mL) : [{ ...eluate, ...NOTHING }, eluate];
  const rinsed = mixed(rest, bench.reagents.water, Math.max(0, water - (film - onGlass.volume_mL)), bench.around.room_C);
  const used = { ...state.used, water: state.used.water + water };
  const next = { ...withFlask(state, rinsed), onGlass, used, time_min: state.time_min + TRANSFER_MIN * (1 + rinses) };
  const bare: Note[] =
    rinses === 0 ? [{ kind: 'advice', text: 'What stays on the walls of the receiver is not titrated: rinse it over with a little water, twice.' }] : [];
  return { state: next, used: water, notes: bare };
}

/** Minutes to fill to the mark and to pipette; common practice, no source. */
const MAKE_UP_MIN = 2;
const PIPETTE_MIN = 1;
/** K above the room from which a flask made up to the mark will be short when it has cooled; assumed, 0.1 % of volume. */
const WARM_K = 4;

function madeUp(state: WorkUpState, to_mL: number, bench: Bench): Outcome {
  const { eluate } = state;
  if (state.portion) return refuse('make up', 'the eluate in hand, before the first portion', 'a portion in hand');
  if (eluate.volume_mL > to_mL) {
    const larger = flaskSize(eluate.volume_mL, to_mL);
    const expected = `at least ${eluate.volume_mL.toFixed(1)} mL${larger ? `, such as ${larger} mL` : ''}`;
    return refuse('make up.to_mL', expected, `${to_mL} mL`);
  }
  const water = Math.max(0, bench.apparatus.flask(to_mL) - eluate.volume_mL);
  const flask = added(eluate, bench.reagents.water, water, bench.around);
  const warm = flask.temperature_C > bench.around.room_C + WARM_K;
  const notes: Note[] = warm ? [{ kind: 'advice', text: 'The flask is warm: cool it before filling to the mark, or it will be short.' }] : [];
  const used = { ...state.used, water: state.used.water + water };
  const next = { ...withFlask(state, flask), flask_mL: to_mL, used, time_min: state.time_min + MAKE_UP_MIN };
  return { state: next, used: water, notes };
}

function pipetted(state: WorkUpState, nominal_mL: number, bench: Bench): Outcome {
  const { eluate, putAside } = state;
  const volume = bench.apparatus.pipette(nominal_mL, `${bench.replicate}.${state.events.length}`);
  if (eluate.volume_mL < volume) return refuse('portion.mL', `at most the ${eluate.volume_mL.toFixed(2)} mL that are left`, `${nominal_mL} mL`);
  if (eluate.amounts.Y > 0) return refuse('portion', 'an eluate that was not titrated', 'EDTA in it');
  const [taken, left] = parted(eluate, volume);
  const aside = state.portion ? [...putAside, state.portion] : putAside;
  const next = { ...state, eluate: left, portion: taken, putAside: aside, portion_mL: nominal_mL, time_min: state.time_min + PIPETTE_MIN };
  return { state: next, used: nominal_mL, notes: pipetteNotes(state) };
}

function pipetteNotes({ eluate, flask_mL }: WorkUpState): Note[] {
  const notes: Note[] = [];
  const cloudy = Object.values(eluate.solid).some((mmol) => mmol > 0);
  if (cloudy) notes.push({ kind: 'advice', text: 'There is hydroxide in the flask: a portion is only true if it is all dissolved.' });
  if (flask_mL === null) notes.push({ kind: 'advice', text: 'The eluate was not made up to a known volume: the share taken is not known well.' });
  return notes;
}

function readingOf(state: WorkUpState, bench: Bench, entry: number) {
  const flask = inHand(state);
  const { chemistry, path_cm, threshold_A } = bench.titration;
  const titre = titreInHand(state);
  return {
    pH: bench.apparatus.meter(balanceIn(flask, chemistry).pH, `pH ${bench.replicate}.${entry}`),
    temperature_C: flask.temperature_C,
    volume_mL: flask.volume_mL,
    burette_mL: titre ? titre.final_mL : 0,
    appearance: appearanceOf(flask, chemistry, path_cm, titre?.threshold_A ?? threshold_A),
  };
}
