import { describe, expect, test } from 'vitest';
import { endedAt, pourings, receivings } from '../../../src/figure/rows/stretches.ts';
import { deliveredAtEnd } from '../../../sim/history/index.ts';
import { wholeRun } from './runs.ts';

describe.each(['cathode-leach', 'six-metals', 'theory-one-lane'])('%s', (name) => {
  const { scenario, plan } = wholeRun(name);

  test('the liquids poured cover the axis from its start to the end of the run, without gaps', () => {
    const bars = pourings(scenario, plan);
    expect(bars[0]?.from_mL).toBe(0);
    expect(bars.at(-1)?.to_mL).toBe(deliveredAtEnd(plan));
    bars.slice(1).forEach((bar, i) => expect(bar.from_mL).toBe(bars[i]?.to_mL));
  });

  test('the volumes poured are those of the procedure', () => {
    const poured = scenario.procedure.reduce((sum, action) => sum + (action.do === 'pour' ? action.volume_mL : 0), 0);
    expect(pourings(scenario, plan).reduce((sum, { volume_mL }) => sum + volume_mL, 0)).toBeCloseTo(poured, 9);
  });

  test('the brackets hold what the receivers of the model hold', () => {
    const drawn = receivings(plan);
    expect(drawn.map(({ label }) => label)).toEqual(plan.results.receivers.map(({ label }) => label));
    // The drop that hangs at the tip while a receiver is changed falls into one or the other.
    drawn.forEach(({ from_mL, to_mL }, i) => expect(Math.abs(to_mL - from_mL - plan.results.receivers[i].volume_mL)).toBeLessThan(0.05));
  });
});

test('receivings(moved) changes two neighbours and nothing else', () => {
  const { plan } = wholeRun('cathode-leach');
  const entry = plan.events.findLast(({ action }) => action?.do === 'receiver')?.entry ?? -1;
  expect(receivings(plan, { entry, delivered_mL: 40 }).map(({ from_mL, to_mL }) => [from_mL, to_mL])).toEqual([
    [0, 40],
    [40, deliveredAtEnd(plan)],
  ]);
});

test('endedAt(...) cuts the stretch that is going on and drops later ones', () => {
  expect(
    endedAt(
      [
        { from_mL: 0, to_mL: 5 },
        { from_mL: 5, to_mL: 9 },
        { from_mL: 9, to_mL: 12 },
      ],
      7,
    ),
  ).toEqual([
    { from_mL: 0, to_mL: 5 },
    { from_mL: 5, to_mL: 7 },
  ]);
});
