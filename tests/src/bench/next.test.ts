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

const HOST = new Planner(coarse);

function at(log: Log) {
  return HOST.moment(HOST.plan(log).logEnd.time_min);
}

function said(log: Log, waits = false): string {
  return nextWords(coarse, at(log), false, { waits }).replaceAll(/[\u00a0\u202f]/g, ' ');
}

test('what can happen next begins with the air in a bed, while it is dry and after it was filled again', () => {
  expect(said([])).not.toMatch(/air|dry/);
  expect(said(DRY)).toMatch(/^The bed runs dry and draws air\. Mend it before anything else is poured\. .* mL fit/);
  expect(said(FILLED)).toMatch(/^\d\.\d mL of air is in the bed: liquid runs past it unevenly\. “Mend” drives it out\./);
  const stirred: Log = [{ do: 'clamp', open_percent: 0 }, { do: 'pour', liquid: 'acid', volume_mL: 6 }, { do: 'stir' }];
  expect(said([...FILLED, ...stirred])).not.toMatch(/ air /);
});

test('a shut clamp hides no dry bed: that is said first, and that the run waits after it', () => {
  const shut: Log = [...DRY, { do: 'clamp', open_percent: 0 }];
  for (const waits of [false, true]) expect(said(shut, waits)).toMatch(/^The bed is dry: air is between its white beads\. Mend it before you go on\. /);
  expect(said(shut, true)).toContain('The run waits meanwhile.');
  expect(said(shut)).not.toContain('Open it first');
  const filled: Log = [...FILLED, { do: 'clamp', open_percent: 0 }];
  expect(said(filled, true)).toMatch(/^\d\.\d mL of air is in the bed/);
  expect(said(filled)).toContain('Open it first');
  expect(said([{ do: 'clamp', open_percent: 0 }], true)).toMatch(/^The clamp is shut, and the run waits: open it to go on/);
});

test('through a bed with air in it liquid runs less evenly than through a sound one under as much liquid', () => {
  const unevenness = ({ velocity }: { velocity: Float64Array }) => Math.max(...velocity) / Math.min(...velocity);
  const airy = at(FILLED);
  const sound = at([
    { do: 'clamp', open_percent: 100 },
    { do: 'pour', liquid: 'acid', volume_mL: 5 },
    { do: 'wait', until: { liquid_mm: airy.level_cm * 10 } },
  ]);
  expect(sound.level_cm).toBeCloseTo(airy.level_cm, 1);
  expect(unevenness(airy)).toBeGreaterThan(1.1 * unevenness(sound));
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
