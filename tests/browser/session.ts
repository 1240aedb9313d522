import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { findBrowser } from '../../.config/browser.ts';
import { type DistServer, serveDist } from './dist-server.ts';
import { watch } from './watch.ts';

// A real browser on the built page. A test file launches one session, opens a page a test, and closes both.

export interface SessionOptions {
  /** False: as on a machine without WebGL. */
  readonly webgl?: boolean;
  readonly flags?: readonly string[];
  /** Content policy that the server sends. */
  readonly policy?: string;
}

export interface PageOptions {
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: 'light' | 'dark';
  readonly reducedMotion?: 'reduce' | 'no-preference';
  readonly forcedColors?: 'active' | 'none';
  /** A telephone: touch and a coarse pointer. */
  readonly touch?: boolean;
  /** Behind the address, such as "#bench". */
  readonly hash?: string;
  /** Seed of the column that a new visitor finds; drawn when left out. */
  readonly column?: number;
}

export interface OpenedPage {
  readonly page: Page;
  /** Warnings, errors and requests to other servers so far. */
  readonly complaints: string[];
  /** Closes the page; throws if it has complained. */
  close(): Promise<void>;
}

export interface Session {
  readonly origin: string;
  readonly base: string;
  readonly browser: Browser;
  openPage(options?: PageOptions): Promise<OpenedPage>;
  /** Ends browser and server; throws if a page that is still open has complained. */
  close(): Promise<void>;
}

/** Text of a script: as in a browser that is told to keep nothing: asking for its storage fails. */
export const KEEPS_NOTHING = `for (const name of ['localStorage', 'sessionStorage'])
  Object.defineProperty(window, name, { get() { throw new DOMException('denied', 'SecurityError'); } });`;

export const DESKTOP = { width: 1280, height: 800 };
export const PHONE = { width: 360, height: 740 };

const FLAGS = ['--no-sandbox', '--disable-background-networking', '--no-first-run', '--no-default-browser-check', '--force-color-profile=srgb'];
const WITH_WEBGL = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'];
const WITHOUT_WEBGL = ['--disable-gpu', '--disable-3d-apis'];
// Whatever the page asks of another server stays on this machine.
const OFFLINE = '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1';

export async function launch({ webgl = true, flags = [], policy }: SessionOptions = {}): Promise<Session> {
  const { executablePath, env } = await findBrowser();
  const server = await serveDist(policy);
  const args = [...FLAGS, OFFLINE, ...(webgl ? WITH_WEBGL : WITHOUT_WEBGL), ...flags];
  const browser = await chromium.launch({ executablePath, args, env: { ...process.env, ...env } }).catch(async (error: unknown) => {
    await server.close();
    throw error;
  });
  return sessionOf(browser, server);
}

function sessionOf(browser: Browser, server: DistServer): Session {
  const open = new Set<OpenedPage>();
  return {
    origin: server.origin,
    base: server.base,
    browser,
    async openPage(options = {}) {
      const opened = await openPage(browser, server, options, () => open.delete(opened));
      open.add(opened);
      return opened;
    },
    async close() {
      const complaints = [...open].flatMap((opened) => opened.complaints);
      await browser.close();
      await server.close();
      refuse(complaints);
    },
  };
}

async function openPage(browser: Browser, server: DistServer, options: PageOptions, onClose: () => void): Promise<OpenedPage> {
  const context = await browser.newContext(contextOptions(options));
  const complaints = watch(context, server.origin);
  if (options.column !== undefined) await context.addInitScript(drawing(options.column));
  const page = await context.newPage();
  await page.goto(`${server.base}${options.hash ?? ''}`);
  return { page, complaints, close: () => closePage(context, complaints, onClose) };
}

/** Text of a script that lets the page draw this number whenever it draws one alone: the seed of a new visitor's column. */
function drawing(seed: number): string {
  return `{
    const draw = crypto.getRandomValues.bind(crypto);
    crypto.getRandomValues = (into) => (into.length === 1 ? into.fill(${seed}) : draw(into));
  }`;
}

/** No service worker: what it keeps has tests of its own, and each new context would fetch the whole release. */
function contextOptions({ viewport = DESKTOP, colorScheme = 'light', reducedMotion, forcedColors, touch = false }: PageOptions): BrowserContextOptions {
  return { viewport, colorScheme, reducedMotion, forcedColors, hasTouch: touch, isMobile: touch, acceptDownloads: true, serviceWorkers: 'block' };
}

async function closePage(context: BrowserContext, complaints: readonly string[], onClose: () => void): Promise<void> {
  onClose();
  await context.close();
  refuse(complaints);
}

function refuse(complaints: readonly string[]): void {
  if (complaints.length > 0) throw new Error(`page: expected no warning, error or outside request; received\n  ${complaints.join('\n  ')}`);
}
