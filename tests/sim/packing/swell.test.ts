import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { ledgerError, liquidError } from '../../../sim/column/ledger.ts';
import { bedLengthOf } from '../../../sim/column/measure.ts';
import { swollen } from '../../../sim/column/swelling.ts';
import { CROSS_LINKINGS } from '../../../sim/terms/grades.ts';
import { advance, runOf } from '../../../sim/run/run.ts';
import type { FieldPath, Log } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach } from '../faults/bench.ts';
import { caseOf, lowest } from '../run/case.ts';

const down = { do: 'wait', until: { liquid_mm: 1 } } as const;
const open = { do: 'clamp', open_percent: 100 } as const;
const through = (liquid: string, times: number): Log => Array.from({ length: times }, () => [{ do: 'pour', liquid, volume_mL: 5 } as const, down]).flat();

function lengthAfter(values: Partial<Record<FieldPath, number>>, log: Log) {
  const run = runOf(leach(values), [open, down, ...log]);
  advance(run, { endOfLog: true });
  return { length: bedLengthOf(run.bed, run.column), run };
}

describe('a bed of resin', () => {
  test.each([0.05, 0.2])('is shorter in 9 M acid by what its resin loses, %f, and as long as before in water again', (shrinkage) => {
    const fast = { 'resin.shrinkage': shrinkage, 'bed.bead_um': 240 };
    closeTo('length in acid', lengthAfter(fast, through('acid', 6)).length, 7 * (1 - shrinkage), { relative: 1e-3 }, 'cm');
    closeTo('length in water', lengthAfter(fast, [...through('acid', 6), ...through('water', 8)]).length, 7, { relative: 1e-3 }, 'cm');
  });

  // Nelson and Michelson (read): a 4 % cross-linked sulfonic bed loses 11, 23, 32 and 40 % from water to 1, 3, 6 and 9 M HBr.
  // Another resin and acid: a bound on any strong-base resin here, and the same order: more acid, shorter bed.
  test('is shorter the stronger the acid, and never by more than 40 %', () => {
    const at = (start: number) => lengthAfter({ 'resin.shrinkage': 0.2, 'bed.bead_um': 240, 'bench.start_HCl_M': start }, through('acid', 6));
    const lengths = [0, 3, 6].map((start) => at(start).length / 7);
    // A bed packed in stronger acid has less left to lose.
    expect(lengths[1]).toBeGreaterThan(lengths[0]);
    expect(lengths[2]).toBeGreaterThan(lengths[1]);
    expect(lengths[0]).toBeGreaterThan(0.6);
  });

  // The same, read: 3.40 L of bed per kg of dry resin in water and 3.02, 2.63, 2.32, 2.0 to 2.1, 2.02 in 1, 3, 6, 9, 12 M HBr.
  test.each([
    [1, 3.02],
    [3, 2.63],
    [6, 2.32],
    [9, 2.05],
    [12, 2.02],
  ])('of either cross-linking loses no more in %d M than was read for 4 %%, and of 8 %% less than of 4 %%', (acid_M, litresPerKg) => {
    const loss = (grade: keyof typeof CROSS_LINKINGS): number => 1 - swollen(CROSS_LINKINGS[grade]['resin.shrinkage'].value, acid_M);
    expect(loss('4 % cross-linked')).toBeLessThan(1 - litresPerKg / 3.4);
    expect(loss('8 % cross-linked')).toBeLessThan(loss('4 % cross-linked'));
  });

  test('loses and gains liquid as it shrinks and swells, with the books closed', () => {
    const sample = [{ do: 'pour', liquid: 'sample', volume_mL: 1 } as const, down];
    const { run } = lengthAfter({ 'resin.shrinkage': 0.2, 'bed.bead_um': 240 }, [
      ...through('acid', 4),
      ...sample,
      ...through('acid', 2),
      ...through('water', 4),
    ]);
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
    for (let at = 0; at < run.bed.mobile.length; at++) closeTo('liquid', run.bed.mobile[at], run.bed.room[at], { relative: 1e-9 }, 'mL');
  });
});

test('a bed that stood dry in acid swells at once in water, and no cell gives more liquid than it holds', () => {
  const scenario = caseOf({ 'bed.bead_um': 300, 'bench.start_HCl_M': 9 });
  const run = runOf(scenario, [open, { do: 'wait', until: { elapsed_min: 500 } }, { do: 'pour', liquid: 'water', volume_mL: 3 }, down]);
  let least = 0;
  while (!advance(run, { endOfLog: true, steps: 1 })) least = Math.min(least, lowest(run));
  expect(run.bed.scalar[AT.drainings]).toBeGreaterThan(0);
  expect(least).toBe(0);
  expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
  expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
});

describe('a coarse bed left without liquid in the wash', () => {
  const sample = [{ do: 'pour', liquid: 'sample', volume_mL: 1 } as const, down];
  const left = (minutes: number, values: Partial<Record<FieldPath, number>> = {}) => {
    const dry: Log = [
      { do: 'wait', until: { liquid_mm: 0 } },
      { do: 'wait', until: { elapsed_min: minutes } },
    ];
    const log: Log = [
      open,
      down,
      ...through('acid', 4),
      ...sample,
      ...through('acid', 1),
      ...dry,
      ...through('acid', 4),
      { do: 'receiver', label: 'cobalt' },
      ...through('water', 4),
    ];
    const run = runOf(leach({ 'bed.bead_um': 268, 'bed.air_creep_min': 60, 'bench.evaporation_mm_h': 0.1, ...values }), log);
    advance(run, { endOfLog: true });
    const gas = run.events.flatMap(({ note }) => (note?.startsWith('gas stays in') ? [Number.parseFloat(note.slice(13))] : []));
    return { run, gas: gas[0] ?? 0, lost: run.bed.receivers[1 + 1] / run.bed.pouredAmount[1], time: run.bed.scalar[AT.time] - minutes };
  };

  test('keeps more gas, drips slower and loses more cobalt the longer it stands, and says so', () => {
    const [short, long, longest] = [2, 20, 120].map((minutes) => left(minutes));
    expect(long.gas).toBeGreaterThan(short.gas + 1);
    expect(longest.gas).toBeGreaterThan(long.gas + 1);
    expect(long.time).toBeGreaterThan(short.time);
    // Once its wall has cracked it no longer drips slower: liquid runs past the beads.
    expect(Math.max(...longest.run.bed.crack)).toBeGreaterThan(Math.max(...long.run.bed.crack));
    expect(longest.lost).toBeGreaterThan(long.lost);
    expect(longest.lost).toBeGreaterThan(2 * left(0).lost);
    for (const { run } of [short, long, longest]) {
      expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
      expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
    }
  });

  test('of fine beads holds its liquid and says by how much', () => {
    const { run } = left(20, { 'bed.bead_um': 125 });
    expect(run.events.some(({ note }) => note?.includes('and the beads hold it'))).toBe(true);
    expect(run.events.some(({ note }) => note?.startsWith('air enters'))).toBe(false);
  });

  test.each([
    [3, 6.1],
    [9, 9],
  ])('of %d M acid dries for a day without getting stronger than %d M: HCl and water boil together at 6.1 M', (stored_M, most_M) => {
    // Azeotrope 20.2 % by mass, 1.096 g/mL (handbook, recalled).
    const run = runOf(leach({ 'bed.bead_um': 268, 'bench.evaporation_mm_h': 1, 'bench.start_HCl_M': stored_M }), [
      { do: 'clamp', open_percent: 100 },
      { do: 'wait', until: { elapsed_min: 1440 } },
    ]);
    advance(run, { endOfLog: true });
    expect(run.bed.scalar[AT.evaporated]).toBeGreaterThan(0.1);
    expect(Math.max(...run.bed.pore, ...run.bed.still)).toBeLessThan(most_M * (1 + 1e-9));
    expect(Math.max(...run.bed.pore, ...run.bed.still)).toBeGreaterThan(most_M * 0.99);
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
    expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
  });

  test('loses water to the air at the stated rate', () => {
    // 0.5 mm/h over 0.636 cm² for 20 min: 0.0106 mL (arithmetic).
    const { run } = left(20, { 'bed.bead_um': 125, 'bench.evaporation_mm_h': 0.5 });
    closeTo('dried off', run.bed.scalar[AT.evaporated], 0.0106, { relative: 0.02 }, 'mL');
    expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
  });
});
