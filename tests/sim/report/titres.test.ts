import { describe, expect, test } from 'vitest';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { drawn } from '../../../sim/column/drawn.ts';
import { receiverOf } from '../../../sim/flask/flask.ts';
import { sampleOf, valuesWith } from '../../../sim/report/sample.ts';
import { workUp } from '../../../sim/report/workup.ts';
import { shipped } from '../faults/seen.ts';

// A titre of 10 to 40 mL: less makes the error of reading too large, more needs a second filling. Common practice, no source.

const LEAST_ML = 10;
const MOST_ML = 40;

/** Titres of every receiver meant for cobalt, on the column and with the hands of this seed; one lane, since they depend little on lanes. */
function titresOf(id: string, seed: number): number[] {
  const meant = shipped(id);
  const scenario = drawn({ ...meant, seed, values: { ...meant.values, 'bed.lanes': 1 } });
  const run = runWhole(scenario, scenario.procedure);
  return resultsOf(run)
    .receivers.filter(({ label }) => label.startsWith('cobalt'))
    .map((receiver) => {
      const sample = sampleOf(scenario, run.log, receiver.label);
      const { titrations } = workUp(receiverOf(receiver), valuesWith(sample, scenario.values), seed, undefined, sample?.nth);
      return titrations[0]?.titre.read_mL ?? Number.NaN;
    });
}

// A lab day takes as long as three leaches, so it gets a third of the columns.
describe.each([
  ['cathode-leach', 40, 1],
  ['lab-day', 14, 3],
])('the work-up of %s, over %i columns', (id, columns, receivers) => {
  const titres = Array.from({ length: columns }, (_, i) => titresOf(id, i + 1));

  test(`has ${receivers} for each column`, () => {
    expect(titres.map(({ length }) => length)).toEqual(Array.from({ length: columns }, () => receivers));
  });

  test('needs 10 to 40 mL for each, from one filling of the burette', () => {
    const all = titres.flat();
    const burette_mL = shipped(id).values['workup.burette_mL'];
    expect(Math.min(...all)).toBeGreaterThan(LEAST_ML);
    expect(Math.max(...all)).toBeLessThan(Math.min(MOST_ML, burette_mL));
  });
});
