import { scaleLinear, scaleLog } from 'd3-scale';
import { expect, test } from 'vitest';
import { line, linePath } from '../../../src/plot/line.ts';
import { seriesStyle } from '../../../src/plot/series.ts';
import { markup } from '../markup.ts';

const x = scaleLinear().domain([0, 10]).range([0, 100]);
const y = scaleLinear().domain([0, 1]).range([100, 0]);
const xs = [0, 2, 4, 6, 8, 10];

test('line(...) draws the curve with dash, markers and a label at its peak', () => {
  expect(markup(line({ x, y, xs, ys: [0, 0.2, 0.9, 0.3, 0, 0], style: seriesStyle('Ni'), markers: 3 }))).toMatchSnapshot();
});

test('line(forecast) is thinner and has no markers', () => {
  const drawn = markup(line({ x, y, xs, ys: [0, 0, 1, 0, 0, 0], style: seriesStyle('Co'), forecast: true, labelAt: 'none' }));
  expect(drawn).toContain('stroke-width="1.5"');
  expect(drawn.match(/<path/g)).toHaveLength(1);
});

test('linePath(...) leaves a gap where a value is not finite', () => {
  expect(linePath({ x, y, xs, ys: [0, 0.5, Number.NaN, 0.5, 0, 0] }).match(/M/g)).toHaveLength(2);
});

test('linePath(log) leaves a gap at zero', () => {
  const log = scaleLog().domain([0.001, 1]).range([100, 0]);
  expect(linePath({ x, y: log, xs, ys: [0, 0.01, 0.1, 1, 0.1, 0] })).toBe('M20,66.67L40,33.33L60,0L80,33.33');
});

test('line(...) of no points draws an empty path and no label', () => {
  expect(markup(line({ x, y, xs: [], ys: [], style: seriesStyle('Co') }))).not.toContain('<text');
});

test('no two series look alike without colour', () => {
  const ids = ['Co', 'Ni', 'Mn', 'Cu', 'Zn', 'Fe3', 'Fe2', 'Cd', 'HCl'] as const;
  const looks = ids.map((id) => `${seriesStyle(id).dash} ${seriesStyle(id).marker}`);
  expect(new Set(looks).size).toBe(ids.length);
});
