import { oklch, rgb } from 'culori';
import { describe, expect, test } from 'vitest';
import { liquidColour } from '../../../sim/colour/liquid.ts';
import { appearanceOf } from '../../../sim/flask/appearance.ts';
import { CHEMISTRY } from '../../../sim/flask/balance.ts';
import { flaskWith } from '../workup/cases.ts';
import { colourWord } from '../../../sim/colour/words.ts';

/** cm through a 50 mL beaker seen from the side; common practice, no source. */
const BEAKER_CM = 4;
/** Absorbance below which no blue is seen; as in the flask's own tests. */
const FAINTEST_A = 0.01;

describe('a colour in words', () => {
  // CSS Color 4, named colours; values by culori.
  test.each([
    ['white', 'colourless'],
    ['hotpink', 'pink'],
    ['pink', 'pink'],
    ['red', 'red'],
    ['darkorange', 'orange'],
    ['gold', 'yellow'],
    ['limegreen', 'green'],
    ['palegreen', 'green'],
    ['darkturquoise', 'blue-green'],
    ['royalblue', 'blue'],
    ['deepskyblue', 'blue'],
    ['blueviolet', 'violet'],
  ])('calls %s %s', (name, word) => {
    const { r, g, b } = rgb(name) ?? { r: 0, g: 0, b: 0 };
    expect(colourWord([r, g, b])).toBe(word);
  });

  test('calls what is fainter pale', () => {
    const { r, g, b } = rgb('mistyrose') ?? { r: 0, g: 0, b: 0 };
    expect(oklch(rgb('mistyrose'))?.c).toBeLessThan(0.045);
    expect(colourWord([r, g, b])).toBe('pale pink');
  });
});

describe('liquids look as they are described', () => {
  const look = (HCl_M: number, ions: Readonly<Record<string, number>>) => colourWord(liquidColour({ HCl_M, ions }, BEAKER_CM, { exaggerate: 1 }));

  // Cotton and Wilkinson, Advanced Inorganic Chemistry (recalled): hexaaquacobalt(II) pink, tetrachlorocobaltate(II) blue, hexaaquanickel(II) green.
  test.each([
    ['water and acid alone', 9, {}, /^colourless$/],
    ['cobalt in water, as eluted', 0.5, { Co: 0.008 }, /^pale pink$/],
    ['more cobalt in water', 0, { Co: 0.1 }, /^pink$/],
    ['cobalt in 9 M acid', 9, { Co: 0.05 }, /^blue$/],
    ['nickel in water', 0, { Ni: 0.2 }, /green$/],
    ['nickel in 9 M acid', 9, { Ni: 0.2 }, /green$/],
    ['nickel as washed out, thin', 9, { Ni: 0.008 }, /^(pale|colourless)/],
  ] as const)('%s', (_, HCl_M, ions, word) => {
    expect(look(HCl_M, ions)).toMatch(word);
  });
});

// What the flask says of its liquid, against the colour that its drawing is filled with.
describe('the eluate in the flask', () => {
  test.each([
    [{ Cl: 2, Co: 1 }, 10],
    [{ Cl: 2, Co: 0.18 }, 10],
    [{ Cl: 2, Co: 0.18 }, 25],
    [{ Cl: 2, Co: 0.18 }, 60],
    [{ Cl: 2 }, 25],
    [{ Cl: 2, Ni: 2 }, 20],
    // Before the water has come through it is strong acid: blue, and violet or pink as it thins.
    [{ Cl: 90, Co: 0.1 }, 10],
    [{ Cl: 75, Co: 0.1 }, 10],
    [{ Cl: 66, Co: 0.2 }, 10],
    [{ Cl: 60, Co: 0.05 }, 10],
    [{ Cl: 45, Co: 0.05 }, 10],
  ])('%o mmol in %f mL is drawn in the colour that is said', (amounts, volume_mL) => {
    const { liquid, solution } = appearanceOf(flaskWith(amounts, volume_mL), CHEMISTRY, BEAKER_CM, FAINTEST_A);
    expect(liquid).toBe(colourWord(liquidColour(solution, BEAKER_CM)));
  });

  test('of iron(III) is red with thiocyanate, drawn and told, and its red hides a trace of blue', () => {
    const { liquid, solution, absorbance } = appearanceOf(
      flaskWith({ Cl: 0.2, Fe3: 0.05, SCN: 40, NH4: 40, Co: 0.001 }, 50, 25),
      CHEMISTRY,
      BEAKER_CM,
      FAINTEST_A,
    );
    expect(absorbance).toBeGreaterThan(FAINTEST_A);
    expect(liquid).toMatch(/^(red|orange)$/);
    expect(liquid).toBe(colourWord(liquidColour(solution, BEAKER_CM)));
  });
});
