import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { IonId } from '../../../sim/terms/ions.ts';
import { readLog } from '../../../sim/input/log.ts';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { findSequence, type Progress } from '../../../sim/sequence/sequence.ts';
import type { Scenario } from '../../../sim/terms/types.ts';

const GOAL = { purity: 0.99, recovered: 0.99 };

function shipped(id: string): Scenario {
  const read = parseScenario(readFileSync(`scenarios/${id}.json`, 'utf8'), id);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

/** The column of a scenario with another sample. */
function withSample(scenario: Scenario, ions: readonly IonId[], curves: Scenario['curves'] = {}): Scenario {
  const sample = { label: 'mixed chlorides in 9 M HCl', HCl_M: 9, ions: Object.fromEntries(ions.map((ion) => [ion, 0.05])) };
  return { ...scenario, ions, curves, liquids: { sample }, procedure: [{ do: 'pour', liquid: 'sample', volume_mL: 0.5 }] };
}

describe('findSequence, six metals', () => {
  const six = shipped('six-metals');
  const seen: Progress[] = [];
  const found = findSequence(six, GOAL, (progress) => seen.push(progress));

  // Kraus and Moore, J. Am. Chem. Soc. 75 (1953) 1460, recalled: Ni 12 M, Mn 6, Co 4, Cu 2.5, Fe(III) 0.5, Zn 0.005.
  test('lands on the published order with falling acid', () => {
    expect(found?.steps.map(({ ions }) => ions)).toEqual([['Ni'], ['Mn'], ['Co'], ['Cu'], ['Fe3'], ['Zn']]);
    const acids = found?.steps.map(({ HCl_M }) => HCl_M) ?? [];
    expect(acids).toEqual([...acids].sort((a, b) => b - a));
    const published = [12, 6, 4, 2.5, 0.5, 0.005];
    acids.forEach((acid, i) => expect(Math.abs(Math.log10(acid / published[i]))).toBeLessThan(0.31));
  });

  test('puts every metal into its own receiver as pure and whole as asked', () => {
    expect(found?.parted).toBe(true);
    for (const step of found?.steps ?? []) {
      expect(step.purity).toBeGreaterThanOrEqual(GOAL.purity);
      expect(step.recovered).toBeGreaterThanOrEqual(GOAL.recovered);
      expect(step.recovered).toBeLessThanOrEqual(1 + 1e-9);
    }
  });

  test('writes a log that the bench reads, with its liquids', () => {
    const read = readLog(found?.log ?? [], { ...six, liquids: found?.liquids ?? {} });
    expect(read.ok).toBe(true);
  });

  test('tells how far it is', () => {
    expect(seen.length).toBe(found?.trials);
    expect(seen.at(-1)?.placed.flat()).toEqual(['Ni', 'Mn', 'Co', 'Cu', 'Fe3']);
  });
});

describe('findSequence', () => {
  const column = shipped('cathode-leach');

  test('parts nickel from cobalt in two steps, nickel in strong acid', () => {
    const found = findSequence(column, GOAL);
    expect(found?.parted).toBe(true);
    expect(found?.steps.map(({ ions }) => ions)).toEqual([['Ni'], ['Co']]);
    expect(found?.steps[0].HCl_M).toBeGreaterThanOrEqual(8);
    expect(found?.steps[1].HCl_M).toBeLessThanOrEqual(0.01);
  });

  test('says that manganese and iron(II) stay together, and by how little they differ', () => {
    const found = findSequence(withSample(column, ['Mn', 'Fe2']), GOAL);
    expect(found?.parted).toBe(false);
    expect(found?.steps.map(({ ions }) => [...ions].sort())).toEqual([['Fe2', 'Mn']]);
    expect(found?.together).toHaveLength(1);
    expect(found?.together[0].ratio).toBeLessThan(2);
    expect(found?.together[0].platesNeeded).toBeGreaterThan(column.values['bed.plates']);
  });

  test('says of two metals with the same curve that the ratio is 1', () => {
    const curve = [
      [1, 0.1],
      [6, 8],
      [9, 30],
      [12, 20],
    ] as const;
    const found = findSequence(withSample(column, ['Co', 'Mn'], { Co: curve, Mn: curve }), GOAL);
    expect(found?.parted).toBe(false);
    expect(found?.together[0].ratio).toBeCloseTo(1, 9);
  });

  test('still parts the rest from a pair that stays together', () => {
    const found = findSequence(withSample(column, ['Zn', 'Mn', 'Fe2']), GOAL);
    expect(found?.steps.map(({ ions }) => [...ions].sort())).toEqual([['Fe2', 'Mn'], ['Zn']]);
    expect(found?.steps.every(({ purity }) => purity >= GOAL.purity)).toBe(true);
  });

  test('is undefined when no liquid holds a metal', () => {
    expect(findSequence({ ...column, liquids: { water: { label: 'water', HCl_M: 0, ions: {} } }, procedure: [] }, GOAL)).toBeUndefined();
  });

  test('gives the same programme every time', () => {
    expect(findSequence(column, GOAL)).toEqual(findSequence(column, GOAL));
  });
});
