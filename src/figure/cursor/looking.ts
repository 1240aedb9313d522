import { html, nothing, type ReactiveControllerHost, svg } from 'lit';
import { deliveredAtEnd, frameAt, onRuler, type Plan, timeAt } from '../../../sim/history/index.ts';
import type { IonId } from '../../../sim/terms/types.ts';
import { cursor } from '../../plot/cursor.ts';
import { emit } from '../../ui/emit.ts';
import { styled } from '../../ui/styled.ts';
import { spoken } from '../../ui/text/format.ts';
import { depthMark } from '../rows/marks.ts';
import type { Worked } from '../worked.ts';
import { type Look, lookByKey, lookByPointer } from './look.ts';

/** Where the cursor is told to be. */
export interface PointDetail {
  readonly delivered_mL: number;
  readonly time_min: number;
  /** Only within the bed. */
  readonly depth_cm?: number;
}

/** Where the reader sets a prediction: a depth for a band, none for what leaves the tip. */
export interface MarkDetail {
  readonly mL: number;
  readonly depth_cm?: number;
}

/** The figure that is looked at. */
interface Looked extends ReactiveControllerHost, EventTarget {
  readonly plan: Plan | undefined;
  readonly now_mL: number;
  readonly showForecast: boolean;
  readonly byEye: IonId | undefined;
  readonly covered: boolean;
  /** Volume marked from outside, mL. */
  readonly cursor_mL: number | undefined;
  /** What reads a place, once it is loaded. */
  readonly instruments: typeof import('../instruments.ts') | undefined;
}

type Pointed = PointerEvent & { currentTarget: HTMLElement };

/** The cursor of a figure, moved by pointer and keys: tells where it is (`bf-point`), asks why there (`bf-ask`), sets a prediction (`bf-mark`). */
export class Looking {
  private readonly host: Looked;
  private worked: Worked | undefined;
  private look: Look | undefined;

  constructor(host: Looked) {
    this.host = host;
  }

  /** Lines through the place looked at, or marked from outside. */
  cross(worked: Worked) {
    const { x, layout } = worked;
    const mL = this.look?.mL ?? this.host.cursor_mL;
    if (mL === undefined) return nothing;
    const across = this.look && this.look.share <= 1 ? depthMark(worked, along(worked, this.look), this.look.mL) : nothing;
    return svg`${cursor({ at: x(mL), top: layout.poured.top, bottom: layout.receivers.top, kind: 'look' })}${across}`;
  }

  /** What takes pointer and keys, and the read-out beside the place. */
  surface(worked: Worked) {
    this.worked = worked;
    const { left, right, poured, effluent } = worked.layout;
    const { byEye, covered, instruments, now_mL } = this.host;
    const place = byEye || covered || !this.look ? undefined : placeOf(worked, this.look);
    const at_mL = place?.delivered_mL ?? now_mL;
    const read = place && this.look && instruments?.readPlace(worked, this.look, place.delivered_mL, place.depth_cm);
    return html`<div class="surface" tabindex="0" role="slider" aria-label="Cursor on the volume axis" aria-valuemin="0" aria-valuemax=${deliveredAtEnd(worked.plan).toFixed(2)}
        aria-valuenow=${at_mL.toFixed(2)} aria-valuetext=${read?.said ?? `${spoken(at_mL, 'mL')} delivered`}
        ${styled({ left: `${left}px`, top: `${poured.top}px`, width: `${right - left}px`, height: `${effluent.bottom - poured.top}px` })}
        @pointermove=${this.move} @pointerdown=${this.press} @pointerleave=${this.leave} @keydown=${this.key} @blur=${this.leave}></div>
      ${read?.box ?? nothing}`;
  }

  private readonly move = (event: Pointed) => {
    if (this.worked) this.lookAt(this.worked, under(this.worked, event, this.lastShown(this.worked)));
  };

  /** By eye a press ahead of the run is a prediction. */
  private readonly press = (event: Pointed) => {
    const { worked, host } = this;
    if (!worked) return;
    if (!host.byEye) this.move(event);
    this.markOrAsk(worked, under(worked, event, worked.end_mL));
  };

  private readonly key = (event: KeyboardEvent) => {
    const { worked, host } = this;
    if (!worked) return;
    if (event.key === 'Enter' && this.look) return this.markOrAsk(worked, this.look);
    const look = lookByKey(this.look ?? { mL: host.now_mL, share: 0 }, event, this.lastShown(worked));
    if (event.key === 'Escape' && this.look) this.leave();
    else if (look) this.lookAt(worked, look);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  private readonly leave = () => {
    if (!this.look) return;
    this.look = undefined;
    this.host.requestUpdate();
    emit(this.host, 'bf-point', undefined);
  };

  private lookAt(worked: Worked, look: Look) {
    this.look = look;
    this.host.requestUpdate();
    const { depth_cm, ...place } = placeOf(worked, look);
    emit<PointDetail>(this.host, 'bf-point', look.share > 0 && look.share <= 1 ? { ...place, depth_cm } : place);
  }

  private markOrAsk(worked: Worked, look: Look) {
    if (this.host.byEye && look.mL > this.host.now_mL) this.mark(worked, look);
    else this.ask(worked, look);
  }

  /** What lies behind the last place shown is not told. */
  private ask(worked: Worked, look: Look) {
    const { showForecast, plan, now_mL } = this.host;
    const last_mL = showForecast && plan ? deliveredAtEnd(plan) : now_mL;
    if (look.share < 0 || look.share > 1 || look.mL > last_mL) return;
    emit(this.host, 'bf-ask', { delivered_mL: look.mL, depth_cm: along(worked, look) });
  }

  /** Marks are read on the ruler, whatever the bed does until then. */
  private mark(worked: Worked, look: Look) {
    const { mL, share } = look;
    const depth = share <= 1 ? { depth_cm: onRuler(worked.plan, frameAt(worked.plan, mL), along(worked, look)) } : {};
    emit<MarkDetail>(this.host, 'bf-mark', { mL, ...depth });
  }

  private lastShown({ plan, end_mL }: Worked): number {
    const { byEye, showForecast, now_mL } = this.host;
    if (byEye) return end_mL;
    return showForecast ? deliveredAtEnd(plan) : Math.min(now_mL, deliveredAtEnd(plan));
  }
}

/** The place of the figure under a pointer over its surface. */
function under(worked: Worked, { clientX, clientY, currentTarget }: Pointed, end_mL: number): Look {
  const { left, poured } = worked.layout;
  const box = currentTarget.getBoundingClientRect();
  return lookByPointer(worked, left + clientX - box.left, poured.top + clientY - box.top, end_mL);
}

/** The depth along the bed as packed, cm. */
function along({ scenario }: Worked, { share }: Look): number {
  return share * scenario.values['bed.length_cm'];
}

function placeOf(worked: Worked, { mL, share }: Look): Required<PointDetail> {
  const delivered_mL = Math.max(0, Math.min(mL, deliveredAtEnd(worked.plan)));
  return { delivered_mL, time_min: timeAt(worked.plan, delivered_mL), depth_cm: along(worked, { mL, share: Math.min(1, share) }) };
}
