import { bottleName } from '../../sim/terms/bottle-name.ts';
import { svg, type SVGTemplateResult } from 'lit';
import { deliveredAtEnd, type Handle } from '../../sim/history/index.ts';
import { millilitres } from '../ui/text/format.ts';
import type { Drawing } from './drawing.ts';
import { textWidth } from './rows/labels.ts';
import { BRACKET_DROP } from './rows/row-receivers.ts';
import './handle.ts';

/** A handle that is being moved, or was dropped and waits for the run to follow. */
export interface Held {
  readonly entry: number;
  readonly kind: Handle['kind'];
  readonly delivered_mL: number;
  /** The handles as they were when it was taken up. */
  readonly handles: readonly Handle[];
  readonly dropped: boolean;
}

export interface PlacedHandle {
  readonly handle: Handle;
  /** Where its change is on the axis. */
  readonly px: number;
  /** Where its sign stands: beside that, where its neighbours leave too little room for a finger. */
  readonly at: number;
  readonly y: number;
  readonly min: number;
  readonly max: number;
  readonly labelled: boolean;
  readonly turned: boolean;
  readonly held: boolean;
}

/** Handles nearer than this would cover each other, px: the next one goes a tier up or down. */
const APART_PX = 29;
const TIER_PX = 28;
const TIERS = 2;
/** Least from one to the next in a tier, px: no target may be narrower than 24 (WCAG 2.2, 2.5.8). */
const LEAST_PX = 24.5;
/** From the middle of a handle to the row that it belongs to, px. */
const ABOVE_PX = 14;
const LEAST_GAP_ML = 0.1;
/** Room of the numbers under an axis, px. */
const NUMBERS_PX = 24;

/** Where the handles stand; those behind a held change of eluent go with it. */
export function placedHandles(handles: readonly Handle[], drawing: Drawing, held: Held | undefined, until_mL = Number.POSITIVE_INFINITY): PlacedHandle[] {
  const moved = handles.map((handle) => ({ ...handle, label: labelOf(handle, drawing), delivered_mL: movedTo(handle, handles, held) }));
  return (['eluent', 'receiver'] as const).flatMap((kind) => {
    const own = moved.filter((handle) => handle.kind === kind && handle.delivered_mL <= until_mL);
    const still = handles.filter((handle) => handle.kind === kind);
    const tiers = tiersOf(own.map(({ delivered_mL }) => drawing.x(delivered_mL)));
    return besideEachOther(own.map((handle, i) => place(drawing, handle, own, still, tiers[i] ?? 0, held)));
  });
}

/** Thin lines from each handle through the rows, interrupted at the numbers of the axis. */
export function stems(placed: readonly PlacedHandle[], { layout: { poured, effluent, receivers } }: Drawing): SVGTemplateResult {
  return svg`<g class="stems">${placed.map(({ handle, px, at, y, held }) => {
    const top = handle.kind === 'eluent' ? `M${at} ${Math.min(y + ABOVE_PX, poured.top)}L${px} ${poured.top}` : `M${px} ${effluent.top}`;
    const below =
      handle.kind === 'eluent'
        ? ''
        : `M${px} ${effluent.bottom + NUMBERS_PX}V${receivers.top + BRACKET_DROP}L${at} ${Math.max(y - ABOVE_PX, receivers.top + BRACKET_DROP)}`;
    return svg`<path class=${held ? 'stem held' : 'stem'} d=${`${top}V${effluent.bottom}${below}`}></path>`;
  })}</g>`;
}

/** Liquids by the label on their bottle. */
function labelOf({ kind, label }: Handle, { scenario }: Drawing): string {
  return kind === 'eluent' ? bottleName(label, scenario.liquids) : label;
}

function movedTo(handle: Handle, handles: readonly Handle[], held: Held | undefined): number {
  if (!held) return handle.delivered_mL;
  if (handle.entry === held.entry && handle.kind === held.kind) return held.delivered_mL;
  const taken = handles.find(({ entry, kind }) => entry === held.entry && kind === held.kind);
  return held.kind === 'eluent' && taken && handle.entry > held.entry ? handle.delivered_mL + held.delivered_mL - taken.delivered_mL : handle.delivered_mL;
}

function place(drawing: Drawing, handle: Handle, own: readonly Handle[], still: readonly Handle[], tier: number, held: Held | undefined): PlacedHandle {
  const {
    x,
    layout: { poured, receivers, left, right, narrow },
  } = drawing;
  const i = own.indexOf(handle);
  const at = still.findIndex(({ entry }) => entry === handle.entry);
  const px = Math.max(left, Math.min(right, x(handle.delivered_mL)));
  const room = textWidth(`${handle.label} at ${millilitres(handle.delivered_mL)}`) + 18;
  const next = own[i + 1];
  const free = (next ? x(next.delivered_mL) - ABOVE_PX : right + 40) - px;
  const eluent = handle.kind === 'eluent';
  return {
    handle,
    px,
    at: px,
    y: eluent ? poured.top - ABOVE_PX - tier * TIER_PX : receivers.top + BRACKET_DROP + tier * TIER_PX,
    min: (still[at - 1]?.delivered_mL ?? 0) + LEAST_GAP_ML,
    max: eluent ? drawing.x.domain()[1] : (still[at + 1]?.delivered_mL ?? deliveredAtEnd(drawing.plan)) - LEAST_GAP_ML,
    labelled: eluent && !narrow && tier === 0 && free > room,
    turned: px + room > right + 40,
    held: held?.entry === handle.entry && held.kind === handle.kind && !held.dropped,
  };
}

/** Tier of each handle, the lowest that has no neighbour in it. */
function tiersOf(places: readonly number[]): number[] {
  const last = new Array<number>(TIERS).fill(Number.NEGATIVE_INFINITY);
  return places.map((px) => {
    const free = last.findIndex((before) => px - before >= APART_PX);
    const tier = free < 0 ? last.indexOf(Math.min(...last)) : free;
    last[tier] = px;
    return tier;
  });
}

/** Handles of one tier moved aside as little as will do, in squares, so that each can be pressed: neighbours that would meet share the way. */
function besideEachOther(placed: readonly PlacedHandle[]): PlacedHandle[] {
  const rows = new Map<number, PlacedHandle[]>();
  for (const one of placed) rows.set(one.y, [...(rows.get(one.y) ?? []), one]);
  const at = new Map([...rows.values()].flatMap((row) => spread(row.map(({ px }) => px)).map((x, i) => [row[i], x] as const)));
  return placed.map((one) => ({ ...one, at: at.get(one) ?? one.px }));
}

/** Less their own places in a row, positions must not fall: those that do are pooled to their mean. */
function spread(places: readonly number[]): number[] {
  const pools: { sum: number; count: number }[] = [];
  for (const [i, px] of places.entries()) {
    let last = { sum: px - i * LEAST_PX, count: 1 };
    for (let before = pools.at(-1); before && before.sum / before.count > last.sum / last.count; before = pools.at(-1)) {
      last = { sum: before.sum + last.sum, count: before.count + last.count };
      pools.pop();
    }
    pools.push(last);
  }
  return pools.flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count)).map((px, i) => px + i * LEAST_PX);
}
