// Rectangles of a drawing, px from its top left corner.

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Whether they share more than an edge. */
export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** Whether a line through these points enters the box. */
export function crosses(line: readonly Point[], box: Box): boolean {
  return line.some((to, i) => i > 0 && enters(line[i - 1], to, box));
}

/** The part of the segment that lies between the four sides is not empty (clipping by one side after the other). */
function enters(a: Point, b: Point, { left, right, top, bottom }: Box): boolean {
  if (Math.max(a.x, b.x) <= left || Math.min(a.x, b.x) >= right || Math.max(a.y, b.y) <= top || Math.min(a.y, b.y) >= bottom) return false;
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  let [from, to] = [0, 1];
  for (const [along, room] of [
    [-dx, a.x - left],
    [dx, right - a.x],
    [-dy, a.y - top],
    [dy, bottom - a.y],
  ]) {
    if (!(along !== 0)) {
      if (!(room > 0)) return false;
    } else if (along < 0) from = Math.max(from, room / along);
    else to = Math.min(to, room / along);
  }
  return from < to;
}
