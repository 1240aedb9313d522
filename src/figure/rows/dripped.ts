import { svg, type SVGTemplateResult } from 'lit';
import { type ColourWord, colourWord, hexOf, liquidColour, type Rgb, type Solution } from '../../../sim/colour/index.ts';
import { BEGINS_SHARE, collectedAt, leavesAt, type Plan, type Solute } from '../../../sim/history/index.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import { remembered } from '../../../sim/math/remembered.ts';
import { EXAGGERATION, stainOf } from '../../plot/liquid.ts';
import { spoken } from '../../ui/text/format.ts';
import type { Drawing } from '../drawing.ts';
import type { Row } from '../layout.ts';
import type { Worded } from './labels.ts';
import { insideOf } from './predictions.ts';

export { edgeWishes } from './edge-note.ts';

// What left, as the eye sees it: portion beside portion, each in the colour that it has in a test tube before a white card.

/** Least volume of a portion, mL, about ten drops, and least width, px: choices. */
const PORTION_ML = 0.5;
const PORTION_PX = 4;
const HEIGHT_PX = 16;
const BASELINE_PX = 20;
/** Inner diameter of a test tube of 16 mm, cm; common size, recalled. */
const TUBE_CM = 1.4;
/** Concentrations that differ by less, mol/L, look alike. */
const ALIKE_M = 1e-6;
/** Colours that are kept for the next drawing; a long run has some hundreds. */
const KEPT = 2000;

export interface Portion {
  readonly from_mL: number;
  readonly to_mL: number;
  /** sRGB, channels from 0 to 1. */
  readonly colour: Rgb;
  readonly word: ColourWord;
}

/** One colour of what left, mL. */
export type Stretch = Omit<Portion, 'colour'>;

/** What was worked out for a drawing last; whole portions do not change as the run goes on. */
const kept = new WeakMap<Drawing, { readonly exaggerate: boolean; readonly portions: readonly Portion[] }>();

/** What has left up to a volume, and nothing of what is to come; the last portion may be smaller. The same array while nothing of it changes. */
export function portionsOf(drawing: Drawing, until_mL: number, exaggerate: boolean): readonly Portion[] {
  const { plan, x } = drawing;
  const last = kept.get(drawing);
  const before = last?.exaggerate === exaggerate ? last.portions : [];
  const size_mL = Math.max(PORTION_ML, x.invert(PORTION_PX) - x.invert(0));
  const portions = Array.from({ length: Math.ceil(until_mL / size_mL - 1e-9) }, (_, i): Portion => {
    const [from_mL, to_mL] = [i * size_mL, Math.min(until_mL, (i + 1) * size_mL)];
    if (before[i]?.to_mL === to_mL) return before[i];
    const colour = colourOf(meanOf(plan, from_mL, to_mL), exaggerate);
    return { from_mL, to_mL, colour, word: colourWord(colour) };
  });
  if (last && portions.length === before.length && portions.every((portion, i) => portion === before[i])) return before;
  kept.set(drawing, { exaggerate, portions });
  return portions;
}

export function drippedRow({ layout: { effluent }, x }: Drawing, portions: readonly Portion[]): SVGTemplateResult {
  const { top, bottom } = bandOf(effluent);
  const end_mL = portions.at(-1)?.to_mL ?? 0;
  return svg`<g class="dripped">${portions.map(
    ({ from_mL, to_mL, colour }) => svg`<rect x=${x(from_mL)} y=${top} width=${x(to_mL) - x(from_mL)} height=${bottom - top} fill=${hexOf(colour)}></rect>`,
  )}<rect class="around" x=${x(0)} y=${top} width=${x(end_mL) - x(0)} height=${bottom - top} fill="none"></rect></g>`;
}

/** The colours by name, for those who tell them apart less well; the newest is wanted most, which one compares with what drips, then the strongest. */
export function drippedWishes({ layout, x }: Drawing, portions: readonly Portion[]): Worded[] {
  const { effluent } = layout;
  const within = insideOf(layout, { top: effluent.top, bottom: bandOf(effluent).top });
  const coloured = stretchesOf(portions).filter(({ word }) => word !== 'colourless');
  const newest = coloured.slice(-1);
  const before = coloured.slice(0, -1);
  return [...newest, ...before.filter(({ word }) => !isPale(word)), ...before.filter(({ word }) => isPale(word))].map(({ word, from_mL, to_mL }) => ({
    texts: [word],
    places: [
      { x: x((from_mL + to_mL) / 2), y: effluent.top + BASELINE_PX, anchor: 'middle' },
      { x: x(to_mL), y: effluent.top + BASELINE_PX, anchor: 'end' },
    ],
    within,
    look: 'row-title',
  }));
}

/** The same as a sentence, for those who hear the figure. */
export function spokenDrips(portions: readonly Portion[]): string {
  const told = stretchesOf(portions).map(({ word, from_mL }) => (from_mL === 0 ? word : `${word} from ${spoken(from_mL, 'mL')}`));
  return told.length === 0 ? '' : ` What left, as it looks in a test tube: ${told.join(', ')}.`;
}

/** Whether so much of an ion has left that one sees it: what is seen is not asked. */
export function hasLeft(plan: Plan, ion: IonId, now_mL: number): boolean {
  return now_mL > (leavesAt(plan, ion, BEGINS_SHARE) ?? Number.POSITIVE_INFINITY);
}

/** Portions of one colour taken together. */
export function stretchesOf(portions: readonly Portion[]): Stretch[] {
  const found: Stretch[] = [];
  for (const { from_mL, to_mL, word } of portions) {
    const last = found.at(-1);
    if (last?.word === word) found[found.length - 1] = { ...last, to_mL };
    else found.push({ word, from_mL, to_mL });
  }
  return found;
}

function bandOf({ bottom }: Row): Row {
  return { top: bottom - HEIGHT_PX, bottom };
}

function isPale(word: ColourWord): boolean {
  return word.startsWith('pale');
}

/** Mean of what left between two volumes. */
function meanOf(plan: Plan, from_mL: number, to_mL: number): Solution {
  const mean = (solute: Solute): number => {
    const molarity_M = (collectedAt(plan, solute, to_mL) - collectedAt(plan, solute, from_mL)) / (to_mL - from_mL);
    return Math.max(0, Math.round(molarity_M / ALIKE_M) * ALIKE_M);
  };
  return { HCl_M: mean('HCl'), ions: Object.fromEntries(plan.ions.map((ion) => [ion, mean(ion)])) };
}

const colourOf = remembered(
  KEPT,
  (solution: Solution, exaggerate: boolean) => stainOf(solution, exaggerate),
  (solution, exaggerate) => liquidColour(solution, TUBE_CM, { exaggerate: exaggerate ? EXAGGERATION : 1 }),
);
