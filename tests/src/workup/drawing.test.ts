import { beforeAll, describe, expect, test } from 'vitest';
import { coneHeight } from '../../../src/workup/flask-drawing.ts';
import { curvesOf } from '../../../src/workup/curves.ts';
import type { Session } from '../../../src/store/session.ts';
import { collected } from './rig.ts';

describe('liquid in the drawn cone', () => {
  // Cone of the drawing: half width 78 px at the floor, 17 px at 138 px. Volume below a height by Simpson's rule, which is
  // exact for a cone.
  const half = (y: number): number => 78 - ((78 - 17) * y) / 138;
  const below = (y: number): number => (y / 6) * (half(0) ** 2 + 4 * half(y / 2) ** 2 + half(y) ** 2);

  test.each([0, 0.1, 0.35, 0.8, 1])('stands so high that %f of the volume is below', (share) => {
    expect(below(coneHeight(share)) / below(138)).toBeCloseTo(share, 9);
  });
});

describe('the curves of a flask', () => {
  let session: Session;
  beforeAll(async () => {
    session = await collected();
  });
  const curves = () => {
    const { state, bench } = session.workUp;
    if (!state || !bench) throw new Error('expected a flask');
    return curvesOf(state, bench, (entry) => session.workUp.stateBefore(entry));
  };

  test('are none before anything is run in', () => {
    session.workUp.actAsUsual(true);
    expect(curves()).toBeUndefined();
  });

  test('show the pH rise with alkali and end at what the meter shows', () => {
    session.workUp.actAsUsual(true);
    const found = curves();
    const ys = found?.curves[0]?.ys ?? [];
    expect(ys.every((pH, i) => i === 0 || pH >= (ys[i - 1] ?? 0) - 1e-9)).toBe(true);
    // The meter is within 0.02 of the truth, lumps not yet dissolved move it a little more.
    expect(Math.abs((ys.at(-1) ?? 0) - (found?.dots[0]?.pH ?? 0))).toBeLessThan(0.1);
  });

  test('give nothing away before the end point, and all of it after', () => {
    while (session.workUp.state?.used.acetone === 0) session.workUp.actAsUsual(true);
    session.workUp.act({ do: 'add', reagent: 'EDTA', dose: { mL: 8 } });
    const under = curves();
    expect(under?.kind).toBe('titrant');
    expect(Math.max(...(under?.curves[0]?.xs ?? []))).toBeCloseTo(under?.now_mL ?? 0, 9);
    expect(under?.marks?.seen_mL).toBeUndefined();
    session.workUp.act({ do: 'add', reagent: 'EDTA', dose: { until: 'pink' } });
    const after = curves();
    expect(Math.max(...(after?.curves[0]?.xs ?? []))).toBeGreaterThan(after?.marks?.equivalence_mL ?? Number.POSITIVE_INFINITY);
    expect(after?.curves.map(({ xs }) => xs)).toEqual([after?.curves[0]?.xs, after?.curves[0]?.xs, after?.curves[0]?.xs]);
  });
});
