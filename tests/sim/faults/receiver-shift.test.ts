import { expect, test } from 'vitest';
import { planOf } from '../../../sim/class/whole.ts';
import { imposed } from '../../../sim/faults/imposed.ts';
import { SHIFT_MAX_ML } from '../../../sim/faults/log-faults.ts';
import type { ReceiverResult } from '../../../sim/history/index.ts';
import { runWhole } from '../../../sim/run/run.ts';
import type { Fault, Scenario } from '../../../sim/terms/types.ts';
import { shipped } from './seen.ts';

// A change of receiver that comes early or late where pours may be left out, so that no volume can be told without a run: the lab day.

const MOST_MS = 60_000;
const day = shipped('lab-day');
const plain: Scenario = { ...day, values: { ...day.values, 'bed.lanes': 1, 'bed.plates': 60 } };

function thirdCobalt(faults: readonly Fault[]): ReceiverResult {
  const plan = planOf(runWhole(imposed({ ...plain, faults })));
  expect(plan.events.filter(({ refused }) => refused)).toEqual([]);
  const found = plan.results.receivers.find(({ label }) => label === 'cobalt 3');
  if (!found) throw new Error('expected a receiver called cobalt 3');
  return found;
}

const amount = (receiver: ReceiverResult, of: string): number => Number(receiver[of]);

test(
  'an early receiver collects the acid that is left standing, and no less cobalt',
  () => {
    const early_mL = 0.5 * SHIFT_MAX_ML;
    const [sound, early] = [thirdCobalt([]), thirdCobalt([{ kind: 'receiver-early', severity: 0.5 }])];
    expect(amount(early, 'volume_mL') - amount(sound, 'volume_mL')).toBeCloseTo(early_mL, 1);
    expect(amount(early, 'HCl_mmol') - amount(sound, 'HCl_mmol')).toBeGreaterThan(0.9 * early_mL * 8.5);
    expect(amount(early, 'Co_mmol')).toBeGreaterThan(0.99 * amount(sound, 'Co_mmol'));
  },
  MOST_MS,
);

test(
  'a late one loses cobalt to the waste, the more the later, and saves acid',
  () => {
    const sound = thirdCobalt([]);
    const [late, later] = [0.5, 1].map((severity) => thirdCobalt([{ kind: 'receiver-late', severity }]));
    expect(amount(sound, 'volume_mL') - amount(later, 'volume_mL')).toBeCloseTo(SHIFT_MAX_ML, 1);
    expect(amount(late, 'Co_mmol')).toBeLessThan(0.98 * amount(sound, 'Co_mmol'));
    expect(amount(later, 'Co_mmol')).toBeLessThan(0.7 * amount(sound, 'Co_mmol'));
    expect(amount(late, 'HCl_mmol')).toBeLessThan(amount(sound, 'HCl_mmol') - 15);
  },
  MOST_MS,
);
