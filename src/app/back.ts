// The Back button of the browser: it closes what was opened last, and leaves the page only when it is pressed twice.

/** Marks of entries of the history; the floor is the entry that the page was opened at. */
const FLOOR = 'floor';
const ABOVE = 'above';

/**
 * Puts an entry above the one that the page was opened at as soon as something is pressed (browsers skip entries that nobody's
 * press has made), so that the first Back stays on the page. `warn` is called then.
 */
export function guardBack(place: Window, warn: () => void): void {
  const { history } = place;
  const mark = (): unknown => (history.state as { bandfall?: unknown } | null)?.bandfall;
  if (mark() === undefined) history.replaceState({ bandfall: FLOOR }, '');
  const rise = (): void => {
    if (mark() === FLOOR) history.pushState({ bandfall: ABOVE }, '');
  };
  place.addEventListener('pointerdown', rise, { capture: true });
  place.addEventListener('keydown', rise, { capture: true });
  place.addEventListener('popstate', () => {
    if (mark() === FLOOR) warn();
  });
}
