import { nothing, svg, type SVGTemplateResult } from 'lit';
import { millimolesBeside, percentBeside } from '../../ui/text/beside-limit.ts';
import { millilitres, millimoles, percent } from '../../ui/text/format.ts';
import { IONS } from '../../../sim/terms/ions.ts';
import {
  deliveredAtEnd,
  type Fraction,
  type FractionTargets,
  type Handle,
  isSettled,
  keptAmong,
  keptVerdict,
  type StartWindow,
  type SwitchWindow,
  togetherOf,
  type Verdict,
} from '../../../sim/history/index.ts';
import type { Drawing } from '../drawing.ts';
import { BOLD, textWidth, type Worded } from './labels.ts';
import { insideOf, type PredictionMark } from './predictions.ts';
import type { Row } from '../layout.ts';
import { BRACKET_DROP } from './row-receivers.ts';
import { type MovedChange, type Receiving, receivings } from './stretches.ts';

// What the task asks for, laid over the rows: windows for the next eluent and the receiver, verdict.

const VERDICT_DROP = 51;
/** The verdict may reach so far beyond the rows, px. */
const VERDICT_BEYOND = 20;
const CURVE_POINTS = 40;
/** Share of the row that the acid curve may take. */
const CURVE_SHARE = 0.5;

/** Where the next eluent may be started, along the top of the bars; an end where the search stopped has no upright. */
export function startBand({ layout: { poured }, x }: Drawing, { from_mL, to_mL, fromOpen, toOpen }: StartWindow): SVGTemplateResult {
  const y = poured.top - 3;
  const [left, right] = [x(from_mL), x(to_mL)];
  return svg`<g class="window"><title>${`start the next eluent between ${millilitres(from_mL)} and ${toOpen ? 'beyond ' : ''}${millilitres(to_mL)}`}</title>
    <path class="start" d=${`M${left} ${fromOpen ? y : y + 7}V${y}H${right}V${toOpen ? y : y + 7}`}></path></g>`;
}

/** The changes of receiver that meet the targets, and the acid that each would carry. */
export function windowBand(drawing: Drawing, window: SwitchWindow): SVGTemplateResult {
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
  </g>`;
}

/** Lines that words keep off: where the run ends, changes of what is poured and caught, ends of the window, what was predicted to leave; mL. */
export function uprightsOf(
  { plan }: Drawing,
  { handles, window, predictions }: { handles: readonly Handle[]; window: SwitchWindow | undefined; predictions: readonly PredictionMark[] },
): number[] {
  const ends = window ? [window.from_mL, window.to_mL] : [];
  return [
    deliveredAtEnd(plan),
    ...handles.map(({ delivered_mL }) => delivered_mL),
    ...ends,
    ...predictions.flatMap(({ mL, depth_cm }) => (depth_cm === undefined ? [mL] : [])),
  ];
}

/** What the window says at its ends: the acid carried by the earliest change and by the latest. */
export function windowWishes({ layout, x }: Drawing, window: SwitchWindow): Worded[] {
  const row = layout.effluent;
  const acid = ({ acid_mmol }: Fraction): string[] => {
    const brief = millimoles(acid_mmol, acid_mmol < 10 ? 1 : 0);
    return layout.narrow ? [`${brief} acid`, brief] : [`changed here: ${brief} acid`, `${brief} acid`];
  };
  const shared = { within: insideOf(layout, row), look: 'window-note', clear: true } as const;
  const [from, to] = [x(window.from_mL), x(window.to_mL)];
  const [high, low] = [row.bottom - curveHeight(row) - 6, row.bottom - 8];
  const first = acid(window.at(window.from_mL));
  const inside = to - from > textWidth(first[0]) + 12;
  return [
    { ...shared, texts: acid(window.at(window.to_mL)), places: [{ x: to + 5, y: low, anchor: 'start' }] },
    { ...shared, texts: first, places: [inside ? { x: from + 5, y: high, anchor: 'start' } : { x: from - 5, y: high, anchor: 'end' }] },
  ];
}

function curveHeight(row: Row): number {
  return (row.bottom - row.top) * CURVE_SHARE;
}

/** What is judged of a fraction. */
type Held = Pick<Verdict, 'recovered' | 'carried' | 'acid_mmol' | 'meets'>;

/** Before the limit that was missed, where room is short. */
const TASK = ' (task: ';

/** What the receiver of the target has in it, in words under the brackets; no shortcoming is marked before the run has settled it. */
export function verdictLine(drawing: Drawing, targets: FractionTargets, now_mL: number, moved?: MovedChange): SVGTemplateResult | typeof nothing {
  const {
    plan,
    layout: { receivers, right, narrow },
    x,
  } = drawing;
  const told = keptReceiver(drawing, targets, receivings(plan, moved));
  if (!told) return nothing;
  const { receiver, found } = told;
  const settled = moved !== undefined || isSettled(plan, targets, now_mL);
  const look = found.meets ? 'good' : settled && (found.recovered < targets.recovered || found.carried > targets.carried) ? 'bad' : 'open';
  const sign = { good: '✓ ', bad: '✗ ', open: '' }[look];
  const words = verdictWords(found, targets, settled, false);
  const brief = verdictWords(found, targets, settled, true);
  const room = right + VERDICT_BEYOND;
  // Where not all of it fits, what was missed is said before what was met, and the metals before the acid.
  const misses = brief.filter((word) => word.includes(TASK));
  const short = misses.length > 0 ? [misses, misses.slice(0, 1)] : [brief.slice(0, -1)];
  const texts = [...(narrow ? [] : [[receiver.label, ...words]]), brief, ...short].map((parts) => sign + parts.join(' · '));
  const text = texts.find((each) => BOLD * textWidth(each) <= room) ?? texts[texts.length - 1];
  const half = (BOLD * textWidth(text)) / 2;
  const at = Math.max(half, Math.min(x((receiver.from_mL + receiver.to_mL) / 2), room - half));
  return svg`<text class=${`verdict ${look}`} x=${at} y=${receivers.top + BRACKET_DROP + VERDICT_DROP} text-anchor="middle">${text}</text>`;
}

/** What a fraction holds; once it is settled, each limit that was missed is named beside its figure. */
export function verdictWords(found: Held, targets: FractionTargets, settled: boolean, brief: boolean): string[] {
  const { recovered, carried, acid_mmol = Number.POSITIVE_INFINITY } = targets;
  const misses = [found.recovered < recovered, found.carried > carried, found.acid_mmol > acid_mmol].filter(Boolean).length;
  const limit = (missed: boolean, sense: 'less' | 'more', most: string): string => {
    if (!settled || !missed) return '';
    if (brief || misses > 1) return `${TASK}${most})`;
    return `: ${sense} than the ${most} that the task ${sense === 'less' ? 'asks for' : 'allows'}`;
  };
  const acid = limit(found.acid_mmol > acid_mmol, 'more', millimoles(acid_mmol, 0));
  return [
    `${IONS[targets.target].symbol} ${percentBeside(found.recovered, recovered)}${limit(found.recovered < recovered, 'less', percent(recovered, 1))}`,
    `${targets.unwanted.map((ion) => IONS[ion].symbol).join(', ')} ${percentBeside(found.carried, carried)}${limit(found.carried > carried, 'more', percent(carried, 1))}`,
    `acid ${millimolesBeside(found.acid_mmol, acid_mmol, acid && !brief ? 0 : 1)}${acid}`,
  ];
}

/** The receiver that counts as the fraction, and what it holds; of a day, what its receivers hold together. */
function keptReceiver({ plan }: Drawing, targets: FractionTargets, all: readonly Receiving[]): { receiver: Receiving; found: Held } | undefined {
  const receiver = keptAmong(plan, targets, all);
  const together = togetherOf(plan, targets);
  if (receiver && together) return { receiver: { ...receiver, label: together.labels.join(' + ') }, found: together };
  return receiver && { receiver, found: keptVerdict(plan, targets, receiver) };
}
