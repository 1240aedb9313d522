import { area, line, symbol, symbolCircle, symbolCross, symbolDiamond, symbolSquare, symbolStar, symbolTriangle } from 'd3-shape';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MARKERS } from '../../../src/plot/line.ts';
import { areaPath, circlePath, curvePath, type Place } from '../../../src/plot/path.ts';

// Judge: d3-shape, a general-purpose library.

const coordinate = fc.oneof({ weight: 6, arbitrary: fc.double({ min: -500, max: 500, noNaN: true }) }, fc.constantFrom(0, 12.345, Number.NaN));
const places = fc.array(fc.tuple(coordinate, coordinate), { maxLength: 12 });
const isThere = ([x, y]: Place): boolean => Number.isFinite(x) && Number.isFinite(y);

test('curvePath(...) writes what d3 writes, gaps and lone places included', () => {
  fc.assert(
    fc.property(places, (all) => {
      const judge = line<Place>()
        .digits(2)
        .defined(isThere)
        .x(([x]) => x)
        .y(([, y]) => y);
      expect(curvePath(all)).toBe(judge(all) ?? '');
    }),
    { seed: 20_260_827 },
  );
});

test('areaPath(...) writes what d3 writes', () => {
  fc.assert(
    fc.property(places, coordinate, (all, base) => {
      const judge = area<Place>()
        .digits(1)
        .defined((place) => isThere(place) && Number.isFinite(base))
        .x(([x]) => x)
        .y0(base)
        .y1(([, y]) => y);
      const path = areaPath(
        all,
        all.map(([x]) => [x, base]),
      );
      expect(path).toBe(judge(all) ?? '');
    }),
    { seed: 20_260_827 },
  );
});

test('markers are those of d3 with 44 px² each', () => {
  const SYMBOLS = {
    circle: symbolCircle,
    square: symbolSquare,
    triangle: symbolTriangle,
    'triangle-down': symbolTriangle,
    diamond: symbolDiamond,
    cross: symbolCross,
    plus: symbolCross,
    star: symbolStar,
  };
  for (const [name, path] of Object.entries(MARKERS)) expect(path, name).toBe(symbol(SYMBOLS[name as keyof typeof MARKERS], 44).digits(2)());
  expect(circlePath(56)).toBe(symbol(symbolCircle, 56).digits(2)());
});
