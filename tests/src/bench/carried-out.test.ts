import { expect, test } from 'vitest';
import { isCarriedOut } from '../../../src/bench/task/carried-out.ts';
import { ColumnStore } from '../../../src/store/column-store.ts';
import type { Moment } from '../../../src/store/threads/planner.ts';
import { directThread, small } from '../store/rig.ts';

function shown({ moment }: ColumnStore): Moment {
  if (!moment) throw new Error('expected a moment');
  return moment;
}

test('a run by hand that merely plays, down into its bed as well, keeps no press of the list waiting', async () => {
  const store = new ColumnStore(directThread());
  await store.open(small());
  await store.act({ do: 'pour', liquid: 'acid', volume_mL: 5 });
  await store.act({ do: 'clamp', open_percent: 100 });
  store.play();
  expect(shown(store).flow).toBeGreaterThan(0);
  expect(isCarriedOut(store, shown(store))).toBe(false);
  while (shown(store).level_cm > 0) await store.seek(store.now + 1);
  expect(isCarriedOut(store, shown(store))).toBe(false);
});

test('a press that pours and waits is carried out until its last wait is over or it is paused', async () => {
  const store = new ColumnStore(directThread());
  await store.open(small());
  const low = { do: 'wait', until: { liquid_mm: 1 } } as const;
  await store.carryOut([{ do: 'clamp', open_percent: 100 }, { do: 'pour', liquid: 'acid', volume_mL: 5, how: 'wall' }, low]);
  expect(isCarriedOut(store, shown(store))).toBe(true);
  store.pause();
  expect(isCarriedOut(store, shown(store))).toBe(false);
  store.play();
  await store.seek(store.stopAt);
  expect(isCarriedOut(store, shown(store))).toBe(false);
});
