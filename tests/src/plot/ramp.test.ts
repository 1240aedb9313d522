import { scaleLinear } from 'd3-scale';
import { expect, test } from 'vitest';
import { rampLegend } from '../../../src/plot/ramp.ts';
import { markup } from '../markup.ts';

const legend = rampLegend({
  series: 'Co',
  left: 10,
  top: 30,
  width: 120,
  height: 12,
  scale: scaleLinear().domain([0, 0.06]),
  title: 'cobalt in bed',
  unit: 'mmol/mL',
});

test('rampLegend(...) draws the bar from the page to the colour, with an axis', () => {
  expect(markup(legend)).toMatchSnapshot();
});
