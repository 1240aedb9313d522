import { ASIDE_WIDTH, asidePlaces, type Layout, NAME_WIDTH, underHalf, WIDE } from '../layout.ts';
import type { ReceiverContent } from '../scene/liquids.ts';
import { asideOrder } from '../sides.ts';

// Where the things that can be pressed stand, px from the top left of the drawing.

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Least width and height of what is pressed, px: WCAG 2.2, 2.5.5 (read by name only) asks 44. */
const LEAST = 44;

export function clampBox({ centre, clamp, width }: Layout): Box {
  return inside(centre - 26, clamp - LEAST / 2, Math.min(80, width - centre + 26), LEAST);
}

/** The open top of the tube. */
export function mouthBox({ centre, radius, wall, rim, bedTop }: Layout): Box {
  const half = Math.max(LEAST / 2, radius + wall + 6);
  return inside(centre - half, Math.max(0, rim - 10), 2 * half, Math.min(LEAST + 20, Math.max(24, bedTop - rim + 4)));
}

/** A box for each receiver that is drawn, by slot. */
export function receiverBoxes<Receiver extends Pick<ReceiverContent, 'slot'>>(
  layout: Layout,
  receivers: readonly Receiver[],
  under: number,
): [Receiver, Box][] {
  const { receiver, height } = layout;
  const others = asideOrder(receivers, under);
  const here = receivers.find(({ slot }) => slot === under);
  const wide = layout.width >= WIDE;
  const half = wide ? Math.max(LEAST / 2, receiver.radius + 5) : underHalf(layout);
  const box = (x: number, tall: number, wide: number): Box => inside(x - wide / 2, receiver.base - tall - 2, wide, height - receiver.base + tall + 2);
  return [
    ...(here ? [[here, box(receiver.x, receiver.height, 2 * half)] satisfies [Receiver, Box]] : []),
    ...asidePlaces(layout, others.length).map((place, i): [Receiver, Box] => [
      others[i],
      wide ? box(place.x + NAME_WIDTH / 2, place.height, 2 * place.radius + NAME_WIDTH + 8) : box(place.x, place.height, ASIDE_WIDTH),
    ]),
  ];
}

function inside(left: number, top: number, width: number, height: number): Box {
  return { left, top, width, height };
}
