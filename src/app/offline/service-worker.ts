/// <reference lib="webworker" />

// Keeps every file of a release, so that the page works without a connection. A release is taken whole or not at all, and takes
// over only when a page asks; what the release before needs is kept beside it for pages that are still open.

/** The files of this release and its name; the build writes both in. */
declare const RELEASE: { readonly name: string; readonly files: readonly string[] };

/** Said by a page that changes to this release; the same word stands in `keep-offline.ts`. */
const TAKE_OVER = 'take over';

// The types of the page say otherwise.
const worker = self as unknown as ServiceWorkerGlobalScope;
const { scope } = worker.registration;
/** Caches belong to a whole origin, which may hold the page more than once. */
const OURS = `bandfall ${scope} `;
const PAGE = new URL('index.html', scope).href;
/** This release and the one before. */
const KEPT = 2;

worker.addEventListener('install', (event) => {
  event.waitUntil(fetchAll());
});

worker.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => worker.clients.claim()));
});

worker.addEventListener('message', ({ data }) => {
  if (data === TAKE_OVER) void worker.skipWaiting();
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'GET' && request.url.startsWith(scope)) event.respondWith(kept(request));
});

async function fetchAll(): Promise<void> {
  const cache = await caches.open(OURS + RELEASE.name);
  await cache.addAll(RELEASE.files.map((file) => new Request(new URL(file, scope), { cache: 'reload' })));
}

async function kept(request: Request): Promise<Response> {
  const own = await caches.open(OURS + RELEASE.name);
  const { origin, pathname } = new URL(request.url);
  const address = request.mode === 'navigate' && origin + pathname === scope ? PAGE : origin + pathname;
  const found = await own.match(address);
  if (found) return found;
  // A part of the release before, wanted by a page that has been open since then.
  for (const name of await ourCaches()) {
    const older = await (await caches.open(name)).match(address);
    if (older) return older;
  }
  return fetch(request);
}

/** Oldest first. */
async function ourCaches(): Promise<string[]> {
  return (await caches.keys()).filter((name) => name.startsWith(OURS));
}

async function dropOld(): Promise<void> {
  const others = (await ourCaches()).filter((name) => name !== OURS + RELEASE.name);
  await Promise.all(others.slice(0, Math.max(0, others.length - KEPT + 1)).map((name) => caches.delete(name)));
}
