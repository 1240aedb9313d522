import { svg } from 'lit';
import { expect, test } from 'vitest';
import { depthWords } from '../../../src/figure/depth-words.ts';
import { legend } from '../../../src/figure/rows/legend.ts';
import { hatch, nowLine, nowWords, veil } from '../../../src/figure/rows/marks.ts';
import { depthRow } from '../../../src/figure/rows/row-depth.ts';
import { effluentRow, effluentWords } from '../../../src/figure/rows/row-effluent.ts';
import { windowBand, windowWishes } from '../../../src/figure/rows/targets.ts';
import { acidFronts } from '../../../src/figure/streaks/fronts.ts';
import { pouredNotes, pouredRow } from '../../../src/figure/rows/row-poured.ts';
import { receiverRow } from '../../../src/figure/rows/row-receivers.ts';
import { switchWindow } from '../../../sim/history/index.ts';
import { sketch } from '../markup.ts';
import { workedRun } from './runs.ts';

// Stored drawings, to whole px and with few points a line. They change with the model; look at the new one before keeping it.

test.each([
  { name: 'cathode-leach', width: 900, now: 46, logScale: false },
  { name: 'six-metals', width: 1100, now: 50, logScale: true },
  { name: 'theory-one-lane', width: 360, now: 6, logScale: false },
])('the figure of $name is the stored drawing', async ({ name, width, now, logScale }) => {
  await expect(drawing(name, width, now, logScale)).toMatchFileSnapshot(`drawings/${name}.svg`);
});

function drawing(name: string, width: number, now: number, logScale: boolean): string {
  const worked = workedRun(name, width, 480);
  const window = switchWindow(worked.plan, { target: 'Co', unwanted: ['Ni'], recovered: 0.995, carried: 0.005, NaOH_M: 6 });
  const after = window ? windowWishes(worked, window) : [];
  const drawn = svg`<svg xmlns="http://www.w3.org/2000/svg" width=${width} height=${worked.layout.height}>${hatch()}${pouredRow(worked)}
    ${depthRow(worked, worked.tracks, acidFronts(worked, worked.acid))}${legend(worked, worked.tops)}${effluentRow(worked, worked.curves, logScale)}${veil(worked, now, true)}
    ${window ? windowBand(worked, window) : ''}${receiverRow(worked)}${nowLine(worked, now)}${pouredNotes(worked)}${depthWords(worked)}${effluentWords(worked, worked.curves, logScale, { before: [], after, until_mL: Number.POSITIVE_INFINITY })}${nowWords(worked, now)}</svg>`;
  return `${sketch(drawn)}\n`;
}
