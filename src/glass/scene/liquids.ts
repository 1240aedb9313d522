import type { Solution } from '../../../sim/colour/index.ts';
import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { BEAKER_FULL, BEAKER_WIDTH } from '../layout.ts';

// The clear liquids of a moment: above the bed, at the tip, in the receivers.

export interface ReceiverContent {
  readonly slot: number;
  readonly label: string;
  readonly volume_mL: number;
  readonly solution: Solution;
}

/** Nominal volumes of beakers, mL. Common laboratory sizes, recalled. */
const BEAKERS_ML = [5, 10, 25, 50, 100, 250, 400, 600, 1000, 2000, 5000];

const WATER: Solution = { HCl_M: 0, ions: {} };

export function headSolution({ ions }: Scenario, moment: Moment): Solution {
  const { head, headVolume } = moment;
  return headVolume > 0 ? solutionOf(ions, (k) => head[k] / headVolume) : WATER;
}

/** What is about to leave: the last mixing stage below the bed. */
export function tipSolution({ ions }: Scenario, { tip }: Moment): Solution {
  const stages = tip.length / (ions.length + 1);
  return solutionOf(ions, (k) => tip[(k + 1) * stages - 1]);
}

/** Every labelled receiver; those not yet under the tip are empty. */
export function receiverContents({ ions }: Scenario, moment: Moment, labels: readonly string[]): ReceiverContent[] {
  const stride = ions.length + 2;
  return labels.map((label, slot) => {
    const volume_mL = moment.receivers[slot * stride] ?? 0;
    const solution = volume_mL > 0 ? solutionOf(ions, (k) => moment.receivers[slot * stride + 1 + k] / volume_mL) : WATER;
    return { slot, label, volume_mL, solution };
  });
}

/** Nominal volume (mL) of beakers that hold all that the procedure pours, so that they stay the same during a run. */
export function beakerVolume(scenario: Scenario, moment: Moment): number {
  const poured = scenario.procedure.reduce((sum, action) => sum + (action.do === 'pour' ? action.volume_mL : 0), 0);
  const needed = Math.max(poured, moment.delivered_mL, 4);
  return BEAKERS_ML.find((volume) => volume >= needed) ?? Math.ceil(needed / 1000) * 1000;
}

/** Inner diameter (cm) of a beaker of this nominal volume with the proportions that are drawn. */
export function beakerDiameter(nominal_mL: number): number {
  return Math.cbrt((nominal_mL * 4 * BEAKER_WIDTH) / (Math.PI * BEAKER_FULL));
}

function solutionOf(ions: readonly IonId[], concentration: (component: number) => number): Solution {
  return { HCl_M: concentration(0), ions: Object.fromEntries(ions.map((ion, i) => [ion, concentration(i + 1)])) };
}
