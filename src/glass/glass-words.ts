import { receiverName } from '../ui/text/receiver-words.ts';
import { type TemplateResult, nothing, svg } from 'lit';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { seriesStyle } from '../plot/series.ts';
import { styled } from '../ui/styled.ts';
import { fixed, millilitres, percent, quantity, significant, withUnit } from '../ui/text/format.ts';
import { heightTicks, rulerTicks } from './labels.ts';
import { ASIDE_WIDTH, asidePlaces, depthY, type Layout, NARROW, NAME_WIDTH, readingY, underHalf, type VesselPlace, WIDE } from './layout.ts';
import { type ReceiverContent, receiverContents } from './scene/liquids.ts';
import { dropAt } from '../store/drop.ts';
import { dropRate } from './scene/motion.ts';
import { asideOrder } from './sides.ts';
import { besideTube, BOLD_LETTER, pressHints } from './touch/hints.ts';

export interface GlassWords {
  readonly scenario: Scenario;
  /** The moment of the whole page: drops and receivers are told as everywhere on it. */
  readonly moment: Moment;
  /** That of the picture, a little behind on a slow machine: the height of the liquid and the names of ions belong to what is drawn. */
  readonly drawn: Moment;
  readonly labels: readonly string[];
  /** The clock stands still, and nothing drips. */
  readonly paused: boolean;
  /** Says where the drawing can be pressed, until it has been. */
  readonly hints: boolean;
  /** %; where the clamp is being turned to. */
  readonly turnedTo: number | undefined;
  /** Whether the ions are named beside their bands. */
  readonly names: boolean;
  readonly layout: Layout;
  /** cm; the depth that is pointed at. */
  readonly depth: number | undefined;
}

/** From here on it is said that the column is drawn too wide. */
const WIDENED = 1.05;
/** px per letter of small type, for what may be too long. */
const LETTER = 6.6;
/** Bottom of the button that turns a narrow drawing, in its corner, for fingers; words stay below it. */
const TURN_PX = 56;
/** From the middle of the tip to the words beside it, px. */
const DRIPS_PX = 14;
/** Share of what was poured below which an ion is not named. */
const GONE = 0.005;
/** A panel narrower than this, px, has no room for a word beside the clamp. */
const TERSE = 190;
/** A picture that shows the liquid so much higher or lower than it is, on a slow machine, is not labelled until it has caught up. */
const LAG_CM = 0.3;
/** Least px between the names of two ions. */
const NAME_APART = 15;

/** Words on the drawing, for the eye: ruler, liquid, clamp, drops, receivers. The spoken summary says the same. */
export function glassWords(options: GlassWords): TemplateResult {
  const { scenario, moment, drawn, layout, depth } = options;
  const left = besideTube(layout);
  const narrow = layout.width < NARROW;
  const level = levelY(layout, drawn);
  const beside = Math.max(Math.min(level, layout.ruler.top - 9), Math.min(TURN_PX, layout.ruler.top - 9));
  const lags = Math.abs(drawn.level_cm - moment.level_cm) > LAG_CM;
  const liquid = lags ? '' : drawn.level_cm > 0 ? withUnit(fixed(drawn.level_cm * 10, 0), 'mm') : narrow ? 'empty' : 'no liquid';
  const standing = standingOf(options);
  const clampOpen = options.turnedTo === undefined ? moment.clampOpen : options.turnedTo / 100;
  const open = clampOpen > 0 ? `${layout.width < TERSE ? '' : 'open '}${percent(clampOpen, 0)}` : 'shut';
  return svg`<svg class="words" aria-hidden="true" width=${layout.width} height=${layout.height}>
    ${rulerTicks(layout).map(({ y, text }) => svg`<text class="ruler" x=${layout.ruler.left + layout.ruler.width - 3} y=${y}>${text}</text>`)}
    ${heightTicks(layout, scenario)
      .filter(({ y }) => !narrow || Math.abs(y - beside) > 12)
      .map(({ y, text }) => svg`<text class="tick" x=${layout.ruler.left} y=${y}>${text}</text>`)}
    ${narrow ? start(layout.ruler.left, beside, liquid, 'strong flag') : end(left, level, liquid, 'strong')}
    ${narrow ? start(layout.width - 36, layout.clamp, open) : end(layout.centre - 24, layout.clamp, open)}
    ${standing.unshown > 0 && !narrow && layout.width < WIDE ? end(layout.centre - DRIPS_PX, layout.tip + 4, dripping(options)) : start(layout.centre + DRIPS_PX, layout.tip + 4, dripping(options))}
    ${layout.widening > WIDENED ? widened(layout, narrow) : nothing}
    ${options.names ? ionNames(options, left) : nothing}
    ${depth === undefined ? nothing : depthFlag(layout, depth)}
    ${vessels(options, standing)}
    ${options.hints ? hintWords(options) : nothing}
  </svg>`;
}

function hintWords({ scenario, moment, labels, layout }: GlassWords) {
  return pressHints({ scenario, moment, layout, receivers: receiverContents(scenario, moment, labels) }).map(({ text, anchor, x, y }) =>
    anchor === 'end' ? end(x, y, text, 'press') : svg`<text class="centre press" x=${x} y=${y}>${text}</text>`,
  );
}

function start(x: number, y: number, text: string, kind = '') {
  return svg`<text class=${kind} x=${x} y=${y}>${text}</text>`;
}

function end(x: number, y: number, text: string, kind = '') {
  return svg`<text class="end ${kind}" x=${x} y=${y}>${text}</text>`;
}

/** Says that the tube is drawn too wide; in two lines where there is no room for one. */
function widened({ widening, outletTop, tip }: Layout, narrow: boolean) {
  const times = `×${significant(widening, 3)}`;
  return narrow ? svg`${start(2, tip, 'width')}${start(2, tip + 13, times)}` : start(6, outletTop + 8, `width ${times}`);
}

/** Beside the surface, clear of the edge of the drawing. */
function levelY(layout: Layout, { level_cm }: Moment): number {
  return Math.min(layout.bedTop - 8, Math.max(8, layout.above(Math.max(0, level_cm))));
}

/** Fewer letters where the full ones would leave the drawing. */
function dripping({ scenario, moment, paused, layout }: GlassWords): string {
  if (moment.flow <= 0) return 'no flow';
  if (paused) return 'paused';
  const rate = dropRate(moment.flow, dropAt(scenario, moment));
  const [full, short] = ['drops/min', '/min'].map((unit) => quantity(rate, unit, 2));
  return LETTER * full.length < layout.width - layout.centre - DRIPS_PX ? full : short;
}

function depthFlag(layout: Layout, depth: number) {
  const y = depthY(layout, depth);
  const text = `${fixed(Math.abs(y - layout.zero) < 0.5 ? 0 : (y - layout.zero) / layout.pxPerCm, 1)} cm`;
  const width = LETTER * text.length + 8;
  const x = layout.width < NARROW ? layout.width - width - 1 : layout.centre - layout.radius - layout.wall - 4 - width;
  return svg`<g class="depth"><rect x=${x} y=${y - 9} width=${width} height="18" rx="3"></rect><text x=${x + width / 2} y=${y}>${text}</text></g>`;
}

/** Each ion beside the stretch of the bed that it lies in, with the line it has in the plots. */
function ionNames({ scenario, drawn, layout }: GlassWords, left: number) {
  let free = Number.NEGATIVE_INFINITY;
  const bands = scenario.ions.flatMap((ion) => {
    const band = drawn.results.bands[ion];
    return band && band.amount_mmol > GONE * (drawn.results.loaded[`${ion}_mmol`] ?? 0) ? [{ ion, band }] : [];
  });
  bands.sort((a, b) => a.band.centroid_cm - b.band.centroid_cm);
  return bands.map(({ ion, band }, i) => {
    const [top, bottom] = [band.trailing_cm, band.leading_cm].map((read) => readingY(layout, read));
    const y = Math.max(free, (top + bottom) / 2);
    free = y + NAME_APART;
    const x = left + 3 - 4 * i;
    const { colour, text, dash } = seriesStyle(ion);
    return svg`<line stroke=${colour} stroke-dasharray=${dash || nothing} x1=${x} x2=${x} y1=${top} y2=${Math.max(bottom, top + 3)}></line>
      <text class="end ion" ${styled({ fill: text })} x=${left - 4 * bands.length} y=${y}>${ion.replace(/\d/, '')}</text>`;
  });
}

/** What stands under the tip and beside it, and how many beakers have no room in the drawing. */
function standingOf({ scenario, moment, labels, layout }: GlassWords) {
  const contents = receiverContents(scenario, moment, labels);
  const others = asideOrder(contents, moment.receiver);
  const places = asidePlaces(layout, others.length);
  return { here: contents[moment.receiver], others, places, unshown: others.length - places.length };
}

function vessels({ layout }: GlassWords, { here, others, places, unshown }: ReturnType<typeof standingOf>) {
  const wide = layout.width >= WIDE;
  return svg`${here ? (wide ? nameBeside(here, layout.receiver, -1, 'strong') : name(here, layout.receiver, roomBelow(layout, places), 'strong')) : nothing}
    ${places.map((place, i) => (wide ? nameBeside(others[i], place, 1, '') : name(others[i], place, ASIDE_WIDTH - 2, '')))}
    ${unshown > 0 ? unshownWords(unshown, layout, places.at(-1)) : nothing}`;
}

/** For the name of the one under the tip: alone it has the drawing from side to side. */
function roomBelow(layout: Layout, beside: readonly VesselPlace[]): number {
  const { width, receiver } = layout;
  return beside.length > 0 ? 2 * underHalf(layout) - 2 : (2 * Math.min(receiver.x, width - receiver.x) * LETTER) / BOLD_LETTER;
}

/** Said above the last that has room, where no drops fall, or else above the one under the tip; in two lines where one is too long. */
function unshownWords(count: number, { width, receiver }: Layout, last: VesselPlace | undefined) {
  const beakers = count === 1 ? 'beaker' : 'beakers';
  const full = `and ${count} more ${beakers}`;
  const { base, height } = last ?? receiver;
  const y = base - height - 8;
  const room = width - 8 - (last ? receiver.x + receiver.radius : 0);
  if (LETTER * full.length < room) return end(width - 4, y, full);
  return last ? svg`${end(width - 4, y - 13, `and ${count} more`)}${end(width - 4, y, beakers)}` : end(width - 4, y, `and ${count} more`);
}

function name({ label, volume_mL }: ReceiverContent, { x, base }: VesselPlace, width: number, kind: string) {
  return svg`<text class="centre ${kind}" x=${x} y=${base + 11}>${cropped(receiverName(label), width)}</text><text class="centre" x=${x} y=${base + 25}>${millilitres(volume_mL)}</text>`;
}

/** Name and volume at the left of a vessel or at its right. */
function nameBeside({ label, volume_mL }: ReceiverContent, { x, base, height, radius }: VesselPlace, side: 1 | -1, kind: string) {
  const at = x + side * (radius + 7);
  const middle = base - height / 2;
  const words = side > 0 ? start : end;
  return svg`${words(at, middle - 8, cropped(receiverName(label), NAME_WIDTH - 6), kind)}${words(at, middle + 8, millilitres(volume_mL))}`;
}

/** A number at the end stays: by it the receivers of a day are told apart. */
function cropped(text: string, width: number): string {
  const letters = Math.floor(width / LETTER);
  const [number = ''] = /\s\d{1,2}$/.exec(text) ?? [];
  return text.length <= letters ? text : `${text.slice(0, Math.max(1, letters - 1 - number.length))}…${number}`;
}
