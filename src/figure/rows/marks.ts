import { nothing, svg, type SVGTemplateResult } from 'lit';
import { millilitres, millimoles, percent } from '../../ui/text/format.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import {
  deliveredAtEnd,
  frameAt,
  type Fraction,
  type FractionTargets,
  isSettled,
  type StartWindow,
  type SwitchWindow,
  verdict,
  type Verdict,
} from '../../../sim/history/index.ts';
import { type Drawing, depthAtFrame } from '../drawing.ts';
import { type Box, textWidth } from './labels.ts';
import type { Row } from '../layout.ts';
import { BRACKET_DROP } from './row-receivers.ts';
import { type MovedChange, type Receiving, receivings } from './stretches.ts';

// What is laid over the rows: forecast, present moment, switch window, predictions, verdict.

/** A prediction shown as a mark on the axis. */
export interface PredictionMark {
  readonly mL: number;
  readonly label: string;
  /** cm; where a band is predicted instead of what leaves. */
  readonly depth_cm?: number;
}

const VERDICT_DROP = 40;
/** The verdict may reach so far beyond the rows, px; bold letters are so much wider than usual ones (measured: 8 px a letter). */
const VERDICT_BEYOND = 20;
const BOLD = 1.1;
const NOW_DROP = 34;
const AXIS_TITLE = 'delivered, mL';
const CURVE_POINTS = 40;
/** Share of the row that the acid curve may take. */
const CURVE_SHARE = 0.5;

/** Covers what is still to come: faint and hatched, or wholly when the forecast is not shown. */
export function veil({ layout: { poured, depth, effluent }, plan, x }: Drawing, now_mL: number, showForecast: boolean): SVGTemplateResult {
  const from = x(now_mL);
  const width = Math.max(0, x(deliveredAtEnd(plan)) - from);
  const rows = [
    ['poured', poured],
    ['depth', depth],
    ['effluent', effluent],
  ] as const;
  return svg`${rows.map(
    ([name, row]) => svg`<g class=${`veil ${name} ${showForecast ? '' : 'whole'}`}>
    <rect class="cover" x=${from} y=${row.top - 1} width=${width + 2} height=${row.bottom - row.top + 2}></rect>
    <rect x=${from} y=${row.top + 1} width=${width} height=${row.bottom - row.top - 2} fill="url(#hatch)"></rect></g>`,
  )}`;
}

/** The pattern that the veil is filled with. */
export function hatch(): SVGTemplateResult {
  return svg`<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line class="hatch" x1="0" x2="0" y1="0" y2="7"></line></pattern></defs>`;
}

/** Where the run is, and the title of the axis at the end that this leaves free. */
export function nowLine({ layout: { poured, effluent, left, right }, x }: Drawing, now_mL: number): SVGTemplateResult {
  const at = x(now_mL);
  const text = `now ${millilitres(now_mL)}`;
  const half = textWidth(text) / 2;
  const title = textWidth(AXIS_TITLE) + 8;
  const titleAtEnd = at + half < right - title;
  // The title gives way where the moment leaves neither end free.
  const titled = titleAtEnd || at - half > left + title;
  return svg`${titled ? svg`<text class="axis-title" x=${titleAtEnd ? right : left} y=${effluent.bottom + NOW_DROP} text-anchor=${titleAtEnd ? 'end' : 'start'}>${AXIS_TITLE}</text>` : nothing}
    <g class="cursor now"><line x1=${at} x2=${at} y1=${poured.top} y2=${effluent.bottom + 22}></line>
    <text x=${Math.max(8 + half, left - 30 + half, Math.min(at, right + 30 - half))} y=${effluent.bottom + NOW_DROP} text-anchor="middle">${text}</text></g>`;
}

/** Where the next eluent may be started, along the top of the bars; an end where the search stopped has no upright. */
export function startBand({ layout: { poured }, x }: Drawing, { from_mL, to_mL, fromOpen, toOpen }: StartWindow): SVGTemplateResult {
  const y = poured.top - 3;
  const [left, right] = [x(from_mL), x(to_mL)];
  return svg`<g class="window"><title>${`start the next eluent between ${millilitres(from_mL)} and ${toOpen ? 'beyond ' : ''}${millilitres(to_mL)}`}</title>
    <path class="start" d=${`M${left} ${fromOpen ? y : y + 7}V${y}H${right}V${toOpen ? y : y + 7}`}></path></g>`;
}

/** The changes of receiver that meet the targets, and the acid that each would carry; `plain` leaves out the words. */
export function windowBand(drawing: Drawing, window: SwitchWindow, plain = false): SVGTemplateResult {
  const {
    layout: { effluent: row },
    x,
  } = drawing;
  const [left, right] = [x(window.from_mL), x(window.to_mL)];
  const volumes = Array.from({ length: CURVE_POINTS + 1 }, (_, i) => window.from_mL + (i / CURVE_POINTS) * (window.to_mL - window.from_mL));
  const acids = volumes.map((mL) => window.at(mL).acid_mmol);
  const most = Math.max(1e-9, ...acids);
  const curve = volumes.map((mL, i) => `${x(mL).toFixed(1)} ${(row.bottom - (acids[i] / most) * curveHeight(row)).toFixed(1)}`);
  return svg`<g class="window"><title>${`change the receiver between ${millilitres(window.from_mL)} and ${millilitres(window.to_mL)}`}</title>
    <rect class="stretch" x=${left} y=${row.top} width=${Math.max(1, right - left)} height=${row.bottom - row.top}></rect>
    <path class="acid" d=${`M${left} ${row.bottom}L${curve.join('L')}L${right} ${row.bottom}Z`}></path>
    <path class="acid-line" d=${`M${curve.join('L')}`}></path>
    <path class="ends" d=${`M${left} ${row.top}V${row.bottom}M${right} ${row.top}V${row.bottom}`}></path>
    ${(plain ? [] : windowNotes(drawing, window)).map(({ text, box }) => svg`<text class="window-note" x=${box.left} y=${box.bottom - 4}>${text}</text>`)}
  </g>`;
}

/** What the window says at its ends: the acid carried by the earliest change and by the latest. */
export function windowNotes({ layout: { effluent: row, narrow, left, right }, x }: Drawing, window: SwitchWindow): { text: string; box: Box }[] {
  const acid = ({ acid_mmol, NaOH_mL }: Fraction): string =>
    `${millimoles(acid_mmol, acid_mmol < 10 ? 1 : 0)}${narrow ? '' : ` acid = ${millilitres(NaOH_mL)} NaOH`}`;
  const first = acid(window.at(window.from_mL));
  const last = acid(window.at(window.to_mL));
  const inside = x(window.to_mL) - x(window.from_mL) > textWidth(first) + 12;
  const fromLeft = Math.max(left + 2, inside ? x(window.from_mL) + 5 : x(window.from_mL) - 5 - textWidth(first));
  const note = (text: string, at: number, base: number) => ({ text, box: { left: at, right: at + textWidth(text), top: base - 12, bottom: base + 4 } });
  return [note(first, fromLeft, row.bottom - curveHeight(row) - 6), note(last, Math.min(x(window.to_mL) + 5, right - textWidth(last)), row.bottom - 8)];
}

function curveHeight(row: Row): number {
  return (row.bottom - row.top) * CURVE_SHARE;
}

export function predictionMarks(drawing: Drawing, marks: readonly PredictionMark[]): SVGTemplateResult {
  const {
    layout: { effluent: row },
    x,
  } = drawing;
  const boxes = predictionBoxes(drawing, marks);
  return svg`<g class="predictions">${marks.map(({ mL, label, depth_cm }, i) =>
    depth_cm !== undefined
      ? depthPrediction(drawing, mL, depth_cm, label)
      : svg`<line x1=${x(mL)} x2=${x(mL)} y1=${row.top} y2=${row.bottom}></line>
    <path d=${`M${x(mL)} ${row.bottom - 7}l6 7l-6 7l-6 -7Z`}></path><text class="line-label" x=${boxes[i].left} y=${boxes[i].bottom - 4}>${label}</text>`,
  )}</g>`;
}

/** A cross where a band is expected, and what is said of it. */
function depthPrediction(drawing: Drawing, mL: number, depth_cm: number, label: string): SVGTemplateResult {
  const { left, right } = drawing.layout;
  const [px, y] = [drawing.x(mL), depthAtFrame(drawing, frameAt(drawing.plan, mL))(depth_cm)];
  const turned = px + textWidth(label) + 12 > right && px - textWidth(label) - 12 > left;
  return svg`<line x1=${px} x2=${px} y1=${drawing.layout.depth.top} y2=${drawing.layout.depth.bottom}></line><path d=${`M${px} ${y - 7}l6 7l-6 7l-6 -7Z`}></path>
    <text class="line-label" x=${turned ? px - 10 : px + 10} y=${y + 5} text-anchor=${turned ? 'end' : 'start'}>${label}</text>`;
}

/** Where the words of the predictions stand; other words keep away. */
export function predictionBoxes({ layout: { effluent: row, left, right }, x }: Drawing, marks: readonly PredictionMark[]): Box[] {
  return marks.map(({ mL, label }, i) => {
    const width = textWidth(label);
    const turned = x(mL) + width + 6 > right && x(mL) - width - 6 > left;
    const at = turned ? x(mL) - width - 6 : x(mL) + 6;
    const middle = (row.top + row.bottom) / 2 + 17 * i;
    return { left: at, right: at + width, top: middle - 13, bottom: middle + 4 };
  });
}

/** A line at the height that a depth of the bed has at a delivered volume. */
export function depthMark(drawing: Drawing, depth_cm: number, at_mL: number): SVGTemplateResult {
  const y = depthAtFrame(drawing, frameAt(drawing.plan, at_mL))(depth_cm);
  const { left, right } = drawing.layout;
  return svg`<line class="depth-mark" x1=${left} x2=${right} y1=${y} y2=${y}></line>`;
}

/** What the receiver of the target has in it, in words under the brackets; no shortcoming is marked before the run has settled it. */
export function verdictLine(drawing: Drawing, targets: FractionTargets, now_mL: number, moved?: MovedChange): SVGTemplateResult | typeof nothing {
  const {
    plan,
    layout: { receivers, right, narrow },
    x,
  } = drawing;
  const told = bestReceiver(drawing, targets, receivings(plan, moved));
  if (!told) return nothing;
  const { receiver, found } = told;
  const settled = moved !== undefined || isSettled(plan, targets, now_mL);
  const look = found.meets ? 'good' : settled && (found.recovered < targets.recovered || found.carried > targets.carried) ? 'bad' : 'open';
  const said = (brief: boolean): string =>
    `${{ good: '✓ ', bad: '✗ ', open: '' }[look]}${[...(brief ? [] : [receiver.label]), ...verdictWords(found, targets, settled, brief)].join(' · ')}`;
  const room = right + VERDICT_BEYOND;
  const text = said(narrow || BOLD * textWidth(said(false)) > room);
  const half = (BOLD * textWidth(text)) / 2;
  const at = Math.max(half, Math.min(x((receiver.from_mL + receiver.to_mL) / 2), room - half));
  return svg`<text class=${`verdict ${look}`} x=${at} y=${receivers.top + BRACKET_DROP + VERDICT_DROP} text-anchor="middle">${text}</text>`;
}

/** What a fraction holds; once it is settled, each limit that was missed is named beside its figure. */
export function verdictWords(found: Verdict, targets: FractionTargets, settled: boolean, brief: boolean): string[] {
  const { recovered, carried, acid_mmol = Number.POSITIVE_INFINITY } = targets;
  const misses = [found.recovered < recovered, found.carried > carried, found.acid_mmol > acid_mmol].filter(Boolean).length;
  const limit = (missed: boolean, sense: 'less' | 'more', most: string): string => {
    if (!settled || !missed) return '';
    if (brief || misses > 1) return ` (task: ${most})`;
    return `: ${sense} than the ${most} that the task ${sense === 'less' ? 'asks for' : 'allows'}`;
  };
  const acid = limit(found.acid_mmol > acid_mmol, 'more', millimoles(acid_mmol, 0));
  return [
    `${IONS[targets.target].symbol} ${percent(found.recovered, 1)}${limit(found.recovered < recovered, 'less', percent(recovered, 1))}`,
    `${targets.unwanted.map((ion) => IONS[ion].symbol).join(', ')} ${percent(found.carried, 1)}${limit(found.carried > carried, 'more', percent(carried, 1))}`,
    `acid ${millimoles(found.acid_mmol, acid && !brief ? 0 : 1)}${acid || (brief ? '' : ` = ${millilitres(found.NaOH_mL)} NaOH`)}`,
  ];
}

/** The receiver that is meant for the target: most of it, and least of what is unwanted. */
function bestReceiver({ plan }: Drawing, targets: FractionTargets, all: readonly Receiving[]): { receiver: Receiving; found: Verdict } | undefined {
  const told = all
    .map((receiver) => ({ receiver, found: verdict(plan, targets, receiver.from_mL, receiver.to_mL) }))
    .filter(({ found }) => found.recovered > 0);
  return told.sort((a, b) => b.found.recovered - b.found.carried - a.found.recovered + a.found.carried)[0];
}
