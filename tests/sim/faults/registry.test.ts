import { describe, expect, test } from 'vitest';
import { impose, isBedFault } from '../../../sim/flaws/impose.ts';
import { imposed, withFault } from '../../../sim/faults/imposed.ts';
import { FAULT_KINDS, type FaultKind } from '../../../sim/terms/fault-kinds.ts';
import { FAULT_GROUPS, FAULTS } from '../../../sim/faults/registry.ts';
import { AT } from '../../../sim/column/bed.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { act, runOf, runWhole } from '../../../sim/run/run.ts';
import { GOLDEN, scenarioOf } from '../../golden/figures.ts';
import { leach } from './bench.ts';

describe('the table of faults', () => {
  test('has a row per kind, in eight groups, and those made by hand have a cause', () => {
    expect(Object.keys(FAULTS)).toEqual([...FAULT_KINDS]);
    expect(new Set(Object.values(FAULTS).map(({ group }) => String(group)))).toEqual(new Set(Object.keys(FAULT_GROUPS)));
    for (const group of [1, 3, 4, 6, 8]) expect(Object.values(FAULTS).some((fault) => fault.group === group && fault.cause !== undefined)).toBe(true);
    for (const [kind, { place }] of Object.entries(FAULTS)) expect(place === 'bed').toBe(isBedFault(kind as FaultKind));
  });
});

describe.each(FAULT_KINDS)('%s', (kind) => {
  const scenario = leach();
  const side = FAULTS[kind].hasSide ? { side_deg: 90 } : {};

  test('changes the run at severity 1 and nothing at severity 0', () => {
    const figures = (severity: number): unknown => {
      const given = withFault(scenario, scenario.procedure, { kind, severity, ...side });
      const results = resultsOf(runWhole(given.scenario, given.log));
      return { receivers: results.receivers, time: results.time_min };
    };
    const plain = resultsOf(runWhole(scenario));
    if (kind !== 'no-recondition') expect(figures(0)).toEqual({ receivers: plain.receivers, time: plain.time_min });
    expect(figures(1)).not.toEqual(figures(0));
  });

  test('is the same in the list of a scenario as imposed beforehand', () => {
    const fault = { kind, severity: 0.6, ...side };
    const listed = { ...scenario, faults: [fault] };
    const given = withFault(scenario, scenario.procedure, fault);
    expect(resultsOf(runWhole(listed)).receivers).toEqual(resultsOf(runWhole(given.scenario, given.log)).receivers);
    expect(imposed(imposed(listed))).toEqual(imposed(listed));
  });

  test('is imposed during a run if it is a state of the bed, refused with a reason if not', () => {
    const run = runOf(scenario);
    const refused = act(run, { do: 'fault', fault: { kind, severity: 0.5, ...side } })?.refused;
    if (isBedFault(kind)) expect(refused).toBeUndefined();
    else expect(refused).toEqual({ path: 'fault.kind', expected: 'a fault of the bed; the others are set before the first action', received: kind });
  });
});

test('carry-over is refused once time has passed', () => {
  const run = runOf(leach());
  run.bed.scalar[AT.time] = 3;
  expect(impose(run.bed, run.column, { kind: 'carry-over' })?.received).toBe('3.00 min');
});

/** Demonstrations whose fault takes cobalt from the collection, with the kind that does it. */
const WORSE: readonly (readonly [string, FaultKind])[] = [
  ['demo-channel', 'channel'],
  ['demo-dried-bed', 'uneven-packing'],
  ['demo-tilted-bed', 'tilted-bed'],
  ['demo-head-mixing', 'water-rinse'],
  ['demo-overload', 'overload'],
  ['demo-fumed-acid', 'fumed-acid'],
  ['demo-wrong-bed', 'short-bed'],
  ['demo-wrong-hands', 'receiver-late'],
  ['demo-wrong-hands', 'spill'],
];

// Common sense, no source: the worse the fault, the smaller the share of the cobalt that is collected.
test.each(WORSE)('%s: a worse %s never brings more of the cobalt into the collection', (name, kind) => {
  expect(GOLDEN).toContain(name);
  const scenario = scenarioOf(name);
  const shares = [0, 0.5, 1].map((severity) => {
    const faults = scenario.faults.map((fault) => (fault.kind === kind ? { ...fault, severity } : fault));
    const results = resultsOf(runWhole({ ...scenario, faults }));
    return Number(results.receivers.find(({ label }) => label === 'cobalt')?.Co_mmol) / Number(results.loaded.Co_mmol);
  });
  for (let n = 1; n < shares.length; n++) expect(shares[n]).toBeLessThanOrEqual(shares[n - 1] + 1e-5);
});
