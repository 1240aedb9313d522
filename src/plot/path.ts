// Paths of curves and areas, and the shapes of markers, as text for the `d` of an SVG path.

/** x and y, px. */
export type Place = readonly [number, number];

/** A line through the places, with a gap where one of them is not finite; so many decimals. */
export function curvePath(places: readonly Place[], decimals = 2): string {
  // A single place is closed, so that a round or square cap makes it a dot.
  return stretches(places.map(isFinitePlace))
    .map(([from, to]) => `M${joined(places.slice(from, to), decimals)}${to - from === 1 ? 'Z' : ''}`)
    .join('');
}

/** The area between two lines of as many places each, with gaps where one of either is not finite. */
export function areaPath(upper: readonly Place[], lower: readonly Place[], decimals = 1): string {
  return stretches(upper.map((place, i) => isFinitePlace(place) && isFinitePlace(lower[i])))
    .map(([from, to]) => `M${joined([...upper.slice(from, to), ...lower.slice(from, to).reverse()], decimals)}Z`)
    .join('');
}

/** A circle of that area, px², about the origin. */
export function circlePath(area: number, decimals = 2): string {
  const r = rounded(Math.sqrt(area / Math.PI), decimals);
  return `M${r},0A${r},${r},0,1,1,${-r},0A${r},${r},0,1,1,${r},0`;
}

function joined(places: readonly Place[], decimals: number): string {
  return places.map(([x, y]) => `${rounded(x, decimals)},${rounded(y, decimals)}`).join('L');
}

/** From and to, the last left out, of the stretches that are true. */
function stretches(there: readonly boolean[]): Place[] {
  const found: [number, number][] = [];
  there.forEach((is, i) => {
    if (!is) return;
    if (i > 0 && there[i - 1]) found[found.length - 1][1] = i + 1;
    else found.push([i, i + 1]);
  });
  return found;
}

function isFinitePlace([x, y]: Place): boolean {
  return Number.isFinite(x) && Number.isFinite(y);
}

function rounded(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals;
}
