import { describe, expect, test } from 'vitest';
import { drawn } from '../../../sim/column/drawn.ts';
import { sectionOf } from '../../../sim/terms/geometry.ts';
import { checklistOf, isWashed, offerFor, washToByEye } from '../../../sim/teach/index.ts';
import type { Log, Scenario } from '../../../sim/terms/types.ts';
import { nextWords, washWords } from '../../../src/bench/task/next.ts';
import { type Moment, Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../../src/store/rig.ts';

// The list followed press by press, as it stands on the page by eye.

const leach = shipped('cathode-leach', { bed: { lanes: 1 } });

/** Moments after each press of what is first, until water is on. */
function pressed(scenario: Scenario): { readonly moment: Moment; readonly said: string }[] {
  const planner = new Planner(scenario);
  const moments: { moment: Moment; said: string }[] = [];
  let log: Log = [];
  for (let presses = 0; presses < 10; presses++) {
    const moment = planner.moment(planner.plan(log).logEnd.time_min);
    const washTo_mL = washToByEye(scenario, moment);
    const steps = checklistOf(scenario, moment.events, false, isWashed(scenario, moment, washTo_mL));
    moments.push({ moment, said: nextWords(scenario, moment, false, { wash: washWords(scenario, steps) }) });
    const due = steps.find(({ state }) => state === 'now');
    const offer = due && offerFor(scenario, moment, due, washTo_mL);
    if (!offer || steps.some(({ role, poured_mL }) => role === 'release' && poured_mL > 0)) break;
    log = [...log, ...offer.actions];
  }
  return moments;
}

function left_cm({ values }: Scenario, { results }: Moment): number {
  return results.bed.volume_mL / sectionOf(values) - (results.bands.Co?.leading_cm ?? Number.NaN);
}

describe('a wash by the list', () => {
  // On 2, 6 and 11 the written volume takes it to within a centimetre of the bottom.
  test.each([1, 2, 3, 6, 11])('ends with about a centimetre and a half of bed left on the column of seed %i', (seed) => {
    const scenario = drawn({ ...leach, seed });
    const washed = pressed(scenario).find(({ said }) => said.startsWith('Washed enough'));
    expect(washed && left_cm(scenario, washed.moment)).toBeGreaterThan(1.35);
    expect(washed && left_cm(scenario, washed.moment)).toBeLessThan(1.75);
  });

  test('says where to stop while it lasts, that it is enough before any water, and neither with water on the column', () => {
    const scenario = drawn({ ...leach, seed: 2 });
    const said = pressed(scenario).map((one) => one.said.replaceAll('\u202f', ' '));
    const stands_cm = (scenario.values['bed.length_cm'] - 1.5).toFixed(1);
    const [going, enough] = [`Wash until the band’s edge, where half its colour is, stands at ${stands_cm} cm, 1.5 cm above the bottom.`, 'Washed enough'];
    expect(said.filter((words) => words.startsWith(going)).length).toBeGreaterThan(1);
    expect(said.at(-2)).toContain(enough);
    expect(said.at(-1)).not.toMatch(/Wash/);
  });
});
