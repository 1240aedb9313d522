import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heightTicks, rulerTicks } from '../../../src/glass/labels.ts';
import { asidePlaces, depthAt, depthUnder, depthY, layoutOf } from '../../../src/glass/layout.ts';
import { scenarioWith } from './moment.ts';

const ROOM = { width: 260, height: 660, bedTop: 140, bedBottom: 420 };
const SEED = { seed: 20261125 };
const { values } = scenarioWith();

describe('layoutOf', () => {
  test('draws bed depths straight from the top to the bottom it was given', () => {
    const layout = layoutOf(ROOM, values);
    expect(depthAt(layout, ROOM.bedTop)).toBe(0);
    expect(depthAt(layout, ROOM.bedBottom)).toBeCloseTo(values['bed.length_cm'], 12);
    expect(depthAt(layout, 280)).toBeCloseTo(values['bed.length_cm'] / 2, 12);
  });

  test('lets the top of a bed that has shrunk sink on a support, a ruler and a rim that stay, with every depth at its share', () => {
    const length = values['bed.length_cm'];
    const [packed, shrunk] = [layoutOf(ROOM, values), layoutOf(ROOM, values, 0.9 * length)];
    expect(shrunk.bedTop - packed.bedTop).toBeCloseTo(0.1 * length * packed.pxPerCm, 9);
    expect(shrunk.bedBottom).toBe(packed.bedBottom);
    expect([shrunk.rim, shrunk.break, shrunk.ruler, shrunk.pxPerCm]).toEqual([packed.rim, packed.break, packed.ruler, packed.pxPerCm]);
    expect(rulerTicks(shrunk)).toEqual(rulerTicks(packed));
    expect(heightTicks(shrunk, scenarioWith())).toEqual(heightTicks(packed, scenarioWith()));
    expect(depthAt(shrunk, shrunk.bedBottom)).toBeCloseTo(length, 9);
    expect(depthAt(shrunk, depthY(shrunk, 0.3 * length))).toBeCloseTo(0.3 * length, 9);
    expect(depthY(shrunk, 0.5 * length)).toBeCloseTo((shrunk.bedTop + shrunk.bedBottom) / 2, 9);
    expect(shrunk.above(0)).toBeCloseTo(shrunk.bedTop, 9);
    expect(shrunk.above(1)).toBeCloseTo(shrunk.bedTop - shrunk.pxPerCm, 9);
    expect(depthUnder(shrunk, shrunk.centre, packed.bedTop + 2)).toBeUndefined();
  });

  test('draws an empty tube, and one that is fuller than meant, up to the rim', () => {
    const empty = layoutOf(ROOM, values, 0);
    expect(empty.bedBottom - empty.bedTop).toBeLessThanOrEqual(1);
    expect(empty.above(3)).toBeCloseTo(empty.bedBottom - 3 * empty.pxPerCm, 9);
    expect(depthUnder(empty, empty.centre, empty.bedBottom)).toBeUndefined();
    const full = layoutOf(ROOM, values, values['column.tube_cm']);
    expect(full.bedTop).toBeCloseTo(full.rim, 6);
  });

  test('draws heights above the bed true where the tube fits', () => {
    const short = scenarioWith({ column: { tube_cm: 9 } }).values;
    const layout = layoutOf(ROOM, short);
    expect(layout.break).toBeUndefined();
    expect(layout.above(1)).toBeCloseTo(ROOM.bedTop - layout.pxPerCm, 12);
  });

  test('cuts a long tube: true heights below the cut, the rim on the drawing above it, and no surface in the cut', () => {
    const layout = layoutOf(ROOM, scenarioWith({ column: { tube_cm: 200 } }).values);
    const cut = layout.break ?? Number.NaN;
    expect(layout.rim).toBeCloseTo(10, 9);
    expect(layout.above(193)).toBeCloseTo(layout.rim, 9);
    expect(ROOM.bedTop - layout.above(1.5)).toBeCloseTo(1.5 * layout.pxPerCm, 9);
    const away = Array.from({ length: 1930 }, (_, i) => Math.abs(layout.above(i / 10) - cut));
    expect(Math.min(...away)).toBeGreaterThan(4);
  });

  test('keeps higher liquid higher, and everything below the bed in order and on the drawing, in any room', () => {
    const room = fc.record({
      width: fc.integer({ min: 120, max: 900 }),
      bedTop: fc.integer({ min: 30, max: 300 }),
      bed: fc.integer({ min: 80, max: 600 }),
      below: fc.integer({ min: 130, max: 500 }),
    });
    fc.assert(
      fc.property(room, fc.double({ min: 0, max: 12, noNaN: true }), ({ width, bedTop, bed, below }, height) => {
        const layout = layoutOf({ width, height: bedTop + bed + below, bedTop, bedBottom: bedTop + bed }, values);
        expect(layout.above(height + 0.5)).toBeLessThan(layout.above(height));
        const order = [
          layout.rim,
          bedTop,
          bedTop + bed,
          layout.outletTop,
          layout.clamp,
          layout.tip,
          layout.receiver.base - layout.receiver.height,
          layout.receiver.base,
        ];
        expect([...order].sort((a, b) => a - b)).toEqual(order);
        expect(layout.receiver.base).toBeLessThan(layout.height);
      }),
      SEED,
    );
  });

  test.each([
    { bedTop: 0, bedBottom: 0 },
    { bedTop: 200, bedBottom: 640 },
  ])('finds a place of its own where the one it was given has no room', (place) => {
    const { bedTop, bedBottom, receiver } = layoutOf({ ...ROOM, ...place }, values);
    expect(bedBottom - bedTop).toBeGreaterThan(200);
    expect(receiver.height).toBeGreaterThan(40);
  });

  test('draws the tube as wide as it is, and a slim one at most a quarter wider', () => {
    const large = layoutOf({ width: 400, height: 900, bedTop: 200, bedBottom: 620 }, values);
    expect(large.widening).toBe(1);
    expect(2 * large.radius).toBeCloseTo(large.pxPerCm * values['column.bore_cm'], 9);
    const slim = layoutOf({ width: 120, height: 380, bedTop: 95, bedBottom: 235 }, values);
    expect(slim.widening).toBeCloseTo(1.25, 9);
    expect(slim.radius).toBeCloseTo((slim.widening * slim.pxPerCm * values['column.bore_cm']) / 2, 9);
  });

  test.each([
    [210, 510],
    [120, 380],
  ])('stands on a panel of %d by %d px with its ruler, and with the second receiver beside the first', (width, height) => {
    const layout = layoutOf({ width, height, bedTop: 0.25 * height, bedBottom: 0.62 * height }, values);
    expect(layout.centre - layout.radius - layout.wall).toBeGreaterThan(0);
    expect(layout.ruler.left).toBeGreaterThan(layout.centre + layout.radius + layout.wall);
    expect(layout.ruler.left + layout.ruler.width).toBeLessThan(width);
    expect(asidePlaces(layout, 1)).toHaveLength(1);
  });
});

describe('depthUnder', () => {
  test('finds the depth under the pointer, and none beside the bed', () => {
    const layout = layoutOf(ROOM, values);
    expect(depthUnder(layout, layout.centre, 280)).toBeCloseTo(3.5, 12);
    expect(depthUnder(layout, layout.centre + layout.radius + 1, 280)).toBeUndefined();
    expect(depthUnder(layout, layout.centre, 100)).toBeUndefined();
  });
});

describe('asidePlaces', () => {
  test('stand clear of the receiver and of one another and inside the drawing', () => {
    const layout = layoutOf({ ...ROOM, width: 1200 }, values);
    const places = [...asidePlaces(layout, 24), layout.receiver].sort((a, b) => a.x - b.x);
    expect(places.length).toBeGreaterThan(4);
    expect(places.length).toBeLessThan(25);
    for (let i = 1; i < places.length; i++) expect(places[i].x - places[i].radius).toBeGreaterThan(places[i - 1].x + places[i - 1].radius);
    expect(places[0].x - places[0].radius).toBeGreaterThan(0);
  });

  test('are none where there is no room', () => {
    expect(asidePlaces(layoutOf({ ...ROOM, width: 100 }, values), 3)).toEqual([]);
  });
});
