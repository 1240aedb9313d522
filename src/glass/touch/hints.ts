import type { Action, Scenario } from '../../../sim/terms/types.ts';
import type { Moment } from '../../store/threads/planner.ts';
import { asidePlaces, type Layout, NAME_WIDTH, WIDE } from '../layout.ts';
import { asideOrder } from '../sides.ts';
import type { Box } from './places.ts';

// Where the drawing says that it can be pressed, as long as nobody has pressed there. A press on the words does what they say.

/** px per letter of bold type. */
export const BOLD_LETTER = 7.3;
/** Beside a wide tube there is room for the second only. */
const POUR_HERE = 'press here to pour ▸';
const POUR_SHORT = 'press: pour ▸';
/** Between two lines of words, and between words and what stands below them, px. */
const LINE = 16;
const CLEAR = 10;
/** Height of what is pressed, px: WCAG 2.2, 2.5.8 (read by name only) asks 24. */
const PRESSED = 28;

export interface Hint {
  readonly does: 'pour' | 'clamp' | 'receiver';
  readonly text: string;
  /** Middle of the words, or their end. */
  readonly anchor: 'centre' | 'end';
  readonly x: number;
  readonly y: number;
}

export interface Hinted {
  readonly scenario: Scenario;
  readonly moment: Moment;
  readonly layout: Layout;
  /** Receivers that stand there, by slot. */
  readonly receivers: readonly { readonly slot: number }[];
}

export function pressHints({ scenario, moment, layout, receivers }: Hinted): readonly Hint[] {
  if (layout.width < WIDE) return [];
  const did = (kind: Action['do']): number => moment.events.filter(({ action, refused }) => !refused && action?.do === kind).length;
  const left = besideTube(layout);
  const text = BOLD_LETTER * POUR_HERE.length < left ? POUR_HERE : POUR_SHORT;
  const pour: Hint[] = did('pour') === 0 && scenario.values['bench.packed'] === 1 ? [{ does: 'pour', text, anchor: 'end', x: left, y: layout.rim + 30 }] : [];
  const clamp: Hint[] = did('clamp') === 0 ? [{ does: 'clamp', text: 'press, or drag ▸', anchor: 'end', x: layout.centre - 58, y: layout.clamp }] : [];
  return [...pour, ...clamp, ...(did('receiver') < 2 && moment.delivered_mL > 0 ? receiverHint(layout, asideOrder(receivers, moment.receiver).length) : [])];
}

/** Above the nearest that stands aside, a line higher where it is said there how many have no room; nowhere if that would meet the words beside the tip. */
function receiverHint(layout: Layout, others: number): Hint[] {
  const places = asidePlaces(layout, others);
  const [aside] = places;
  if (!aside) return [];
  const above = others > places.length ? LINE : 0;
  const y = aside.base - aside.height - CLEAR - above;
  if (above > 0 && y - layout.tip < LINE) return [];
  return [{ does: 'receiver', text: 'press or drag', anchor: 'centre', x: aside.x + NAME_WIDTH / 2, y }];
}

/** px from the glass to words beside it. */
const BESIDE = 7;

/** Where words left of the tube end. */
export function besideTube({ centre, radius, wall }: Layout): number {
  return centre - radius - wall - BESIDE;
}

/** What is pressed for the words. */
export function hintBox({ text, anchor, x, y }: Hint): Box {
  const width = BOLD_LETTER * text.length;
  const left = anchor === 'end' ? x - width : x - width / 2;
  return { left: Math.max(0, left), top: y - PRESSED / 2, width: width + Math.min(0, left), height: PRESSED };
}
