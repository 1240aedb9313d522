// Addresses inside the page: `#bench`, or `#bench?run=...` when a run is shared.

export interface Route {
  /** View asked for; empty when the address names none. */
  readonly view: string;
  /** Text of a shared run, to be read by `decodeLink`. */
  readonly run?: string;
}

const RUN = 'run=';

export function readRoute(hash: string): Route {
  const [view = '', ...rest] = hash.replace(/^#\/?/, '').split('?');
  const query = rest.join('?');
  if (view.startsWith(RUN)) return { view: '', run: view.slice(RUN.length) };
  return query.startsWith(RUN) ? { view, run: query.slice(RUN.length) } : { view };
}

export function routeHash(route: Route): string {
  return route.run === undefined ? `#${route.view}` : `#${route.view}?${RUN}${route.run}`;
}

/**
 * Takes a shared run out of the address bar and returns its text. The address keeps only the view, so that a reload
 * resumes the reader's own run instead of starting the shared one again.
 */
export function takeSharedRun(place: Location, past: History): string | undefined {
  const { view, run } = readRoute(place.hash);
  if (run !== undefined) past.replaceState(past.state, '', routeHash({ view }));
  return run;
}
