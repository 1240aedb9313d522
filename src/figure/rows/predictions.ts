import { svg, type SVGTemplateResult } from 'lit';
import type { Box } from '../../plot/box.ts';
import { type Drawing, depthScale } from '../drawing.ts';
import type { FigureLayout, Row } from '../layout.ts';
import { textWidth, type Worded } from './labels.ts';

// Predictions as crosses: on the axis where something is to leave, in the bed where a band is expected.

/** A prediction shown as a mark on the axis. */
export interface PredictionMark {
  readonly mL: number;
  readonly label: string;
  /** The same in fewer characters, for where room is short. */
  readonly brief?: string;
  /** The outcome alone: the mark shows what was said. */
  readonly briefest?: string;
  /** What the prediction did not reckon with. */
  readonly why?: string;
  /** The same in fewer words. */
  readonly whyBrief?: string;
  /** cm; where a band is predicted instead of what leaves. */
  readonly depth_cm?: number;
}

/** px between two lines of text. */
const WHY_DROP = 18;

export function predictionMarks(drawing: Drawing, marks: readonly PredictionMark[]): SVGTemplateResult {
  return svg`<g class="predictions">${marks.map((mark) => {
    const { x, y, row } = crossOf(drawing, mark);
    return svg`<line x1=${x} x2=${x} y1=${row.top} y2=${row.bottom}></line><path d=${`M${x} ${y - 7}l6 7l-6 7l-6 -7Z`}></path>`;
  })}</g>`;
}

/** What is said of them in one of the two rows; the newest is wanted most. */
export function predictionWishes(drawing: Drawing, marks: readonly PredictionMark[], name: 'depth' | 'effluent'): Worded[] {
  return [...outcomeWishes(drawing, marks, name), ...whyWishes(drawing, marks, name)];
}

function outcomeWishes(drawing: Drawing, marks: readonly PredictionMark[], name: 'depth' | 'effluent'): Worded[] {
  const { layout } = drawing;
  const own = marks.filter(({ depth_cm }) => (depth_cm === undefined) === (name === 'effluent'));
  return own.toReversed().map((mark) => {
    const { x, y, row } = crossOf(drawing, mark);
    const base = name === 'depth' ? y + 5 : (row.top + row.bottom) / 2;
    const places = [
      { x: x + 10, y: base, anchor: 'start' },
      { x: x - 10, y: base, anchor: 'end' },
    ] as const;
    return {
      texts: [mark.label, mark.brief, mark.briefest].filter((text) => text !== undefined),
      places,
      within: insideOf(layout, row),
      look: 'line-label prediction',
    };
  });
}

/** A line lower what they did not reckon with, on the side of the mark that has room for it. */
function whyWishes(drawing: Drawing, marks: readonly PredictionMark[], name: 'depth' | 'effluent'): Worded[] {
  return marks.flatMap((mark) => {
    const { x, y, row } = crossOf(drawing, mark);
    if (mark.why === undefined || (mark.depth_cm === undefined) !== (name === 'effluent')) return [];
    const within = insideOf(drawing.layout, row);
    const base = WHY_DROP + (name === 'depth' ? y + 5 : (row.top + row.bottom) / 2);
    const places = [
      { x: x + 10, y: base, anchor: 'start' },
      { x: x - 10, y: base, anchor: 'end' },
    ] as const;
    // The first of its wordings that fits beside the mark.
    for (const text of [mark.why, ...(mark.whyBrief ? [mark.whyBrief] : [])]) {
      const wide = textWidth(text);
      const fitting = places.filter(({ anchor }) => (anchor === 'start' ? x + 10 + wide <= within.right : x - 10 - wide >= within.left));
      if (fitting.length > 0) return [{ texts: [text], places: fitting, within, look: 'row-title' }];
    }
    return [];
  });
}

/** Where words of a row may stand. */
export function insideOf({ left, right }: Pick<FigureLayout, 'left' | 'right'>, { top, bottom }: Row): Box {
  return { left: left + 4, right: right - 4, top: top + 1, bottom: bottom - 1 };
}

function crossOf(drawing: Drawing, { mL, depth_cm }: PredictionMark): { x: number; y: number; row: Row } {
  const { layout, x } = drawing;
  if (depth_cm === undefined) return { x: x(mL), y: layout.effluent.bottom, row: layout.effluent };
  return { x: x(mL), y: depthScale(drawing)(depth_cm), row: layout.depth };
}
