import { effect } from '@preact/signals-core';
import { expect, test } from 'vitest';
import { hearPointing, Pointing } from '../../../src/store/pointing.ts';
import { Session } from '../../../src/store/session.ts';
import { memory } from './memory.ts';
import { directThread } from './rig.ts';

function place(kind: string, detail: unknown): Event {
  return new CustomEvent(kind, { detail });
}

test('a depth pointed at in the glass and a place in the figure are kept, and told once each', () => {
  const root = new EventTarget();
  const pointing = new Pointing();
  let told = 0;
  effect(() => {
    if (pointing.depth_cm !== undefined) told += 1;
  });
  hearPointing(root, pointing);
  root.dispatchEvent(place('bf-depth', { depth_cm: 2 }));
  root.dispatchEvent(place('bf-depth', { depth_cm: 2 }));
  root.dispatchEvent(place('bf-point', { depth_cm: 3, delivered_mL: 40 }));
  expect([pointing.depth_cm, pointing.delivered_mL, told]).toEqual([3, 40, 2]);
});

test('a place pointed at on one column is not marked on the next', async () => {
  const session = new Session(directThread(), memory(), 'a');
  await session.start(undefined);
  session.pointing.point({ depth_cm: 4, delivered_mL: 30 });
  await session.store.act({ do: 'clamp', open_percent: 100 });
  expect(session.pointing.depth_cm).toBe(4);
  await session.freshColumn(17);
  expect([session.pointing.depth_cm, session.pointing.delivered_mL]).toEqual([undefined, undefined]);
});

test('a pointer that leaves changes nothing', () => {
  const root = new EventTarget();
  const pointing = new Pointing();
  hearPointing(root, pointing);
  pointing.point({ depth_cm: 1 });
  root.dispatchEvent(place('bf-depth', { depth_cm: undefined }));
  root.dispatchEvent(place('bf-point', undefined));
  expect(pointing.depth_cm).toBe(1);
});
