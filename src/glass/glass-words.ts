import { type TemplateResult, html, nothing } from 'lit';
import type { Scenario } from '../../sim/terms/types.ts';
import type { Moment } from '../store/threads/planner.ts';
import { fixed, millilitres, percent, quantity, significant } from '../ui/text/format.ts';
import { depthTicks, heightTicks } from './labels.ts';
import { ASIDE_WIDTH, asidePlaces, type Layout, underHalf, type VesselPlace } from './layout.ts';
import { EXAGGERATION, type ReceiverContent, receiverContents } from './scene/liquids.ts';
import { dropAt } from '../store/drop.ts';
import { dropRate } from './scene/motion.ts';
import { asideOrder, sideName } from './sides.ts';

export interface GlassWords {
  readonly scenario: Scenario;
  readonly moment: Moment;
  readonly labels: readonly string[];
  readonly exaggerate: boolean;
  readonly layout: Layout;
  /** cm; the depth that is pointed at. */
  readonly depth: number | undefined;
  readonly side: number;
  readonly down: number;
}

/** px from the glass to words beside it. */
const BESIDE = 8;
/** From here on it is said that the column is drawn too wide. */
const WIDENED = 1.05;
/** Clamp and receiver are wider than the tube: px from the middle to the words beside the clamp. */
const CLAMP_HALF = 24;

/** Words on the drawing, for the eye: scales, liquid, clamp, drops, receivers. The spoken summary says the same. */
export function glassWords(options: GlassWords): TemplateResult {
  const { scenario, moment, layout, side, depth, down } = options;
  const level = (y: number): number => tilted(layout, y, down);
  const left = layout.centre - layout.radius - BESIDE;
  const right = layout.centre + layout.radius + BESIDE;
  return html`<div class="words" aria-hidden="true">
    <span class="from beside" style="top:${level(layout.clamp)}px">seen from<br><b class="strong">${sideName(side)}</b>${layout.widening > WIDENED ? html`<br />width ×${significant(layout.widening, 2)}` : nothing}</span>
    ${options.exaggerate ? html`<span class="stronger">faint colours ×${EXAGGERATION}</span>` : nothing}
    ${[...heightTicks(layout, scenario), ...depthTicks(layout, scenario)].map(({ y, text }) => html`<span class="tick" style="left:${left}px;top:${level(y)}px">${text}</span>`)}
    ${moment.level_cm > 0 ? beside(right, Math.min(level(layout.above(moment.level_cm)), level(layout.bedTop) - 8), `${quantity(moment.level_cm * 10, 'mm', 2)}`) : beside(right, level(layout.bedTop) - 8, 'no liquid')}
    ${beside(layout.centre + CLAMP_HALF, level(layout.clamp), moment.clampOpen > 0 ? `open ${percent(moment.clampOpen, 0)}` : 'closed')}
    ${beside(layout.centre + BESIDE, level(layout.tip) + 8, dripping(scenario, moment))}
    ${depth === undefined ? nothing : html`<span class="depth" style="left:${right}px;top:${level(layout.bedTop + depth * layout.pxPerCm)}px">${fixed(depth, 1)} cm</span>`}
    ${vessels(options, level)}
  </div>`;
}

function beside(x: number, y: number, text: string) {
  return html`<span class="beside" style="left:${x}px;top:${y}px">${text}</span>`;
}

function dripping(scenario: Scenario, moment: Moment): string {
  if (moment.flow <= 0) return 'no flow';
  return `${quantity(dropRate(moment.flow, dropAt(scenario, moment)), 'drops/min', 2)}`;
}

function vessels({ scenario, moment, labels, layout, down }: GlassWords, level: (y: number) => number) {
  const contents = receiverContents(scenario, moment, labels);
  const others = asideOrder(contents, moment.receiver);
  const places = asidePlaces(layout, others.length);
  const unshown = others.length - places.length;
  const here = contents[moment.receiver];
  return html`${here ? name(here, layout.receiver, level, down, 2 * underHalf(layout) - 2, 'under') : nothing}
    ${places.map((place, i) => name(others[i], place, level, down, ASIDE_WIDTH - 2, 'aside'))}
    ${unshown > 0 ? html`<span class="more" style="top:${level(layout.receiver.base - layout.receiver.height)}px">and ${unshown} more</span>` : nothing}`;
}

function name(
  { label, volume_mL }: ReceiverContent,
  { x, base, radius }: VesselPlace,
  level: (y: number) => number,
  down: number,
  width: number,
  kind: 'under' | 'aside',
) {
  const top = level(base) + 5 + radius * Math.sin((down * Math.PI) / 180);
  return html`<div class="vessel ${kind}" style="left:${x}px;top:${top}px;max-width:${width}px"><span>${label}</span><span>${millilitres(volume_mL)}</span></div>`;
}

/** Where a height of the drawing appears when looked at from above by so many degrees. */
function tilted({ bedTop, bedBottom }: Layout, y: number, down: number): number {
  const middle = (bedTop + bedBottom) / 2;
  return middle + (y - middle) * Math.cos((down * Math.PI) / 180);
}
