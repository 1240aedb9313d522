/** Said to a release that waits. */
const TAKE_OVER = 'take over';
const FILE = './service-worker.js';

/** Where the browser keeps files for later, keeps this release; `ready` is told how to change to a newer one that waits. */
export async function keepOffline(page: Window, ready: (change: () => void) => void): Promise<void> {
  // Not there on plain http, nor where the browser is told to keep nothing.
  const container = page.navigator.serviceWorker as ServiceWorkerContainer | undefined;
  const registration = await container?.register(FILE, { scope: './', updateViaCache: 'none' }).catch(() => undefined);
  if (!container || !registration) return;
  const offer = (): void => {
    const { waiting } = registration;
    if (waiting && container.controller) ready(() => changeTo(waiting, container, page));
  };
  offer();
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', offer));
  page.document.addEventListener('visibilitychange', () => {
    if (!page.document.hidden) void registration.update().catch(() => undefined);
  });
}

/** Only the tab that asks is loaded anew; others go on with the files of their own release. */
function changeTo(waiting: ServiceWorker, container: ServiceWorkerContainer, page: Window): void {
  container.addEventListener('controllerchange', () => page.location.reload(), { once: true });
  waiting.postMessage(TAKE_OVER);
}
