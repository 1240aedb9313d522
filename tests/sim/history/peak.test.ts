import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/input/index.ts';
import { effluentCurve, framesApart, gammaTailing, leanOf, peakShape } from '../../../sim/history/index.ts';
import { advance, type Run, runOf, runWhole } from '../../../sim/run/run.ts';
import type { Fault } from '../../../sim/terms/types.ts';
import { closeTo } from '../../exact/asserts.ts';
import { leach, procedure } from '../faults/bench.ts';

const volumes = (count: number, to: number): number[] => Array.from({ length: count }, (_, i) => ((i + 1) * to) / count);

describe('the shape of a peak', () => {
  // Exact gamma peaks (computed): w(5 %)/2f = 1.361, 1.198, 1.131, 1.089 for 10, 25, 50, 100 plates.
  test.each([
    [10, 1.361],
    [25, 1.198],
    [50, 1.131],
    [100, 1.089],
  ])('of %i plates has the tailing of plate theory, which is no fault', (N, tailing) => {
    closeTo('tailing', gammaTailing(N), tailing, { absolute: 6e-4 });
    const x = volumes(20_000, 4);
    const shape = peakShape(
      x,
      x.map((v) => Math.exp((N - 1) * Math.log(v) - N * v + N)),
    );
    closeTo('tailing read off', shape?.tailing ?? 0, tailing, { absolute: 2e-3 });
    closeTo('plates by half height', shape?.plates ?? 0, N - 1.055, { absolute: 0.05 });
    closeTo('its own gamma', shape?.gammaTailing ?? 0, shape?.tailing ?? 0, { absolute: 4e-3 });
    expect(shape?.fronts_mL).toHaveLength(1);
  });

  test('of a Gaussian is symmetric', () => {
    const x = volumes(4000, 20);
    const shape = peakShape(
      x,
      x.map((v) => Math.exp(-((v - 10) ** 2) / 2)),
    );
    closeTo('tailing', shape?.tailing ?? 0, 1, { absolute: 1e-3 });
    closeTo('asymmetry', shape?.asymmetry ?? 0, 1, { absolute: 1e-3 });
    closeTo('plates', shape?.plates ?? 0, 100, { relative: 1e-3 });
  });

  test('with a step on its front has two fronts', () => {
    const x = volumes(2000, 20);
    const step = (v: number, at: number): number => 1 / (1 + Math.exp(-(v - at) / 0.2));
    const shape = peakShape(
      x,
      x.map((v) => (0.4 * step(v, 6) + 0.6 * step(v, 10)) * (1 - step(v, 14))),
    );
    expect(shape?.fronts_mL).toHaveLength(2);
    closeTo('first', shape?.fronts_mL[0] ?? 0, 6, { absolute: 0.1 }, 'mL');
    closeTo('second', shape?.fronts_mL[1] ?? 0, 10, { absolute: 0.1 }, 'mL');
  });

  test('that has not come down says nothing of its tail', () => {
    const x = volumes(100, 10);
    expect(
      peakShape(
        x,
        x.map((v) => v),
      ),
    ).toBeUndefined();
    expect(
      peakShape(
        x,
        x.map(() => 0),
      ),
    ).toBeUndefined();
  });
});

const washed = (faults: readonly Fault[]): Run => {
  const run = runOf(leach({ 'bed.lanes': 13, 'bed.spread': 0 }, { faults }), procedure().slice(0, 15));
  advance(run, { endOfLog: true });
  return run;
};

describe('a band', () => {
  test('of a sound bed is level', () => {
    const { bed, scenario } = washed([]);
    const lean = leanOf(bed, scenario, 'Co');
    closeTo('lean', lean?.lean_cm ?? 1, 0, { absolute: 1e-6 }, 'cm');
    closeTo('ratio', lean?.leadingEdgeRatio ?? 0, 1, { absolute: 0.01 });
  });

  test.each([
    ['channel', 0.5],
    ['tilted-bed', 1],
  ] as const)('leans towards the side of a %s', (kind, severity) => {
    const { bed, scenario } = washed([{ kind, severity, side_deg: 120 }]);
    const lean = leanOf(bed, scenario, 'Co');
    expect(lean?.ahead_deg).toBe(120);
    expect(lean?.lean_cm).toBeGreaterThan(0.1);
    expect(lean?.leadingEdgeRatio).toBeGreaterThan(1.03);
  });

  test('is not there before it is loaded', () => {
    const { bed, scenario } = runOf(leach());
    expect(leanOf(bed, scenario, 'Co')).toBeUndefined();
  });
});

/** A wide, short bed of fine, even beads, where nothing but the channel bends the band. */
const EVEN = {
  column: { bore_cm: 1.4, tube_cm: 12, outlet_cm: 3 },
  bed: { length_cm: 4, plates: 57, spread: 0.05 },
  resin: { grade: '100-200 mesh, 8 % cross-linked' },
};

const THROUGH = [
  { do: 'receiver', label: 'nickel' },
  { do: 'clamp', open_percent: 100 },
  ...[
    ['acid', 6],
    ['acid', 6],
    ['sample', 1],
    ['acid', 0.5],
    ['acid', 0.5],
    ['acid', 8],
    ['acid', 8],
    ['water', 8],
    ['water', 8],
    ['water', 8],
  ].flatMap(([liquid, volume_mL]) => [
    { do: 'wait', until: { liquid_mm: 1 } },
    { do: 'pour', liquid, volume_mL },
  ]),
  { do: 'wait', until: { liquid_mm: 1 } },
];

test('a channel brings the cobalt out in more than one front, a sound bed in one', () => {
  const json = readFileSync(new URL('../../../scenarios/demo-channel.json', import.meta.url), 'utf8');
  const read = readScenario({ ...JSON.parse(json), ...EVEN, procedure: THROUGH }, 'demo-channel');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const fronts = [read.scenario, { ...read.scenario, faults: [] }].map((scenario) => {
    const { record } = runWhole(scenario);
    const { xs, ys } = effluentCurve(record, 'Co', framesApart(record, 0));
    return peakShape(xs, ys)?.fronts_mL.length;
  });
  expect(fronts[0]).toBeGreaterThan(1);
  expect(fronts[1]).toBe(1);
});
