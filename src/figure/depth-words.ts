import { nothing, svg, type SVGTemplateResult } from 'lit';
import { seriesStyle } from '../plot/series.ts';
import { type Drawing, depthAtFrame } from './drawing.ts';
import { type BandWord, bandWords } from './streaks/band-words.ts';
import { frontPassages } from './streaks/fronts.ts';
import { deliveredAtEnd, deliveredOf, framesApart, type Track } from '../../sim/history/index.ts';
import { type Box, crosses, type Point } from '../plot/box.ts';
import { onLine } from '../plot/place-labels.ts';
import { drawnWords, placedWords, type Worded } from './rows/labels.ts';
import { insideOf } from './rows/predictions.ts';
import type { Measured } from './streaks/measured.ts';

// Words beside the bands. They lie above the veil of the forecast.

/** Depth, as a share of the bed, beside which the acid front is named. */
const FRONT_DEPTH = 0.88;
/** px between points of an edge that words keep off. */
const EDGE_PX = 3;

/** Words up to a delivered volume; what comes later is not told. What was predicted comes first. */
export function depthWords(measured: Measured, until_mL = Number.POSITIVE_INFINITY, predictions: readonly Worded[] = []): SVGTemplateResult {
  const lines = measured.tracks.flatMap((track) => edgesOf(measured, track, until_mL));
  const first = placedWords([...title(measured), ...predictions]);
  const bands = bandWords(
    measured,
    first.map(({ box }) => box),
    until_mL,
  );
  const fronts = placedWords(frontWish(measured, until_mL), {
    taken: [...[...first, ...bands].map(({ box }) => box), endOf(measured)],
    covers: (box) => lines.some((line) => crosses(line, box)),
  });
  return svg`<g class="words">${deliveredAtEnd(measured.plan) > 0 ? nothing : nothingYet(measured)}${drawnWords([...first, ...fronts])}${drawnBands(bands)}</g>`;
}

/** Where the run ends the line of the moment comes to rest. */
function endOf({ layout: { depth }, plan, x }: Drawing): Box {
  const end = x(deliveredAtEnd(plan));
  return { left: end - 1, right: end + 1, top: depth.top, bottom: depth.bottom };
}

/** On a narrow figure the title of the axis stands in the row. */
function title({ layout: { narrow, left, right, depth } }: Drawing): Worded[] {
  const y = depth.top + 14;
  const within = onLine(y, left + 4, right - 4);
  return narrow ? [{ texts: ['depth in bed, cm'], places: [{ x: left + 4, y, anchor: 'start' }], within, look: 'row-title' }] : [];
}

function nothingYet({ layout: { depth, left, right, narrow } }: Drawing): SVGTemplateResult {
  const said = narrow ? 'nothing has run through yet' : 'Nothing has run through yet. Pour, and open the clamp.';
  return svg`<text class="row-title" x=${(left + right) / 2} y=${(depth.top + depth.bottom) / 2} text-anchor="middle">${said}</text>`;
}

function drawnBands(words: readonly BandWord[]): SVGTemplateResult {
  return svg`${words.map(({ text, x, y, turned, ion }) => svg`<text class="line-label" x=${x} y=${y} transform=${turned ? `rotate(-90 ${x} ${y})` : nothing} fill=${seriesStyle(ion).text}>${text}</text>`)}`;
}

/** Edges of a band as lines, thinned: finer is not seen. Each band of a day has its own. */
function edgesOf(drawing: Drawing, { trailing_cm, leading_cm }: Track, until_mL: number): Point[][] {
  const { plan, x } = drawing;
  const frames = framesApart(plan, x.invert(EDGE_PX) - x.invert(0)).filter((frame) => deliveredOf(plan, frame) <= until_mL);
  const lines: Point[][] = [];
  for (const depths of [trailing_cm, leading_cm]) {
    frames.forEach((frame, i) => {
      if (Number.isNaN(depths[frame])) return;
      if (i === 0 || Number.isNaN(depths[frames[i - 1]])) lines.push([]);
      lines.at(-1)?.push({ x: x(deliveredOf(plan, frame)), y: depthAtFrame(drawing, frame)(depths[frame]) });
    });
  }
  return lines;
}

/** Names the dashed lines once, beside the last front of the run that has room. */
function frontWish({ layout, x, acid }: Measured, until_mL: number): Worded[] {
  const { depth, narrow } = layout;
  const y = depth.top + FRONT_DEPTH * (depth.bottom - depth.top);
  const volumes = frontPassages(acid, FRONT_DEPTH).filter((mL) => mL <= until_mL);
  if (volumes.length === 0) return [];
  return [
    {
      texts: narrow ? ['acid front'] : ['acid front: 10, 50, 90 %', 'acid front'],
      places: volumes.reverse().map((mL) => ({ x: x(mL) + 12, y, anchor: 'start' as const })),
      within: insideOf(layout, depth),
      look: 'line-label',
      colour: seriesStyle('HCl').text,
    },
  ];
}
