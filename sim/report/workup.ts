import type { Parameters } from '../terms/fields.ts';
import { IONS } from '../terms/ions.ts';
import type { Issue } from '../terms/types.ts';
import {
  type Bench,
  benchOf,
  defaultProcedure,
  type Note,
  playWorkUp,
  type Titre,
  type WorkUpEvent,
  type WorkUpLog,
  type WorkUpState,
} from '../workup/index.ts';
import { type BiasItem, biasOf, type Share } from './bias.ts';
import { type Budget, budgetOf, type Titrated, workUpTerms } from './budget.ts';
import { type Interval, intervalOf } from './interval.ts';
import type { Receiver } from '../flask/index.ts';
import { type Summary, summaryOf } from '../statistics/index.ts';

// From what the column delivered to a cobalt molarity with its bias and uncertainty.

/** One titrated flask from first to last step. */
export interface Titration {
  readonly titre: Titre;
  /** mL of alkali that the acid and nothing else would need, and what was used. */
  readonly NaOH_predicted_mL: number;
  readonly NaOH_mL: number;
  readonly acetic_mL: number;
  /** Highest temperature over the room, K. */
  readonly warming_K: number;
  /** As the meter showed it: before the indicator, before the first drop, at the end. */
  readonly pH: { readonly indicator: number; readonly start: number; readonly end: number };
  /** mmol in the whole eluate. */
  readonly found_mmol: number;
  /** mol/L in the unknown. */
  readonly found_M: number;
  readonly bias_percent: number;
  readonly causes: readonly BiasItem[];
}

export interface WorkUp {
  /** Nominal; the eluate itself was titrated if both are the same. */
  readonly flask_mL: number;
  readonly portion_mL: number;
  readonly titrations: readonly Titration[];
  readonly NaOH_mL: number;
  /** Alkali for all the acid of the receiver. */
  readonly NaOH_whole_mL: number;
  readonly cobalt: {
    readonly held_mmol: number;
    readonly found_mmol: number;
    readonly found_M: number;
    readonly found_mg: number;
    readonly bias_percent: number;
  } | null;
  /** Of the titres, mol/L; undefined for fewer than two. */
  readonly spread_M: Summary | undefined;
  readonly budgets: readonly Budget[];
  /** Of the mean of the titrations, from the budget; undefined before there is one. */
  readonly interval: Interval | undefined;
  readonly time_min: number;
  readonly refused: readonly (Issue & { readonly entry: number })[];
  readonly notes: readonly (Note & { readonly entry: number })[];
  readonly state: WorkUpState;
}

/** Works up what a receiver holds, by a given log or the usual one. The same input gives the same figures, readings included. */
export function workUp(receiver: Receiver, values: Parameters, seed: number, procedure: WorkUpLog = defaultProcedure(receiver, values), replicate = 0): WorkUp {
  const bench = benchOf(values, seed, replicate);
  return workUpFigures(receiver, playWorkUp(receiver, procedure, bench), bench);
}

/** Figures of a work-up as it stands, for a page that plays it action by action. */
export function workUpFigures(receiver: Receiver, state: WorkUpState, bench: Bench): WorkUp {
  const { values } = bench;
  const direct = state.portion_mL === null;
  const flask_mL = direct ? 1 : (state.flask_mL ?? receiver.volume_mL);
  const portion_mL = direct ? 1 : (state.portion_mL ?? 1);
  const flasks = flaskEvents(state.events);
  const held_mmol = receiver.Co_mmol ?? 0;
  const share: Share = { held_mmol, flask_mL, portion_mL, over: 1 - (state.onGlass?.amounts.Co ?? 0) / (held_mmol || 1) };
  const titrations = state.titres.map((titre, i) => titrationOf(titre, flasks[i], receiver, share, bench));
  const found_mmol = titrations.reduce((sum, one) => sum + one.found_mmol, 0) / titrations.length;
  const titre_mL = titrations.reduce((sum, one) => sum + one.titre.read_mL, 0) / titrations.length;
  const terms = titre_mL > 0 ? workUpTerms({ titre_mL, flask_mL, portion_mL, eluate_mL: receiver.volume_mL, rinsed: rinsedIn(state) }, values) : [];
  return {
    flask_mL: direct ? receiver.volume_mL : flask_mL,
    portion_mL: direct ? receiver.volume_mL : portion_mL,
    titrations,
    NaOH_mL: state.used.NaOH,
    NaOH_whole_mL: alkaliFor(receiver.HCl_mmol, values['bench.NaOH_M']),
    cobalt: titrations.length === 0 ? null : cobaltOf(held_mmol, found_mmol, values['workup.sample_mL']),
    spread_M: summaryOf(titrations.map((one) => one.found_M)),
    budgets: terms.length > 0 ? (['tolerance', 'rectangular', 'triangular'] as const).map((spread) => budgetOf(terms, spread)) : [],
    interval: terms.length > 0 ? intervalOf(found_mmol / values['workup.sample_mL'], terms, titrations.length) : undefined,
    time_min: state.time_min,
    refused: state.events.flatMap(({ entry, refused }) => (refused ? [{ ...refused, entry }] : [])),
    notes: state.events.flatMap(({ entry, notes }) => notes.map((note) => ({ ...note, entry }))),
    state,
  };
}

/** How the eluate was transferred, if it was. */
function rinsedIn({ events }: WorkUpState): Titrated['rinsed'] {
  return events.flatMap(({ action, refused }) => (action.do === 'transfer' && !refused ? [action] : []))[0];
}

function cobaltOf(held_mmol: number, found_mmol: number, sample_mL: number): WorkUp['cobalt'] {
  const bias_percent = 100 * (found_mmol / held_mmol - 1);
  return { held_mmol, found_mmol, found_M: found_mmol / sample_mL, found_mg: found_mmol * IONS.Co.molarMass, bias_percent };
}

/** mL of alkali of a molarity for mmol of acid. */
export function alkaliFor(acid_mmol: number, NaOH_M: number): number {
  return acid_mmol / NaOH_M;
}

/** Events that belong to each titrated flask. */
function flaskEvents(events: readonly WorkUpEvent[]): WorkUpEvent[][] {
  const flasks: WorkUpEvent[][] = [[]];
  for (const event of events) {
    if (event.refused) continue;
    if (event.action.do === 'portion') flasks.push([]);
    flasks[flasks.length - 1].push(event);
  }
  return flasks.filter((steps) => steps.some(({ action }) => action.do === 'add' && action.reagent === 'EDTA'));
}

function titrationOf(titre: Titre, steps: readonly WorkUpEvent[], receiver: Receiver, share: Share, bench: Bench): Titration {
  const { values, around } = bench;
  const factor = share.flask_mL / share.portion_mL;
  const found_mmol = titre.read_mL * values['workup.EDTA_M'] * factor;
  return {
    titre,
    NaOH_predicted_mL: alkaliFor(receiver.HCl_mmol / factor, values['bench.NaOH_M']),
    NaOH_mL: usedOf(steps, 'NaOH'),
    acetic_mL: usedOf(steps, 'acetic'),
    warming_K: Math.max(0, ...steps.map(({ reading }) => (reading ? reading.temperature_C - around.room_C : 0))),
    pH: { indicator: lastPH(steps, 'thiocyanate'), start: lastPH(steps, 'EDTA'), end: steps[steps.length - 1].reading?.pH ?? Number.NaN },
    found_mmol,
    found_M: found_mmol / values['workup.sample_mL'],
    bias_percent: 100 * (found_mmol / share.held_mmol - 1),
    causes: biasOf(titre, share, bench),
  };
}

function usedOf(steps: readonly WorkUpEvent[], reagent: string): number {
  return steps.reduce((sum, { action, used }) => (action.do === 'add' && action.reagent === reagent ? sum + used : sum), 0);
}

/** Last pH read before a reagent first went in. */
function lastPH(steps: readonly WorkUpEvent[], reagent: string): number {
  const first = steps.findIndex(({ action }) => action.do === 'add' && action.reagent === reagent);
  return first > 0 ? (steps[first - 1].reading?.pH ?? Number.NaN) : Number.NaN;
}
