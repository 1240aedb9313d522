import { readScenario } from '../../../sim/input/scenario.ts';
import type { IonId, Scenario } from '../../../sim/terms/types.ts';
import { type Moment, Planner } from '../../../src/store/threads/planner.ts';
import cathodeLeach from '../../../scenarios/cathode-leach.json' with { type: 'json' };

// Moments of an invented bed, cell by cell, for what draws and describes it.

/** What one cell holds; what is left out stays as at the start. */
export interface Cell {
  readonly HCl_M?: number;
  readonly pore?: Readonly<Partial<Record<IonId, number>>>;
  readonly resin?: Readonly<Partial<Record<IonId, number>>>;
  readonly gas?: number;
  readonly resinShare?: number;
}

/** The example scenario with other parameters. */
export function scenarioWith(groups: Readonly<Record<string, Readonly<Record<string, number>>>> = {}): Scenario {
  const read = readScenario({ ...cathodeLeach, ...groups }, 'invented');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

/** The bed before anything was poured. */
export function momentAtStart(scenario: Scenario): Moment {
  return new Planner(scenario).moment(0);
}

/** The bed at the start with other cells; `cell` is asked for every one. */
export function momentWith(scenario: Scenario, cell: (lane: number, plate: number) => Cell, others: Partial<Moment> = {}): Moment {
  const start = momentAtStart(scenario);
  const plates = scenario.values['bed.plates'];
  const cells = plates * scenario.values['bed.lanes'];
  for (let at = 0; at < cells; at++) {
    const { HCl_M, pore = {}, resin = {}, gas, resinShare } = cell(Math.floor(at / plates), at % plates);
    if (HCl_M !== undefined) start.pore[at] = HCl_M;
    if (gas !== undefined) start.gas[at] = gas;
    if (resinShare !== undefined) start.resinShare[at] = resinShare;
    scenario.ions.forEach((ion, k) => {
      start.pore[(k + 1) * cells + at] = pore[ion] ?? 0;
      start.sorbed[(k + 1) * cells + at] = resin[ion] ?? 0;
    });
  }
  return { ...start, ...others };
}
