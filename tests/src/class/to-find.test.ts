import { expect, test } from 'vitest';
import { handedOutScenario } from '../../../sim/handed/index.ts';
import { faultNames, withoutFaults } from '../../../src/class/to-find.ts';
import { differences, patched } from '../../../src/store/keep/difference.ts';
import type { Json } from '../../../src/store/keep/saved.ts';
import json from '../../../scenarios/cathode-leach.json';
import { shipped } from '../store/rig.ts';

// A fault that was imposed on the bench must be named in a hand-out, and can be left out of it.

const LESSON = json as unknown as Json;
const faults = [{ kind: 'crater' }, { kind: 'channel', severity: 0.5 }];

test('faultNames() names the faults from the start and those that the procedure brings', () => {
  const procedure = [{ do: 'fault', fault: { kind: 'tilted-bed' } }, ...json.procedure];
  expect(faultNames(shipped('cathode-leach', { faults, procedure }))).toEqual(['crater', expect.stringContaining('channel'), expect.stringContaining('tilt')]);
  expect(faultNames(shipped('cathode-leach'))).toEqual([]);
});

test('withoutFaults() leaves the lesson as it is shipped, where nothing else was changed', () => {
  const procedure = [{ do: 'fault', fault: { kind: 'tilted-bed' } }, ...json.procedure] as unknown as Json;
  const spoiled = patched(LESSON, { faults: faults as unknown as Json, procedure, bed: { lanes: 3 } });
  expect(differences(LESSON, withoutFaults(spoiled, LESSON))).toEqual({ bed: { lanes: 3 } });
});

test('withoutFaults() takes away the faults of a demonstration as well', () => {
  const demonstration = patched(LESSON, { faults: [{ kind: 'crater' }] as unknown as Json });
  const read = handedOutScenario(
    { base: 'cathode-leach', differences: differences(demonstration, withoutFaults(demonstration, demonstration)) },
    demonstration,
  );
  expect(read.ok && read.scenario.faults).toEqual([]);
});
