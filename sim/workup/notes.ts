import type { ReagentId } from './actions.ts';
import { TITRE_SHARE_MIN } from '../hands/index.ts';
import type { Bench, Note, Titre } from './bench.ts';
import { acetoneShare, balanceIn, type Flask, mixed, restingBalance } from '../flask/index.ts';

// What an attentive neighbour at the bench would say about a step.

/** Above this pH ammonium smells of ammonia and cobalt goes over into ammines; pKa 9.24, a tenth is ammonia at 8.3. */
const AMMONIA_PH = 8.3;
/** Total acetate per cobalt: under 4 the pH falls during the titration, 10 to 20 is safe. Computed with this model. */
const ACETATE_PER_COBALT = 4;
/** Acetone share under which the blue is weak; computed with the surrogate. */
const ACETONE_SHARE_MIN = 0.4;
/** Share of cobalt from which another metal is worth a word. */
const OTHER_METAL_SHARE = 0.005;
/** pH range in which the indicator is added; common practice, no source. */
const INDICATOR_PH = [5, 7] as const;
/** Beyond what "slightly basic" means; common practice, no source. */
const FAR_BASIC_PH = 10;
/** mmol of hydroxide seen; assumed. */
const CLOUD_MMOL = 2e-4;
/** pH by which a meter that still moves is off what it comes to. A choice. */
const RESTING_PH = 0.3;
/** K of warming worth a warning. */
const WARMING_K = 10;

export function notesOn(before: Flask, after: Flask, reagent: ReagentId, bench: Bench): Note[] {
  const { pH } = balanceIn(after, bench.around.chemistry);
  const warming = after.temperature_C - before.temperature_C;
  const notes: Note[] = [];
  if (warming > WARMING_K) notes.push(caution('alkali', `The flask warmed by ${warming.toFixed(0)} K: cool it, and add the rest in small portions.`));
  if (reagent === 'NaOH') notes.push(...alkaliNotes(after, pH, bench));
  if ((reagent === 'NaOH' || reagent === 'acetate') && after.acetone_mL > 0) notes.push(advice(ACETONE_PH));
  if (reagent === 'acetic') notes.push(...notesOnRest(after, bench));
  if (reagent === 'thiocyanate') notes.push(...indicatorNotes(after, pH));
  if (reagent === 'acetone') notes.push(caution('acetone', 'No flame or hot plate near the acetone.'));
  return notes;
}

export function notesOnTitration(before: Flask, after: Flask, titre: Titre, bench: Bench): Note[] {
  const notes: Note[] = [];
  const { Ac, Co, Y } = before.amounts;
  if (Y === 0 && Ac < ACETATE_PER_COBALT * Co) notes.push(advice(`${(Ac / Co).toFixed(1)} acetate per cobalt is little: ${DRIFT}`));
  if (titre.blueReturned > 0) notes.push(seen(`The blue came back ${times(titre.blueReturned)} while waiting: ${RETURN}`));
  if (!titre.pink) return notes;
  const share = acetoneShare(after);
  if (share > 0 && share < ACETONE_SHARE_MIN) notes.push(advice(`The titrant thinned the acetone to ${(share * 100).toFixed(0)} %: ${THINNED}`));
  const small = titre.read_mL < TITRE_SHARE_MIN * bench.values['workup.burette_mL'];
  if (small) notes.push(advice(`A titre of ${titre.read_mL.toFixed(2)} mL uses under 30 % of the burette: a smaller one, or more cobalt, reads better.`));
  return notes;
}

const ACETONE_PH = 'In acetone the meter and paper misread: the pH should be set before.';
const DRIFT = 'EDTA frees 2 H+ for each, the pH will fall and the end point come late and fade.';
const RETURN = 'slow nickel was taking EDTA from the cobalt, or lumps of hydroxide were dissolving.';
const THINNED = 'the blue was weak at the end, which comes early.';
const AMMONIA = 'Alkali on an ammonium salt: it smells of ammonia, and cobalt goes over into ammines that air oxidises.';
const CLOUDY = 'Hydroxide stands in the flask; swirl and wait, or add acetic acid, until it has dissolved.';

function alkaliNotes(flask: Flask, pH: number, bench: Bench): Note[] {
  const notes: Note[] = [];
  if (flask.amounts.NH4 > 0 && pH > AMMONIA_PH) notes.push(caution('alkali', AMMONIA));
  if (pH > FAR_BASIC_PH) notes.push(farBasic(flask, pH, bench));
  return [...notes, ...notesOnRest(flask, bench)];
}

/** Nobody stops between two drops: where the last one alone went so far, that is how the bench is, and no mistake. */
function farBasic(flask: Flask, pH: number, { reagents: { NaOH }, values, around: { chemistry } }: Bench): Note {
  const drop_mL = values['workup.drop_mL'];
  const short = restingBalance(mixed(flask, NaOH, -drop_mL, flask.temperature_C), chemistry).pH < values['workup.neutral_pH'];
  const drop_mmol = (values['bench.NaOH_M'] * drop_mL).toFixed(2);
  if (short)
    return seen(
      `Far basic, pH ${pH.toFixed(1)}: one drop of this alkali holds ${drop_mmol} mmol, more than was left to neutralise. One drop less would have been too little, so nothing went wrong: the acetic acid that follows takes it back. Diluted alkali would be finer.`,
    );
  return advice(`Far basic, pH ${pH.toFixed(1)}: more alkali than the acid took. The acetic acid that follows takes it back.`);
}

/** Lumps of hydroxide give off alkali while they dissolve: where the meter goes is told with them. */
export function notesOnRest(flask: Flask, { around: { chemistry } }: Bench): Note[] {
  if (!Object.values(flask.solid).some((mmol) => mmol > CLOUD_MMOL)) return [];
  const [now, rest] = [balanceIn(flask, chemistry).pH, restingBalance(flask, chemistry).pH];
  return [seen(Math.abs(now - rest) < RESTING_PH ? CLOUDY : `${CLOUDY} The meter is still on its way, to pH ${rest.toFixed(1)}.`)];
}

function indicatorNotes(flask: Flask, pH: number): Note[] {
  const notes: Note[] = [];
  const { Co, Ni, Fe3 } = flask.amounts;
  const [acid, basic] = INDICATOR_PH;
  if (pH < acid) notes.push(advice(`pH ${pH.toFixed(1)}: too acid, EDTA holds cobalt weakly and the end point comes late.`));
  if (pH > basic) notes.push(advice(`pH ${pH.toFixed(1)}: rather basic, hydroxide may still be there.`));
  if (Fe3 > OTHER_METAL_SHARE * Co) notes.push(seen('Iron(III) makes a red complex that hides the blue: mask it or remove it.'));
  if (Ni > OTHER_METAL_SHARE * Co) notes.push(advice('Nickel is here too: it takes EDTA, slowly. Wait at the end point.'));
  return notes;
}

function times(count: number): string {
  return count === 1 ? 'once' : `${count} times`;
}

function caution(hazard: Note['hazard'], text: string): Note {
  return { kind: 'caution', hazard, text };
}

function advice(text: string): Note {
  return { kind: 'advice', text };
}

function seen(text: string): Note {
  return { kind: 'seen', text };
}
