// Addresses inside the page: `#bench`, `#class/hand-out` for a part of a view, or `#bench?run=...` with what is shared.

/** What an address can carry: a run, something handed out, a run that is handed in. */
const SHARED = ['run', 'task', 'handed'] as const;
export type SharedKind = (typeof SHARED)[number];

export interface Shared {
  readonly kind: SharedKind;
  /** Packed text. */
  readonly text: string;
}

export interface Route {
  /** View asked for, with its part behind a stroke; empty when the address names none. */
  readonly view: string;
  readonly shared?: Shared;
}

export function readRoute(hash: string): Route {
  const [view = '', ...rest] = hash.replace(/^#\/?/, '').split('?');
  const alone = sharedIn(view);
  if (alone) return { view: '', shared: alone };
  const shared = sharedIn(rest.join('?'));
  return shared ? { view, shared } : { view };
}

export function routeHash({ view, shared }: Route): string {
  return shared === undefined ? `#${view}` : `#${view}?${shared.kind}=${shared.text}`;
}

/**
 * Takes what is shared out of the address bar. The address keeps only the view, so that a reload resumes the reader's own run
 * instead of starting the shared one again.
 */
export function takeShared(place: Location, past: History): Shared | undefined {
  const { view, shared } = readRoute(place.hash);
  if (shared !== undefined) past.replaceState(past.state, '', routeHash({ view }));
  return shared;
}

function sharedIn(query: string): Shared | undefined {
  const kind = SHARED.find((known) => query.startsWith(`${known}=`));
  return kind && { kind, text: query.slice(kind.length + 1) };
}
