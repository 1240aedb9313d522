import { rgb } from 'culori';
import { beforeAll, describe, expect, test } from 'vitest';
import { colourWord, type Solution } from '../../../sim/colour/index.ts';
import { coneHeight, flaskDrawing } from '../../../src/workup/flask-drawing.ts';
import { curvesOf } from '../../../src/workup/curves.ts';
import type { Session } from '../../../src/store/session.ts';
import { markup } from '../markup.ts';
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

/** Colour in words of the middle of the liquid as it is drawn. */
function middleOf(solution: Solution): string {
  const drawing = flaskDrawing({ solution, volume_mL: 100, capacity_mL: 250, path_cm: 4, vessel: 'conical', solid: '', burette: 0.5 });
  const colours = [...markup(drawing).matchAll(/stop-color="?(#[0-9a-f]{6})/g)].map(([, colour = '']) => colour);
  const { r, g, b } = rgb(colours[Math.floor(colours.length / 2)]) ?? { r: 0, g: 0, b: 0 };
  return colourWord([r, g, b]);
}

describe('the word for a flask', () => {
  const hue = (word: string) => word.replace('pale ', '');

  // The whole eluate, and a quarter of it, which is as good as colourless at its end.
  test.each([1, 2])('is that of its drawing at every step of a titration, and has no blue once the eye sees none (%i)', async (titrations) => {
    const { workUp } = await collected({ workup: { titrations } });
    const { values } = workUp;
    if (!values) throw new Error('expected values');
    while (workUp.usual?.do !== 'add' || workUp.usual.reagent !== 'EDTA') workUp.actAsUsual(true);
    workUp.act({ do: 'add', reagent: 'EDTA', dose: { mL: titrations === 1 ? 14 : 3 } });
    for (let drops = 0; drops < 120 && !workUp.state?.titres.at(-1)?.pink; drops++) workUp.act({ do: 'add', reagent: 'EDTA', dose: { drops: 1 } });
    const readings = (workUp.state?.events ?? []).flatMap(({ reading }) => (reading ? [reading.appearance] : []));
    for (const { liquid, solution } of readings) {
      const [told, drawn] = [hue(liquid.replace(' with a trace of blue', '')), hue(middleOf(solution))];
      // The middle, where one looks through most, may just show what the rest does not.
      if (told !== 'colourless') expect(drawn).toBe(told);
      else expect(middleOf(solution)).toMatch(/^(colourless|pale .*)$/);
    }
    const words = readings.map(({ liquid }) => liquid);
    expect(words.at(-1)).not.toContain('blue');
    expect(words.at(-1)).toBe(titrations === 1 ? 'pale pink' : 'colourless');
    expect(words).toContain('blue');
    expect(words).toContain('pale blue');
    expect(words).toContain('colourless with a trace of blue');
    expect(words.slice(words.indexOf('blue'), -1).every((word) => word.includes('blue') || word.includes('violet'))).toBe(true);
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
