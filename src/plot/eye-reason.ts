import { distributionOf, isHeld, passageOf } from '../../sim/chemistry/index.ts';
import { bandAt, bandOnRuler, frameAt, inBedAt, instantAt, type Plan } from '../../sim/history/index.ts';
import { sectionOf } from '../../sim/terms/geometry.ts';
import { IONS, type IonId } from '../../sim/terms/ions.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { fixed, millilitres, significant, withUnit } from '../ui/text/format.ts';
import { firstVolume, isAtBottom } from './at-bottom.ts';

// Why a band stands where it does, in numbers of the run: how far each mL carried its leading edge.

/** Steps in which the beginning of a band is sought, mL; a slope over less than two of them is not told. */
const STEP_ML = 0.5;

export interface Reason {
  readonly why: string;
  readonly whyBrief: string;
}

/** How the leading edge moved from one delivered volume to another, or until it was at the bottom; undefined where there was no band to follow. */
export function edgeReason(scenario: Scenario, plan: Plan, ion: IonId, from_mL: number, to_mL: number): Reason | undefined {
  const stood = (mL: number): number | undefined => bandOnRuler(plan, ion, frameAt(plan, mL))?.leading_cm;
  const begun = firstVolume(from_mL, to_mL, STEP_ML, (mL) => stood(mL) !== undefined);
  if (begun === undefined) return undefined;
  const bottom = firstVolume(begun, to_mL, STEP_ML, (mL) => isAtBottom(plan, bandOnRuler(plan, ion, frameAt(plan, mL))));
  const ended = bottom ?? to_mL;
  const moved_cm = (stood(ended) ?? Number.NaN) - (stood(begun) ?? Number.NaN);
  if (!(ended - begun >= 2 * STEP_ML && moved_cm > 0)) return undefined;
  const each_cm = moved_cm / (ended - begun);
  const carried = withUnit(significant(each_cm, 2), 'cm');
  const acid = acidAtEdge(plan, ion, ended - STEP_ML);
  const { symbol, name } = IONS[ion];
  const held = isHeld(passageOf(distributionOf(scenario, ion)(acid), scenario.values['bed.porosity']));
  const liquid_cm = 1 / (sectionOf(scenario.values) * scenario.values['bed.porosity']);
  const path = `${bottom === undefined ? 'over' : 'at the bottom after'} ${millilitres(ended - begun)} its edge moved ${withUnit(fixed(moved_cm, 1), 'cm')}`;
  const because = held ? `, since most of the ${name} sits on the resin` : `, since little of the ${name} is held`;
  return {
    why: `${path}; each mL of ${withUnit(fixed(acid, 1), 'M')} acid carried it ${carried} and the liquid ${withUnit(significant(liquid_cm, 2), 'cm')}${because}`,
    whyBrief: `${carried} each mL: ${held ? 'most' : 'little'} ${symbol} is on the resin`,
  };
}

/** Acid between the beads at the leading edge, mol/L. */
function acidAtEdge(plan: Plan, ion: IonId, mL: number): number {
  const edge_cm = bandAt(plan, ion, frameAt(plan, mL))?.leading_cm ?? 0;
  return inBedAt(plan, 'HCl', instantAt(plan, mL), edge_cm);
}
