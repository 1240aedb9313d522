import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { ledgerError, liquidError } from '../../../sim/column/ledger.ts';
import { bedLengthOf } from '../../../sim/column/measure.ts';
import { hindered, richardsonZaki, settlingTime, singleSpeed } from '../../../sim/packing/settling.ts';
import { act, advance, type Run, runOf } from '../../../sim/run/run.ts';
import type { Action, FieldPath } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach, procedure } from '../faults/bench.ts';

const RESIN_ML = 4.453;

function poured(portions: readonly Partial<Extract<Action, { do: 'pack' }>>[], values: Partial<Record<FieldPath, number>> = {}): Run {
  const run = runOf(leach({ 'bench.packed': 0, 'bed.spread': 0.1, 'bench.evaporation_mm_h': 0.1, ...values }), []);
  for (const portion of portions) expect(act(run, { do: 'pack', resin_mL: RESIN_ML, ...portion })?.refused).toBeUndefined();
  return run;
}

const length = ({ bed, column }: Run): number => bedLengthOf(bed, column);

/** Spread of the lanes' flow at equal head, standard deviation over mean. */
function spread({ bed, column }: Run): number {
  const ease = Array.from(bed.drag, (drag) => 1 / drag);
  const mean = ease.reduce((sum, part, i) => sum + (part * column.lanes.area[i]) / column.section, 0);
  return Math.sqrt(ease.reduce((sum, part, i) => sum + ((part / mean - 1) ** 2 * column.lanes.area[i]) / column.section, 0));
}

describe('beads that settle', () => {
  // Stokes, d² g (rho_s - rho)/(18 mu), for 50 µm spheres 0.087 g/mL heavier than water at 20 °C: 0.0118 cm/s (arithmetic).
  test('sink one by one as Stokes says while they are small', () => closeTo('speed', singleSpeed(0.005), 0.01183, { relative: 0.02 }, 'cm/s'));

  // Worked example of the power law, read: 22.1 µm/s, 30 % solids, exponent 4.5 gives 4.44 µm/s.
  test('hinder one another by (1 - solids)^n', () => closeTo('speed', 22.1 * hindered(0.3, 4.5), 4.44, { relative: 0.002 }, 'µm/s'));

  // Richardson, on his own paper (read): n is about 4.65 where Stokes' law holds; 2.39 at high Reynolds numbers (recalled).
  test('with the exponent of Richardson and Zaki', () => {
    expect(richardsonZaki(0.01)).toBe(4.65);
    for (const [re, n] of [
      [1, 4.45],
      [500, 2.39],
    ] as const)
      closeTo('n', richardsonZaki(re), n, { relative: 0.01 });
    expect(settlingTime(10, 0.0137)).toBeGreaterThan(2 * settlingTime(10, 0.0268));
  });
});

describe('resin poured into an empty tube', () => {
  test('refuses every liquid and an open clamp until resin is in it', () => {
    const run = poured([]);
    expect(act(run, { do: 'pour', liquid: 'acid', volume_mL: 1 })?.refused?.received).toBe('an empty tube');
    expect(act(run, { do: 'clamp', open_percent: 100 })?.refused?.received).toBe('an empty tube');
    expect(act(run, { do: 'receiver', label: 'waste' })?.refused).toBeUndefined();
  });

  test('in one go and tapped is the bed that a scenario calls packed', () => {
    const [made, given] = [poured([{}]), runOf(leach({ 'bed.spread': 0.1 }), [])];
    closeTo('length', length(made), 7, { relative: 1e-3 }, 'cm');
    for (let i = 0; i < made.bed.lanes; i++) closeTo('drag', made.bed.drag[i], given.bed.drag[i], { relative: 2e-3 });
  });

  test('counts by the height of resin, and is added to until it is about 7 cm', () => {
    const run = poured([{ resin_mL: 3 }]);
    closeTo('first', length(run), 3 / run.column.section, { relative: 1e-6 }, 'cm');
    expect(run.events.some(({ note }) => note?.startsWith('resin settles in') && note.includes('4.7 cm of bed'))).toBe(true);
    act(run, { do: 'pack', resin_mL: 1.45 });
    closeTo('both', length(run), 4.45 / run.column.section, { relative: 1e-6 }, 'cm');
  });

  test('stands higher and looser untapped, less even in spoonfuls, and holds air on dry glass', () => {
    const [sound, loose, spooned, dry] = [poured([{}]), poured([{ tapped: false }]), poured([{ pour: 'spoonfuls' }]), poured([{ into: 'glass' }])];
    // Same beads: length as (1 - e) (derived).
    closeTo('length', length(loose) / length(sound), (1 - 0.38) / (1 - 0.41), { relative: 1e-9 });
    expect(loose.bed.drag[0]).toBeLessThan(sound.bed.drag[0]);
    expect(loose.bed.scalar[AT.looseTop]).toBeGreaterThan(0);
    expect(spooned.bed.drag[0]).toBeGreaterThan(sound.bed.drag[0]);
    expect(Math.max(...dry.bed.gas)).toBeGreaterThan(0.05);
    expect(Math.max(...sound.bed.gas)).toBe(0);
    expect(dry.bed.airEntry[1]).toBeLessThan(sound.bed.airEntry[1]);
    expect(spread(spooned)).toBeGreaterThan(0);
  });

  test.each([[{}], [{ pour: 'spoonfuls', tapped: false }], [{ into: 'glass' }], [{ resin_mL: 6 }]] as const)(
    'runs the whole procedure with the books closed: %o',
    (portion) => {
      const run = poured([portion]);
      run.log.push({ do: 'wait', until: { elapsed_min: 30 } }, ...procedure());
      advance(run, { endOfLog: true });
      expect(run.events.filter(({ refused }) => refused)).toEqual([]);
      expect(ledgerError(run.bed, run.column)).toBeLessThan(1e-9);
      expect(liquidError(run.bed, run.startedVolume)).toBeLessThan(1e-9);
      expect(run.bed.receivers[1]).toBeGreaterThan(0);
    },
  );

  test('is refused over the rim, with the clamp open, after a pour, and on a bed packed beforehand', () => {
    expect(act(poured([]), { do: 'pack', resin_mL: 40 })?.refused?.path).toBe('resin_mL');
    const run = poured([{}]);
    act(run, { do: 'pour', liquid: 'water', volume_mL: 0.5 });
    expect(run.events.some(({ note }) => note?.startsWith('resin was still settling'))).toBe(true);
    expect(act(run, { do: 'pack', resin_mL: 1 })?.refused?.received).toBe('a bed in use');
    expect(act(runOf(leach(), []), { do: 'pack', resin_mL: 1 })?.refused?.received).toBe('a bed packed beforehand');
  });
});
