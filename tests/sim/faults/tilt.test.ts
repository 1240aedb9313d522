import { describe, expect, test } from 'vitest';
import { AT } from '../../../sim/column/bed.ts';
import { laneLengths, TILT_MAX_DEG } from '../../../sim/flaws/tilt.ts';
import { flowInto } from '../../../sim/flow/hydraulics.ts';
import { runOf } from '../../../sim/run/run.ts';
import vectors from '../../data/transport-vectors.json';
import { closeTo } from '../../exact/asserts.ts';
import { slopedTop } from '../../exact/hydraulics.ts';
import { heldAmount, leach, resinVolume } from './bench.ts';

describe('a bed with a sloping top', () => {
  // Lane lengths L -+ (D/2) tan a; with a common head u ~ 1/L, so the transit time goes as L² (derived).
  test.each(vectors.test_vectors.sloped_top.rows)(
    'of $angle_deg° and $L cm is crossed in times as the squares of its lengths',
    ({ angle_deg, L, D, short, long, t_ratio }) => {
      const side_deg = 90;
      const scenario = leach({ 'bed.length_cm': L, 'column.bore_cm': D, 'bed.lanes': 13, 'bed.spread': 0, 'bench.start_head_mm': 30 });
      const run = runOf({ ...scenario, faults: [{ kind: 'tilted-bed', severity: angle_deg / TILT_MAX_DEG, side_deg }] });
      const { bed, column } = run;
      bed.scalar[AT.clampOpen] = 1;
      flowInto(bed, column, 3);
      const time = (lane: number): number => (bed.room[lane * bed.plates] * bed.plates) / (bed.velocity[lane] * column.lanes.area[lane]);
      const ahead = 1 + column.lanes.angleDeg.slice(1).indexOf(side_deg);
      const behind = 1 + column.lanes.angleDeg.slice(1).indexOf(side_deg + 180);
      const [a, b] = [ahead, behind].map((lane) => laneLengths(column, angle_deg, side_deg)[lane] * L);
      closeTo('time over time', time(behind) / time(ahead), (b / a) ** 2, { relative: 1e-9 });
      // Sectors have their middle inside the wall, so their lengths lie between the outermost ones of the vectors.
      expect(a).toBeGreaterThan(short);
      expect(b).toBeLessThan(long);
      const share = (b - a) / (long - short);
      expect(share).toBeGreaterThan(0.7);
      closeTo('outermost', slopedTop(angle_deg, L, D).ratio, t_ratio, { relative: 1e-9 });
    },
  );

  test('holds the resin, acid and liquid of the level bed', () => {
    const level = runOf(leach({ 'bench.start_HCl_M': 9 }));
    const tilted = runOf({ ...leach({ 'bench.start_HCl_M': 9 }), faults: [{ kind: 'tilted-bed', severity: 1, side_deg: 200 }] });
    closeTo('resin', resinVolume(tilted), resinVolume(level), { relative: 1e-12 }, 'mL');
    closeTo('acid', heldAmount(tilted, 0), heldAmount(level, 0), { relative: 1e-12 }, 'mmol');
    closeTo('liquid', tilted.startedVolume, level.startedVolume, { relative: 1e-12 }, 'mL');
  });
});
