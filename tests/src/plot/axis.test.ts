import { scaleLinear, scaleLog } from 'd3-scale';
import { expect, test } from 'vitest';
import { axis, tickValues } from '../../../src/plot/axis.ts';
import { markup } from '../markup.ts';

const volume = scaleLinear().domain([0, 75]).range([40, 640]);

test('axis(bottom) draws ticks, their text, and the title with its unit', () => {
  expect(markup(axis({ scale: volume, side: 'bottom', at: 300, title: 'delivered', unit: 'mL', ticks: 4 }))).toMatchSnapshot();
});

test('axis(left) draws its title turned and its grid to the right', () => {
  const scale = scaleLinear().domain([0, 7]).range([20, 220]);
  expect(markup(axis({ scale, side: 'left', at: 40, title: 'depth in bed', unit: 'cm', ticks: 4, grid: 600 }))).toMatchSnapshot();
});

test('axis(...) puts one text for every tick value', () => {
  const drawn = markup(axis({ scale: volume, side: 'bottom', at: 0 }));
  expect(drawn.match(/tick-text/g)).toHaveLength(tickValues({ scale: volume }).length);
});

test('tickValues(log) keeps only powers of ten when there are many decades', () => {
  expect(tickValues({ scale: scaleLog().domain([1e-6, 1]), ticks: 6 })).toEqual([1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1, 1]);
});

test('axis(...) writes a negative tick with a minus sign', () => {
  expect(markup(axis({ scale: scaleLinear().domain([-2, 2]).range([0, 100]), side: 'bottom', at: 0, ticks: 4 }))).toContain('\u22122');
});

function texts(drawn: string): string[] {
  return [...drawn.matchAll(/tick-text[^>]*>([^<]*)/g)].map(([, text = '']) => text);
}

test('axis(...) gives equal steps the decimals the step needs', () => {
  const scale = scaleLinear().domain([0, 0.06]).range([100, 0]);
  expect(texts(markup(axis({ scale, side: 'left', at: 0, ticks: 3 })))).toEqual(['0.00', '0.02', '0.04', '0.06']);
  expect(texts(markup(axis({ scale: volume, side: 'bottom', at: 0, ticks: 4 })))).toEqual(['0', '20', '40', '60']);
});

test('axis(log) gives every tick one figure', () => {
  const scale = scaleLog().domain([1e-5, 1]).range([100, 0]);
  expect(texts(markup(axis({ scale, side: 'left', at: 0, ticks: 4 })))).toEqual(['1×10⁻⁵', '0.0001', '0.001', '0.01', '0.1', '1']);
});
