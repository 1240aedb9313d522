import { expect, test } from 'vitest';
import { FAULT_KINDS } from '../../../sim/terms/fault-kinds.ts';
import { facing } from '../../../src/faults/twin/facing.ts';
import { pictured } from '../../../src/faults/pictures/pictures.ts';

test('a fault with a side is looked at from that side, one without from the front', () => {
  expect(facing([])).toBe(0);
  expect(facing([{ kind: 'channel', severity: 0.5 }])).toBe(0);
  for (const kind of ['channel', 'crater'] as const) expect(facing([{ kind, side_deg: 225 }])).toBe(225);
});

test('a tilted bed is looked at from beside its low side, where the slope is seen', () => {
  expect(facing([{ kind: 'tilted-bed', side_deg: 90 }])).toBe(0);
  expect(facing([{ kind: 'tilted-bed', side_deg: 0 }])).toBe(270);
});

test('of several faults the newest with a side counts', () => {
  expect(facing([{ kind: 'crater', side_deg: 180 }, { kind: 'channel', side_deg: 90 }, { kind: 'fines' }])).toBe(90);
});

test('the pictured faults with a side are seen from the left, but for the slope, which is seen from the front', () => {
  const left = FAULT_KINDS.filter((kind) => facing([pictured(kind)]) === 90);
  expect(left).toContain('channel');
  expect(left).not.toContain('tilted-bed');
});
