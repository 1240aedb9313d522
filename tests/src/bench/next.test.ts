import { expect, test } from 'vitest';
import type { Log } from '../../../sim/terms/types.ts';
import { collectedIn, nextWords, underWayWords } from '../../../src/bench/task/next.ts';
import { Planner } from '../../../src/store/threads/planner.ts';
import { shipped } from '../store/rig.ts';

// A coarse bed lets air in once the liquid has sunk into it; the usual one holds it.
const coarse = shipped('cathode-leach', { bed: { lanes: 3, bead_um: 300 } });
const DRY: Log = [
  { do: 'clamp', open_percent: 100 },
  { do: 'wait', until: { elapsed_min: 30 } },
];
const FILLED: Log = [...DRY, { do: 'pour', liquid: 'acid', volume_mL: 5 }, { do: 'wait', until: { elapsed_min: 1 } }];

function said(log: Log): string {
  const planner = new Planner(coarse);
  return nextWords(coarse, planner.moment(planner.plan(log).logEnd.time_min), false).replaceAll(/[\u00a0\u202f]/g, ' ');
}

test('what can happen next begins with the air in a bed, while it is dry and after it was filled again', () => {
  expect(said([])).not.toMatch(/air|dry/);
  expect(said(DRY)).toMatch(/^The bed has run dry at the top, and air is between its white beads: pour at once\. .* mL fit/);
  expect(said(FILLED)).toMatch(/^Air has stayed in the bed \(white beads\)/);
  const stirred: Log = [{ do: 'clamp', open_percent: 0 }, { do: 'pour', liquid: 'acid', volume_mL: 6 }, { do: 'stir' }];
  expect(said([...FILLED, ...stirred])).not.toMatch(/[Aa]ir has/);
});

test('of a day the receiver that holds an aliquot is named once the next is in hand, and a single run has none to name', () => {
  const day = shipped('lab-day', { bed: { lanes: 1 } });
  const labels = day.procedure.flatMap((action) => (action.do === 'receiver' && action.label.startsWith('cobalt') ? [action.label] : []));
  expect(labels).toHaveLength(3);
  for (const [i, label] of labels.entries()) expect(collectedIn(day, i + 1)?.text).toContain(`Aliquot ${i + 1} is in “${label}”`);
  expect(collectedIn(day, 4)).toBeUndefined();
});

test('a press that waits tells what is left of the press before, whatever the liquid above the bed does', () => {
  const pour = { do: 'pour', liquid: 'acid', volume_mL: 2 } as const;
  const low = { do: 'wait', until: { liquid_mm: 1 } } as const;
  const words = (rest: Log) => underWayWords(coarse, rest).replaceAll(/[\u00a0\u202f]/g, ' ');
  expect(words([low, pour, low])).toBe('On its way: sinks to 1 mm, then 2 mL 9 M HCl…');
  expect(words([low])).toBe('On its way: sinks to 1 mm…');
  expect(words([{ do: 'wait', until: { more_mL: 1.5 } }])).toBe('On its way: 1.5 mL run through…');
  expect(words([])).toBe('On its way…');

  // As the planner tells it: in the middle of the first of two portions.
  const log: Log = [{ do: 'clamp', open_percent: 100 }, pour, low, pour, low];
  const planner = new Planner(coarse);
  const { logEnd } = planner.plan(log);
  const { entry } = planner.moment(logEnd.time_min / 4);
  expect(words(log.slice(entry))).toBe('On its way: sinks to 1 mm, then 2 mL 9 M HCl…');
});
