import { expect, test } from 'vitest';
import type { Action } from '../../../sim/terms/types.ts';
import { eyePredictions } from '../../../src/bench/eye-predictions.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from '../store/memory.ts';
import { directThread } from '../store/rig.ts';

const LOG: Action[] = [{ do: 'receiver', label: 'nickel' }];

test('a mark set by eye is told in the run it was made in and in no other; a newer one takes its place', async () => {
  const session = new Session(directThread(), memory(), 'a');
  await session.start(undefined);
  await session.openRun({ base: 'cathode-leach', differences: { bed: { plates: 10, lanes: 1 } }, seed: 3, log: LOG });
  const labels = () => eyePredictions(session).map(({ label }) => label);
  session.markByEye({ mL: 12, depth_cm: 4 });
  session.markByEye({ mL: 14, depth_cm: 5 });
  session.markByEye({ mL: 40 });
  expect(labels()).toEqual(['you: 5.0 cm', expect.stringMatching(/^you: 40\.0/) as string]);
  await session.store.act({ do: 'clamp', open_percent: 100 });
  expect(labels()).toHaveLength(2);
  await session.freshColumn(17);
  expect(labels()).toEqual([]);
  await session.goBack();
  expect(labels()).toHaveLength(2);
});
