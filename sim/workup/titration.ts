import { FLASK_MAX_ML, type Dose } from './actions.ts';
import { type Bench, inHand, type Outcome, refuse, type Titre, titreInHand, withFlask, type WorkUpState } from './bench.ts';
import { added, balanceIn, blueAbsorbance, endPoint, equivalence, type Flask, passed, type Titration } from '../flask/index.ts';
import { notesOnTitration } from './notes.ts';

// EDTA from the burette, by drop, by mL or until the last blue has gone and stays away.

/** A patient operator who sees the blue come back goes on; after this many returns something is wrong. */
const RETURNS_MAX = 30;

export function titratedTo(state: WorkUpState, dose: Dose, bench: Bench): Outcome {
  const flask = inHand(state);
  if (flask.amounts.SCN === 0) return refuse('EDTA', 'the indicator (thiocyanate) in the flask first', 'no thiocyanate');
  const hand = handOf(state, bench);
  if ('until' in dose && !blueIn(flask, hand.titration)) return refuse('EDTA.until', 'a blue flask', 'no blue to lose');
  const run = runOf(flask, dose, hand, bench);
  const titre = titreAfter(state, flask, run, hand, bench);
  const capacity = bench.values['workup.burette_mL'];
  if (titre.final_mL > capacity) return refuse('EDTA.mL', `at most the ${capacity} mL at which the burette is empty`, `${titre.final_mL.toFixed(2)} mL`);
  if (run.flask.volume_mL > FLASK_MAX_ML) return refuse('EDTA.mL', `at most ${FLASK_MAX_ML} mL in the flask`, `${run.flask.volume_mL.toFixed(0)} mL`);
  const titres = titreInHand(state) ? [...state.titres.slice(0, -1), titre] : [...state.titres, titre];
  const used = { ...state.used, EDTA: state.used.EDTA + run.volume };
  const next = { ...withFlask(state, run.flask), titres, used, time_min: state.time_min + run.minutes };
  return { state: next, used: run.volume, notes: notesOnTitration(flask, run.flask, titre, bench) };
}

/** Who titrates: this flask's name on the bench, and the eye that watches it. */
interface Hand {
  readonly name: string;
  readonly titration: Titration;
}

function handOf(state: WorkUpState, bench: Bench): Hand {
  const index = titreInHand(state) ? state.titres.length - 1 : state.titres.length;
  const name = `titre ${bench.replicate}.${index}`;
  return { name, titration: { ...bench.titration, threshold_A: bench.titration.threshold_A * bench.apparatus.eye(name) } };
}

interface Run {
  readonly flask: Flask;
  readonly volume: number;
  readonly minutes: number;
  readonly firstPink: number | undefined;
  readonly blueReturned: number;
}

function runOf(flask: Flask, dose: Dose, hand: Hand, bench: Bench): Run {
  if ('until' in dose) return untilPink(flask, hand, bench);
  const volume = 'drops' in dose ? dose.drops * bench.values['workup.drop_mL'] : 'mL' in dose ? bench.apparatus.delivered(dose.mL) : 0;
  const next = added(flask, bench.reagents.EDTA, volume, bench.around);
  return { flask: next, volume, minutes: volume / bench.around.pour, firstPink: blueIn(next, hand.titration) ? undefined : volume, blueReturned: 0 };
}

function untilPink(start: Flask, hand: Hand, bench: Bench): Run {
  const drop = bench.values['workup.drop_mL'];
  const wait = bench.values['workup.wait_s'] / 60;
  let run: Run = { flask: start, volume: 0, minutes: 0, firstPink: undefined, blueReturned: 0 };
  for (let returns = 0; returns < RETURNS_MAX && blueIn(run.flask, hand.titration); returns++) {
    const limit = FLASK_MAX_ML + 2 * drop - run.flask.volume_mL;
    const part = returns === 0 && start.amounts.Y === 0 ? bench.apparatus.firstDrop(hand.name) : 0;
    const needed = endPoint(run.flask, hand.titration, {}, limit) - part;
    const volume = part + drop * Math.max(1, Math.ceil(needed / drop - 1e-6));
    const pink = added(run.flask, bench.reagents.EDTA, volume, bench.around);
    run = {
      flask: passed(pink, wait, bench.around, 'swirled'),
      volume: run.volume + volume,
      minutes: run.minutes + volume / bench.around.pour + wait,
      firstPink: run.firstPink ?? run.volume + volume,
      blueReturned: returns,
    };
    if (run.flask.volume_mL > FLASK_MAX_ML) break;
  }
  return run;
}

/** A burette is filled to just below the zero line, mL; common practice, no source. */
const INITIAL_LEVEL_ML = 0.1;

function initialReading(name: string, { apparatus }: Bench): number {
  return Math.max(0, apparatus.reading(INITIAL_LEVEL_ML, `${name} initial`));
}

/** What the burette over the flask in hand reads, mL: before the first EDTA where it was filled to. */
export function buretteReads(state: WorkUpState, bench: Bench): number {
  return titreInHand(state)?.final_mL ?? initialReading(handOf(state, bench).name, bench);
}

function titreAfter(state: WorkUpState, flask: Flask, run: Run, { name, titration }: Hand, bench: Bench): Titre {
  const present = titreInHand(state);
  const before = present?.before ?? flask;
  const earlier_mL = present?.delivered_mL ?? 0;
  const delivered_mL = earlier_mL + run.volume;
  const initial_mL = present?.initial_mL ?? initialReading(name, bench);
  const final_mL = bench.apparatus.reading(INITIAL_LEVEL_ML + bench.apparatus.shown(delivered_mL), `${name} final`);
  return {
    before,
    initial_mL,
    final_mL,
    read_mL: Math.round((final_mL - initial_mL) * 100) / 100,
    delivered_mL,
    equivalence_mL: equivalence(before, titration.EDTA_M),
    endPoint_mL: present?.endPoint_mL ?? endPoint(before, titration),
    threshold_A: titration.threshold_A,
    firstPink_mL: present?.firstPink_mL ?? (run.firstPink === undefined ? undefined : earlier_mL + run.firstPink),
    pink: !blueIn(run.flask, titration),
    blueReturned: (present?.blueReturned ?? 0) + run.blueReturned,
  };
}

function blueIn(flask: Flask, { chemistry, path_cm, threshold_A }: Titration): boolean {
  return blueAbsorbance(balanceIn(flask, chemistry).blue, path_cm) >= threshold_A;
}
