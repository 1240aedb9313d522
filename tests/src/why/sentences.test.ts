import { describe, expect, test } from 'vitest';
import { ION_IDS } from '../../../sim/terms/ions.ts';
import { scenarioOf } from '../../sim/rig.ts';
import { fieldSentence, formSentence, motionSentence, peakSentence, percentOf, storyOf, tracesSentence } from '../../../src/why/sentences.ts';

const scenario = {
  ...scenarioOf({ plates: 100, ions: ['Co', 'Ni'] }),
  values: { ...scenarioOf({ plates: 100 }).values, 'bed.porosity': 0.38, 'resin.curve_scale': 0.63 },
};

describe('motionSentence', () => {
  // A separate program, with 0.63 kg of dry resin per litre of bed, gives 35.45 bed volumes for cobalt in 9 M at porosity 0.38: 35.45/0.38 is 93.3.
  test('says how rarely cobalt is in the liquid in 9 M, and what that makes of its speed', () => {
    expect(motionSentence(scenario, 'Co', 9).replaceAll('\u202f', ' ')).toBe(
      "At 9.0 M a cobalt(II) ion spends 1 part in 93 of its time in the liquid: the band moves at 1.1 % of the liquid's speed.",
    );
  });

  test('says that it goes with the liquid in water', () => {
    expect(motionSentence(scenario, 'Co', 0)).toBe('In water a cobalt(II) ion is in the liquid practically all the time: the band moves with the liquid.');
  });

  test('uses the right article', () => {
    expect(motionSentence({ ...scenario, ions: ['Fe3'] }, 'Fe3', 9)).toContain('an iron(III) ion');
  });
});

describe('peakSentence', () => {
  // Moore and Kraus 1952, recalled: cobalt best near 9 M, nickel never; 8.8 and 19 bed volumes at 6 and 12 M from a separate program.
  test('says why 9 M for cobalt, and that nothing holds nickel', () => {
    expect(peakSentence(scenario, 'Co')).toBe(
      'Cobalt(II) is held best at 9.4 M: 36 bed volumes until it leaves, against 0.77 at 3 M, 8.8 at 6 M, 19 at 12 M, 0.38 in water.',
    );
    expect(peakSentence(scenario, 'Ni')).toMatch(/^No strength of HCl holds nickel\(II\)/);
  });
});

describe('formSentence', () => {
  // Uchikoshi's constants with the mean activity of HCl: 2.3, 48.4 and 49.3 % at 9 M (derived by a separate program).
  test('names the main form of cobalt in 9 M and in 2 M', () => {
    expect(formSentence('Co', 9).replaceAll('\u202f', ' ')).toBe('In 9.0 M HCl the largest part of the cobalt(II) is the anion CoCl₄²⁻ (49 %).');
    expect(formSentence('Co', 2)).toContain('Co²⁺ (77');
  });

  test('says that no nickel is an anion in any acid', () => {
    for (const c of [1, 3, 6, 9, 12]) expect(formSentence('Ni', c)).toContain('none of it is an anion');
  });
});

describe('tracesSentence', () => {
  // Uchikoshi's constants: 0.54 % CoCl4 2- at 6 M, where the recalled D_v is 8.4; 49 % at 9 M.
  test('explains uptake where far from all of the ion is an anion, and only there', () => {
    expect(tracesSentence(scenario, 'Co', 6)).toContain('Few of its ions are anions');
    expect(tracesSentence(scenario, 'Co', 9).replaceAll('\u202f', ' ')).toContain('In the liquid only 49 % of its ions are anions, yet the beads hold most');
    expect([tracesSentence(scenario, 'Co', 12), tracesSentence(scenario, 'Co', 0), tracesSentence(scenario, 'Ni', 9)]).toEqual(['', '', '']);
  });
});

describe('storyOf', () => {
  test('tells for every ion what is known, disputed and fitted, without a figure', () => {
    for (const ion of ION_IDS) {
      const { known, disputed, fitted } = storyOf(ion);
      expect(`${known} ${disputed} ${fitted}`).not.toMatch(/\d\s?%/);
      expect(Math.min(known.length, disputed.length, fitted.length)).toBeGreaterThan(40);
    }
    expect(storyOf('Co').known).toContain('tetrahedron');
    expect(storyOf('Ni').known).toContain('no anion');
  });
});

describe('fieldSentence', () => {
  // Recalled octahedral site preference: 86 kJ/mol for Ni(II), 31 for Co(II).
  test('gives the loss of both for nickel', () => {
    expect(fieldSentence('Ni')).toMatch(/8 d electrons.*86 kJ\/mol.*31.*never becomes the anion/);
  });

  test('says something else for every kind of ion', () => {
    expect(fieldSentence('Cu')).toContain('flattened');
    expect(fieldSentence('Zn')).toContain('costs nothing');
    expect(new Set(ION_IDS.map(fieldSentence)).size).toBe(ION_IDS.length);
  });
});

test('percentOf tells a little from nothing and nearly all from all', () => {
  const texts = [0, 0.00005, 0.0005, 0.0107, 0.5, 0.9893, 1].map((share) => percentOf(share).replaceAll('\u202f', ' '));
  expect(texts).toEqual(['0 %', 'less than 0.01 %', '0.05 %', '1.1 %', '50 %', '98.9 %', '100 %']);
});
