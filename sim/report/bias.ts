import { ION_IDS } from '../terms/ions.ts';
import type { Bench, Titre } from '../workup/index.ts';
import { acetoneShare, balanceIn, endPoint, type Ideal } from '../flask/index.ts';

// Why a titration finds more or less cobalt than the eluate holds. Starting from an ideal work-up the causes are switched on
// one after another in the order of the list, so the contributions add up exactly; another order would divide them differently.

export interface BiasItem {
  readonly cause: Cause;
  /** % of the cobalt in the eluate; positive finds too much. */
  readonly percent: number;
  /** The same as mL of titrant. */
  readonly mL: number;
  readonly text: string;
  /** The size depends on constants that nobody has measured: only its direction may be stated. */
  readonly illustrative: boolean;
}

export type Cause =
  | 'transfer'
  | 'flask'
  | 'pipette'
  | 'EDTA'
  | 'eye'
  | 'indicator'
  | 'acetone'
  | 'pH at the start'
  | 'pH drift'
  | 'nickel'
  | 'other metals'
  | 'solid'
  | 'drop'
  | 'overrun'
  | 'burette'
  | 'reading';

const TEXT: Readonly<Record<Cause, string>> = {
  transfer: 'a film of the eluate stayed on the receiver it was poured from',
  flask: 'the volumetric flask holds a little more or less than its mark says',
  pipette: 'the pipette delivers a little more or less than its mark says',
  EDTA: 'the molarity of the EDTA differs a little from its label',
  eye: 'the eye sees no blue any more while a little is left',
  indicator: 'thiocyanate and acetone turn only part of the free cobalt blue, so more of it is left unseen',
  acetone: 'the titrant dilutes acetone and thiocyanate, and the blue fades early',
  'pH at the start': 'at this pH EDTA binds cobalt more weakly, or more strongly, than at pH 6',
  'pH drift': 'each cobalt releases two H+ from the EDTA; with little acetate the pH falls and EDTA binds cobalt less strongly',
  nickel: 'nickel reacts with EDTA as cobalt does',
  'other metals': 'manganese, copper, zinc, iron or cadmium react with EDTA as cobalt does',
  solid: 'cobalt in undissolved hydroxide is not titrated',
  drop: 'the last portion is a whole drop, or more',
  overrun: 'titrant added after the blue had first gone: slow nickel, lumps dissolving, or one step too many',
  burette: 'the burette delivers a little more or less than it shows',
  reading: 'two burette readings',
};

/** Causes whose size depends on assumed constants for thiocyanate in acetone, on how faint a blue an eye sees, or on how fast lumps and nickel react. */
const ILLUSTRATIVE: readonly Cause[] = ['transfer', 'eye', 'indicator', 'acetone', 'pH at the start', 'pH drift', 'solid', 'overrun'];
/** The pH at which the end point is meant to be. */
const IDEAL_PH = 6;

/** The flask of one titration: its nominal share of the eluate, and the share of the receiver that was transferred into it. */
export interface Share {
  readonly held_mmol: number;
  readonly flask_mL: number;
  readonly portion_mL: number;
  readonly over: number;
}

/** Contributions of every cause to one titre, in the order in which they are switched on. */
export function biasOf(titre: Titre, { held_mmol, flask_mL, portion_mL, over }: Share, bench: Bench): BiasItem[] {
  const { apparatus, values } = bench;
  const label = values['workup.EDTA_M'];
  const perfect = (held_mmol * portion_mL) / flask_mL / label;
  const brought = perfect * over;
  const madeUp = (brought * flask_mL) / (portion_mL === flask_mL ? flask_mL : apparatus.flask(flask_mL));
  const pipetted = (titre.equivalence_mL * bench.titration.EDTA_M) / label;
  const steps: [Cause, number][] = [
    ['transfer', brought],
    ['flask', madeUp],
    ['pipette', pipetted],
    ['EDTA', titre.equivalence_mL],
    ...idealSteps(titre, bench),
    ['drop', titre.firstPink_mL ?? titre.delivered_mL],
    ['overrun', titre.delivered_mL],
    ['burette', apparatus.shown(titre.delivered_mL)],
    ['reading', titre.read_mL],
  ];
  return steps.map(([cause, mL], i) => {
    const change = mL - (i === 0 ? perfect : steps[i - 1][1]);
    return { cause, mL: change, percent: (100 * change) / perfect, text: TEXT[cause], illustrative: ILLUSTRATIVE.includes(cause) };
  });
}

function idealSteps({ before, threshold_A }: Titre, bench: Bench): [Cause, number][] {
  const titration = { ...bench.titration, threshold_A };
  const start = { acetoneShare: acetoneShare(before) };
  const others = { without: ION_IDS.filter((ion) => ion !== 'Co'), noSolid: true };
  const pH = balanceIn(before, titration.chemistry).pH;
  const steps: [Cause, Ideal][] = [
    ['eye', { ...others, ...start, pH: IDEAL_PH, allBlue: true }],
    ['indicator', { ...others, ...start, pH: IDEAL_PH }],
    ['acetone', { ...others, pH: IDEAL_PH }],
    ['pH at the start', { ...others, pH }],
    ['pH drift', others],
    ['nickel', { without: others.without.filter((ion) => ion !== 'Ni'), noSolid: true }],
    ['other metals', { noSolid: true }],
    ['solid', {}],
  ];
  return steps.map(([cause, ideal]) => [cause, endPoint(before, titration, ideal)]);
}
