import type { ReagentId } from './actions.ts';
import { TITRE_SHARE_MIN } from './apparatus.ts';
import type { Bench, Note, Titre } from './bench.ts';
import { acetoneShare, balanceIn, type Flask } from './flask.ts';

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
/** K of warming worth a warning. */
const WARMING_K = 10;

export function notesOn(before: Flask, after: Flask, reagent: ReagentId, bench: Bench): Note[] {
  const { pH } = balanceIn(after, bench.around.chemistry);
  const notes: Note[] = [];
  const warming = after.temperature_C - before.temperature_C;
  if (warming > WARMING_K) notes.push({ kind: 'caution', hazard: 'alkali', text: `The flask warmed by ${warming.toFixed(0)} K: cool it, and add the rest in small portions.` });
  if (reagent === 'NaOH' && after.amounts.NH4 > 0 && pH > AMMONIA_PH) notes.push({ kind: 'caution', hazard: 'alkali', text: 'Alkali on an ammonium salt: it smells of ammonia, and cobalt goes over into ammines that air oxidises.' });
  if ((reagent === 'NaOH' || reagent === 'acetate') && after.acetone_mL > 0) notes.push({ kind: 'advice', text: 'In acetone the meter and paper misread: the pH should be set before.' });
  if (reagent === 'NaOH') notes.push(...alkaliNotes(after, pH, bench));
  if (reagent === 'thiocyanate') notes.push(...indicatorNotes(after, pH));
  if (reagent === 'acetone') notes.push({ kind: 'caution', hazard: 'acetone', text: 'No flame or hot plate near the acetone.' });
  return notes;
}

export function notesOnTitration(before: Flask, after: Flask, titre: Titre, bench: Bench): Note[] {
  const notes: Note[] = [];
  const { amounts } = before;
  const first = amounts.Y === 0;
  if (first && amounts.Ac < ACETATE_PER_COBALT * amounts.Co) notes.push({ kind: 'advice', text: `Little acetate for this cobalt (${(amounts.Ac / amounts.Co).toFixed(1)} per cobalt): the EDTA frees 2 H+ each, the pH will fall and the end point come late and fade.` });
  if (titre.blueReturned > 0) notes.push({ kind: 'seen', text: `The blue came back ${titre.blueReturned === 1 ? 'once' : `${titre.blueReturned} times`} while waiting: slow nickel was taking EDTA from the cobalt, or lumps of hydroxide were dissolving.` });
  if (titre.pink && acetoneShare(after) < ACETONE_SHARE_MIN && after.acetone_mL > 0) notes.push({ kind: 'advice', text: `The titrant thinned the acetone to ${(acetoneShare(after) * 100).toFixed(0)} %: the blue was weak at the end, which comes early.` });
  if (titre.pink && titre.read_mL < TITRE_SHARE_MIN * bench.values['workup.burette_mL']) notes.push({ kind: 'advice', text: `A titre of ${titre.read_mL.toFixed(2)} mL uses under 30 % of the burette: a smaller one, or more cobalt, reads better.` });
  return notes;
}

function alkaliNotes(flask: Flask, pH: number, bench: Bench): Note[] {
  const notes: Note[] = [];
  const drop_mmol = bench.values['bench.NaOH_M'] * bench.values['workup.drop_mL'];
  const far = `Far basic: one drop of this alkali holds ${drop_mmol.toFixed(2)} mmol. Dilute it for the last drops, or take it back with acetic acid.`;
  if (pH > FAR_BASIC_PH) notes.push({ kind: 'advice', text: far });
  const cloudy = Object.values(flask.solid).some((mmol) => mmol > CLOUD_MMOL);
  if (cloudy) notes.push({ kind: 'seen', text: 'Hydroxide stands in the flask; swirl and wait, or add acetic acid, until it has dissolved.' });
  return notes;
}

function indicatorNotes(flask: Flask, pH: number): Note[] {
  const notes: Note[] = [];
  const { Co, Ni, Fe3 } = flask.amounts;
  if (pH < INDICATOR_PH[0]) notes.push({ kind: 'advice', text: `pH ${pH.toFixed(1)}: too acid, EDTA holds cobalt weakly and the end point comes late.` });
  if (pH > INDICATOR_PH[1]) notes.push({ kind: 'advice', text: `pH ${pH.toFixed(1)}: rather basic, hydroxide may still be there.` });
  if (Fe3 > OTHER_METAL_SHARE * Co) notes.push({ kind: 'seen', text: 'Iron(III) makes a red complex that hides the blue: mask it or remove it.' });
  if (Ni > OTHER_METAL_SHARE * Co) notes.push({ kind: 'advice', text: 'Nickel is here too: it takes EDTA, slowly. Wait at the end point.' });
  return notes;
}
