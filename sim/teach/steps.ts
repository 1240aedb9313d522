import { isSample, isWeaker } from '../history/index.ts';
import { sum } from '../math/sum.ts';
import type { Action, Scenario, Unless } from '../terms/types.ts';

// The procedure of a scenario as a list of steps with a role each.

export type Role = 'condition' | 'load' | 'wash' | 'release' | 'change' | 'stop';

export interface PlannedStep {
  readonly role: Role;
  /** Bottle of a pour, else empty. */
  readonly liquid: string;
  /** Receiver that is put under the tip, else empty. */
  readonly label: string;
  readonly planned_mL: number;
  /** Part of `planned_mL` that the procedure adds in small portions after a sample, to wash it in. */
  readonly rinses_mL: readonly number[];
  /** mL of the step after which the procedure looks where the band stands before it pours more. */
  readonly looks_mL: readonly number[];
  /** What it looks for; absent where it does not look. */
  readonly unless?: Unless | undefined;
  /** mL that the procedure lets run before it changes the receiver while this drips; absent where it does not. */
  readonly runs_mL?: number | undefined;
}

type Pour = Extract<Action, { do: 'pour' }>;

export function plannedSteps(scenario: Scenario): PlannedStep[] {
  const steps: PlannedStep[] = [];
  const waiting: PlannedStep[] = [];
  const lastLoad = scenario.procedure.findLastIndex((action) => action.do === 'pour' && isSample(scenario.liquids[action.liquid]));
  let sample: Pour | undefined;
  let run_mL = 0;
  for (const [at, action] of scenario.procedure.entries()) {
    if (action.do === 'wait') run_mL += 'more_mL' in action.until ? action.until.more_mL : Number.NaN;
    const last = steps.at(-1);
    if (action.do === 'receiver' && last) {
      waiting.push(plain('change', action.label));
      if (last.role === 'release' && run_mL > 0) steps[steps.length - 1] = { ...last, runs_mL: last.runs_mL ?? run_mL };
    }
    if (action.do !== 'pour') continue;
    run_mL = 0;
    // Strong acid after the water makes the bed ready for the sample that is still to come.
    if (last?.role === 'release' && at < lastLoad && roleOf(scenario, action, sample) === 'wash') sample = undefined;
    const role = roleOf(scenario, action, sample);
    if (last && last.liquid === action.liquid && last.role === role) steps[steps.length - 1] = longer(last, action, sample);
    else {
      steps.push(...waiting.splice(0));
      steps.push(longer({ ...plain(role, ''), liquid: action.liquid }, action, sample));
    }
    if (role === 'load') sample = action;
  }
  return steps.length === 0 ? [] : [...steps, ...waiting, plain('stop', '')];
}

function plain(role: Role, label: string): PlannedStep {
  return { role, label, liquid: '', planned_mL: 0, rinses_mL: [], looks_mL: [] };
}

/** Portions no larger than the sample, right after it, wash it in. */
function longer(step: PlannedStep, { volume_mL, unless }: Pour, sample: Pour | undefined): PlannedStep {
  const { planned_mL, rinses_mL, looks_mL } = step;
  const rinse = step.role === 'wash' && sample !== undefined && volume_mL <= sample.volume_mL && sum(rinses_mL) >= planned_mL;
  return {
    ...step,
    planned_mL: planned_mL + volume_mL,
    rinses_mL: rinse ? [...rinses_mL, volume_mL] : rinses_mL,
    ...(unless ? { looks_mL: [...looks_mL, planned_mL], unless } : {}),
  };
}

function roleOf({ liquids }: Scenario, { liquid }: Pour, sample: Pour | undefined): Role {
  if (isSample(liquids[liquid])) return 'load';
  if (!sample) return 'condition';
  return isWeaker(liquids[liquid], liquids[sample.liquid].HCl_M) ? 'release' : 'wash';
}
