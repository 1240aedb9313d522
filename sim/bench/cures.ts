import { sectionOf } from '../terms/geometry.ts';
import type { Action, Scenario } from '../terms/types.ts';
import { holdsAir } from './air-told.ts';
import type { Ails } from './ails.ts';

// What hands can do for a spoilt bed, in words and as actions: what each does here is in the files beside this one.

/** The gentlest first. */
export const CURE_KINDS = ['refill-from-below', 'stir', 'top-up'] as const;
export type CureKind = (typeof CURE_KINDS)[number];

export interface Cure {
  readonly label: string;
  readonly does: string;
  readonly costs: string;
  readonly needs: string;
}

export const CURES: Readonly<Record<CureKind, Cure>> = {
  'refill-from-below': {
    label: 'Push in from below',
    does: 'Liquid rises slowly from the tip and drives the air out at the top.',
    costs: 'What is held on the beads stays where it is.',
    needs: 'Needs the clamp shut.',
  },
  stir: {
    label: 'Stir up and let it settle',
    does: 'The whole bed is packed anew: no air, no gap at the wall and no hollow are left.',
    costs: 'A loaded bed loses its bands.',
    needs: 'Needs the clamp shut and half a bed height of liquid above.',
  },
  'top-up': {
    label: 'Top up with resin',
    does: 'Fresh resin fills a hollow in the bed top.',
    costs: 'It drives no air out.',
    needs: 'Needs a hollow.',
  },
};

/** Liquid that a bed is stirred under, in bed heights; the model asks for half of one. */
const STIRRED_UNDER = 0.55;

/** What a cure does, costs and needs, in one line. */
export function cureWords(kind: CureKind): string {
  const { does, costs, needs } = CURES[kind];
  return `${does} ${costs} ${needs}`;
}

/** What of the bed's present state a cure is for; empty if nothing is. What has gone wrong is mended by the gentlest that does it. */
export function fitsNow(kind: CureKind, ails: Ails): string {
  const { dry, hollow_mL, gap } = ails;
  if (kind === 'refill-from-below') return dry ? 'the bed is dry' : holdsAir(ails) ? 'air is in the bed' : '';
  if (kind === 'stir') return gap ? 'a gap is open at the wall' : '';
  return hollow_mL > 0 ? 'the bed top is hollow' : '';
}

/** The column as a cure finds it. */
interface Found {
  readonly clampOpen: number;
  readonly level_cm: number;
  readonly ails: Pick<Ails, 'air_mL'>;
}

/** Acid poured until the bed can be stirred up under it; some of it takes the place of air. */
export function raised({ values }: Scenario, { level_cm, ails }: Found, liquid: string): Action[] {
  const missing_mL = sectionOf(values) * (STIRRED_UNDER * values['bed.length_cm'] - level_cm) + ails.air_mL;
  return missing_mL > 0 ? [{ do: 'pour', liquid, volume_mL: Number(missing_mL.toFixed(2)) }] : [];
}

/** A cure with what it needs done before it; `liquid` is poured where a bed lacks it. */
export function withNeeds(cure: Action, scenario: Scenario, found: Found, liquid: string): Action[] {
  const shut: Action[] = found.clampOpen > 0 && cure.do !== 'top-up' ? [{ do: 'clamp', open_percent: 0 }] : [];
  return [...shut, ...(cure.do === 'stir' ? raised(scenario, found, liquid) : []), cure];
}
