import { describe, expect, it } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { act, type Run, runOf } from '../../../sim/run/run.ts';
import type { Action } from '../../../sim/terms/types.ts';
import { caseOf, pour } from '../run/case.ts';

// An action is done whole or leaves the state as it was, and none leaves more liquid above the bed than the tube holds.

function refusedWithoutTrace(run: Run, action: Action): void {
  run.log.length = run.bed.scalar[AT.entry];
  const before = new Uint8Array(run.bed.buffer.slice(0));
  const event = act(run, action);
  expect(event?.refused, JSON.stringify(action)).toBeDefined();
  const s = run.bed.scalar;
  const taken = s[AT.entry];
  s[AT.entry] = new Float64Array(before.buffer)[AT.entry];
  s[AT.changed] = new Float64Array(before.buffer)[AT.changed];
  expect(new Uint8Array(run.bed.buffer)).toEqual(before);
  s[AT.entry] = taken;
}

describe('a refused action', () => {
  it('leaves no trace: drying a bed under so much liquid that gas would drive it over the rim', () => {
    const run = runOf(caseOf());
    act(run, pour('water', run.column.headMax - run.bed.scalar[AT.headVolume]));
    // One cell half empty: liquid from above would sink into it before the refusal.
    run.bed.scalar[AT.uneven] = 1;
    run.bed.gas[0] = 0.5;
    run.bed.mobile[0] /= 2;
    refusedWithoutTrace(run, { do: 'fault', fault: { kind: 'dried-bed' } });
  });

  it('leaves no trace: stirring a dry bed that takes up all the liquid above it', () => {
    const run = runOf(caseOf({ 'bed.porosity': 0.6, 'bench.start_head_mm': 36 }));
    const { bed } = run;
    bed.scalar[AT.uneven] = 1;
    bed.drained.fill(bed.plates);
    bed.mobile.fill(0);
    bed.gas.fill(1);
    refusedWithoutTrace(run, { do: 'stir' });
  });

  it('leaves no trace when it is none: values that no reader has seen', () => {
    const nonsense: unknown[] = [
      { do: 'pour', liquid: 'acid', volume_mL: Number.NaN },
      { do: 'pour', liquid: 'constructor', volume_mL: 1 },
      { do: 'clamp', open_percent: Number.NaN },
      { do: 'spill', share: Number.NaN },
      { do: 'top-up', resin_mL: Number.POSITIVE_INFINITY },
      { do: 'fault', fault: { kind: 'fines', severity: -40 } },
      { do: 'fault', fault: { kind: 'fines', severity: Number.NaN } },
      { do: 'receiver', label: 'a\tb' },
      { do: 'receiver', label: '' },
      { do: 'wait', until: { elapsed_min: Number.NaN } },
      { do: 'wait', until: { more_mL: Number.POSITIVE_INFINITY } },
    ];
    // None of these has the type of an action: that is the case.
    for (const action of nonsense) refusedWithoutTrace(runOf(caseOf()), action as Action);
  });
});

describe('liquid above the bed', () => {
  it('stays below the rim when stirring, topping up, tilting, loosening or a hard pour drives liquid out of the bed', () => {
    const acts: Action[] = [
      { do: 'fault', fault: { kind: 'tilted-bed' } },
      { do: 'fault', fault: { kind: 'crater' } },
      { do: 'top-up', resin_mL: 100 },
      { do: 'fault', fault: { kind: 'loose-top' } },
      { do: 'fault', fault: { kind: 'dried-bed' } },
      { do: 'refill-from-below', liquid: 'acid', volume_mL: 1 },
      { do: 'stir' },
    ];
    for (const first of acts) {
      for (const second of acts) {
        const run = runOf(caseOf({ 'column.tube_cm': 14, 'bench.start_head_mm': 40 }));
        act(run, first);
        const room = run.column.headMax - run.bed.scalar[AT.headVolume];
        if (room > 1e-6) act(run, pour('acid', room, { how: 'bed' }));
        act(run, second);
        act(run, { do: 'stir' });
        expect(run.bed.scalar[AT.headVolume], `${JSON.stringify(first)} then ${JSON.stringify(second)}`).toBeLessThanOrEqual(run.column.headMax + 1e-9);
      }
    }
  });
});
