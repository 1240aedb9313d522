import type { BrowserContext, ConsoleMessage, Page } from 'playwright-core';

// What a page must not do: warn, fail, or ask anything of another server.

/** Said by the test browser about itself, not by the page: the speed of its renderer, what it was told to block. */
const RENDERER_REMARKS = [/GL Driver Message .*GPU stall due to ReadPixels/, /^Service Worker registration blocked by Playwright/];
const LOCAL_SCHEMES = ['data:', 'blob:', 'about:'];

/** A list that grows with every complaint about any page of the context. */
export function watch(context: BrowserContext, origin: string): string[] {
  const complaints: string[] = [];
  context.on('page', (page) => watchPageInto(complaints, page));
  context.on('console', (message) => {
    if (isComplaint(message)) complaints.push(`console ${message.type()}: ${message.text()} (${message.location().url})`);
  });
  context.on('weberror', (error) => complaints.push(`page error: ${error.error().stack ?? error.error().message}`));
  context.on('request', (request) => {
    if (!isOwn(request.url(), origin)) complaints.push(`request outside ${origin}: ${request.url()}`);
  });
  context.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`response ${response.status()}: ${response.url()}`);
  });
  return complaints;
}

function watchPageInto(complaints: string[], page: Page): void {
  page.on('websocket', (socket) => complaints.push(`web socket: ${socket.url()}`));
  page.on('crash', () => complaints.push(`crash: ${page.url()}`));
}

function isComplaint(message: ConsoleMessage): boolean {
  return ['warning', 'error', 'assert'].includes(message.type()) && !RENDERER_REMARKS.some((remark) => remark.test(message.text()));
}

function isOwn(url: string, origin: string): boolean {
  return url.startsWith(`${origin}/`) || LOCAL_SCHEMES.some((scheme) => url.startsWith(scheme));
}
