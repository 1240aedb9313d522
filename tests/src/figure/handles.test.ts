import { expect, test, vi } from 'vitest';
import { handlesOf } from '../../../sim/history/index.ts';
import { wholeRun, workedRun } from './runs.ts';

// The handle itself is an element; what is tested here is where handles stand.
vi.mock('../../../src/figure/handle.ts', () => ({}));
const { placedHandles } = await import('../../../src/figure/handles.ts');

const APART_PX = 24;

test('handles of one tier never cover each other: WCAG 2.2, 2.5.8 asks for targets of 24 px', () => {
  for (const [name, width] of [
    ['cathode-leach', 900],
    ['six-metals', 900],
    ['lab-day', 900],
    ['lab-day', 258],
    ['lab-day', 228],
  ] as const) {
    const { plan } = wholeRun(name);
    const placed = placedHandles(handlesOf(plan.log, plan.events), workedRun(name, width), undefined);
    expect(placed.length).toBeGreaterThan(4);
    for (const a of placed) for (const b of placed) if (a !== b && a.y === b.y) expect(Math.abs(a.at - b.at)).toBeGreaterThanOrEqual(APART_PX);
    // Each keeps its place in the row, and stays by the change that it stands for.
    for (const a of placed) for (const b of placed) if (a.y === b.y && a.px < b.px) expect(a.at).toBeLessThan(b.at);
    for (const { px, at } of placed) expect(Math.abs(px - at)).toBeLessThan(APART_PX / 2);
  }
});

test('what follows a change of eluent goes with it; a change of receiver goes alone', () => {
  const { plan } = wholeRun('cathode-leach');
  const handles = handlesOf(plan.log, plan.events);
  const [water, receiver] = handles.slice(-2);
  if (water?.label !== 'water' || receiver?.kind !== 'receiver') throw new Error('cathode-leach: expected water and then a receiver last');
  const moved = (held: typeof water): number[] =>
    placedHandles(handles, workedRun('cathode-leach'), { ...held, delivered_mL: held.delivered_mL - 3, handles, dropped: false })
      .slice(-2)
      .map(({ handle }) => handle.delivered_mL);
  expect(moved(water)).toEqual([water.delivered_mL - 3, receiver.delivered_mL - 3]);
  expect(moved(receiver)).toEqual([water.delivered_mL, receiver.delivered_mL - 3]);
});

test('handles after the moment shown are not placed when the forecast is hidden', () => {
  const { plan } = wholeRun('cathode-leach');
  const placed = placedHandles(handlesOf(plan.log, plan.events), workedRun('cathode-leach'), undefined, 20);
  expect(placed.every(({ handle }) => handle.delivered_mL <= 20)).toBe(true);
});
