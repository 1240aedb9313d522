import { describe, expect, it } from 'vitest';
import { advance, runOf } from '../../../sim/run/run.ts';
import type { Action, Scenario } from '../../../sim/terms/types.ts';
import { caseOf, clamp, lowest, pour, until } from '../run/case.ts';

// Rounding below zero: cases in which one place of a step alone keeps an amount from it.

const sampleOf = (HCl_M: number): Scenario['liquids'] => ({
  acid: { label: 'acid', HCl_M, ions: {} },
  sample: { label: 'sample', HCl_M, ions: { Co: 1e-12 } },
  water: { label: 'water', HCl_M: 0, ions: {} },
});

/** Least amount at any time of a run: what is negative for a moment may be gone at the end. */
function leastOf(scenario: Scenario, log: readonly Action[]): number {
  const run = runOf(scenario, log);
  let least = lowest(run);
  while (!advance(run, { endOfLog: true, steps: 5 })) least = Math.min(least, lowest(run));
  return Math.min(least, lowest(run));
}

/** Least number above zero that a processor adds and multiplies at full speed (IEEE 754, binary64): 2^-1022. */
const LEAST_NORMAL = 2 ** -1022;

describe('an amount', () => {
  it('is never so small that it slows the processor', () => {
    const liquids = { ...sampleOf(9), sample: { label: 'sample', HCl_M: 9, ions: { Co: 1e-306 } } };
    const run = runOf(caseOf({}, { ions: ['Co'], liquids }), [clamp(100), pour('sample', 1), until({ more_mL: 1 }), pour('water', 3), until({ more_mL: 3 })]);
    const { bed } = run;
    let slow = 0;
    for (let ended = false; !ended; ) {
      ended = advance(run, { endOfLog: true, steps: 5 });
      // Into the first cell of a lane what is poured may have just been stirred.
      const inside = (i: number): boolean => i % bed.plates > 0;
      for (const array of [bed.pore, bed.sorbed]) slow += array.filter((value, i) => inside(i) && value > 0 && value < LEAST_NORMAL).length;
    }
    expect(slow).toBe(0);
  });

  it('stays a number where the beads and the liquid of a cell hold no acid at all', () => {
    const log: Action[] = [
      clamp(100),
      pour('acid', 6),
      pour('acid', Number.MIN_VALUE, { hold_level: true }),
      { do: 'fault', fault: { kind: 'channel' } },
      until({ more_mL: 0.1 }),
      pour('acid', 0.1),
    ];
    expect(leastOf(caseOf({ 'bed.bead_um': 30 }, { ions: ['Co'], liquids: sampleOf(0) }), log)).toBe(0);
  });

  it('stays above zero where the last of the liquid above the bed goes in', () => {
    const scenario = caseOf({ 'column.tip_mL': 0.02, 'numerics.courant': 0.3 }, { ions: ['Co'], liquids: sampleOf(1e-3) });
    const log = [clamp(100), until({ more_mL: 6 }), pour('water', 0.5), pour('sample', 1e-3), until({ more_mL: 1 }), until({ elapsed_min: 0.5 })];
    expect(leastOf(scenario, log)).toBe(0);
  });
});
