import { describe, expect, test } from 'vitest';
import { BAND_LEAST, bandNow } from '../../../sim/history/index.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { advance, type Run, runOf, runWhole } from '../../../sim/run/run.ts';
import type { Action, Log } from '../../../sim/terms/types.ts';
import { caseOf, clamp, pour, until } from './case.ts';

// A wash in portions that ends when the band is low enough, against the same wash by hand: what was poured, and nothing else.

const MARK_MM = 20;
const LOW = until({ liquid_mm: 1 });
const SCENARIO = caseOf({ 'bed.length_cm': 4, 'bench.start_HCl_M': 9 });
const PORTION: Action = { do: 'pour', liquid: 'acid', volume_mL: 1, unless: { ion: 'Co', above_bottom_mm: MARK_MM } };
const LOADED: Log = [clamp(100), LOW, pour('sample', 1), LOW];
const WASHES: Log = Array.from({ length: 20 }, () => [PORTION, LOW]).flat();
const AFTER: Log = [{ do: 'receiver', label: 'cobalt' }, pour('water', 2), LOW];
const LOG: Log = [...LOADED, ...WASHES, ...AFTER];

/** Height of the leading edge of the cobalt above the bottom, mm. */
function height(run: Run): number {
  const band = bandNow(resultsOf(run), 'Co');
  return band ? (run.column.length - band.leading_cm) * 10 : Number.NaN;
}

function poured(run: Run): number {
  return run.events.filter(({ action }) => action?.do === 'pour' && action.unless).length;
}

describe('a pour that hangs on a band', () => {
  const whole = runWhole(SCENARIO, LOG);
  const taken = poured(whole);

  test('is done while the leading edge is above the mark, and left out from there on', () => {
    expect(taken).toBeGreaterThan(2);
    expect(taken).toBeLessThan(20);
    const portions = (count: number): Run => runWhole(SCENARIO, [...LOADED, ...Array.from({ length: count }, () => [pour('acid', 1), LOW]).flat()]);
    expect(height(portions(taken - 1))).toBeGreaterThan(MARK_MM);
    expect(height(portions(taken))).toBeLessThanOrEqual(MARK_MM);
  });

  test('leaves a note with its entry and the figure, and nothing on the bench', () => {
    const left = whole.events.filter(({ entry, action }) => entry >= 0 && !action);
    expect(left).toHaveLength(20 - taken);
    const found = left.map(({ note }) => Number(/is ([\d.]+) mm above the bottom, and 20 mm/.exec(note ?? '')?.[1]));
    expect(found.every((mm) => mm <= MARK_MM)).toBe(true);
    expect(found[0]).toBeGreaterThan(MARK_MM - 10);
    const byHand = runWhole(SCENARIO, [...LOADED, ...Array.from({ length: taken }, () => [pour('acid', 1), LOW]).flat(), ...AFTER]);
    const [one, other] = [resultsOf(whole), resultsOf(byHand)];
    expect(one.delivered_mL).toBeCloseTo(other.delivered_mL, 9);
    expect(one.loaded).toEqual(other.loaded);
    expect(one.receivers.map(({ Co_mmol }) => Number(Co_mmol))).toEqual(other.receivers.map(({ Co_mmol }) => expect.closeTo(Number(Co_mmol), 6)));
  });

  test('is done while the bed holds no band: before the load, and when only a trace is left', () => {
    const early = runWhole(SCENARIO, [clamp(100), LOW, PORTION, LOW, ...LOADED.slice(2)]);
    expect(poured(early)).toBe(1);
    const rinsed = runWhole(SCENARIO, [...LOADED, ...Array.from({ length: 4 }, () => [pour('water', 6), LOW]).flat(), PORTION, LOW]);
    const { onBed, loaded } = resultsOf(rinsed);
    expect(Number(onBed.Co_mmol)).toBeLessThan(BAND_LEAST * Number(loaded.Co_mmol));
    expect(poured(rinsed)).toBe(1);
  });

  test('looks at the ion it names: nickel is through long before', () => {
    const nickel: Action = { ...PORTION, unless: { ion: 'Ni', above_bottom_mm: MARK_MM } } as Action;
    expect(poured(runWhole(SCENARIO, [...LOADED, nickel, LOW]))).toBe(0);
  });

  test('gives the same run in single steps, bit for bit', () => {
    const cut = runOf(SCENARIO, LOG);
    while (!advance(cut, { endOfLog: true, steps: 1 })) expect(cut.events.length).toBeLessThanOrEqual(whole.events.length);
    expect(new Uint8Array(cut.bed.buffer)).toEqual(new Uint8Array(runTo(LOG).bed.buffer));
    expect(cut.events).toEqual(whole.events);
  });
});

function runTo(log: Log): Run {
  const run = runOf(SCENARIO, log);
  advance(run, { endOfLog: true });
  return run;
}
