import { resolve } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { findBrowser } from '../../.config/browser.ts';
import { scenarioTitles } from '../../.config/scenario-titles.ts';

// A real browser on the page as the development server gives it.

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: 'light' | 'dark';
  /** Module of the project to run on an otherwise empty `<bf-app>`, instead of the page as it ships. */
  readonly module?: string;
}

export interface Bench {
  /** A fresh page, loaded; `complaints` collects every warning and error of its console. */
  open(options?: PageOptions): Promise<{ page: Page; complaints: string[] }>;
  close(): Promise<void>;
}

const ARGUMENTS = ['--no-sandbox', '--headless', '--disable-gpu', '--disable-background-networking', '--no-first-run'];

export async function startBench(): Promise<Bench> {
  const server = await createServer({
    configFile: false,
    root: 'src',
    base: './',
    logLevel: 'error',
    plugins: [scenarioTitles(resolve('scenarios'))],
    // Named, not discovered: a dependency found late makes the server reload the page under the test.
    optimizeDeps: { include: ['@preact/signals-core', 'lit', 'lit/decorators.js', 'd3-scale', 'd3-shape', 'three'] },
    server: { port: 5300, fs: { allow: ['..'] } },
  });
  await server.listen();
  const { executablePath, env } = await findBrowser();
  const browser = await chromium.launch({ executablePath, args: ARGUMENTS, env: { ...process.env, ...env } });
  return {
    open: (options = {}) => openPage(server, browser, options),
    async close() {
      await browser.close();
      await server.close();
    },
  };
}

/**
 * Calls `body` in the page with a module of the project as `module`. Both are text: the test runner rewrites imports, and
 * the rewritten form means nothing in the page.
 */
export function withModule(page: Page, path: string, body: string): Promise<unknown> {
  return page.evaluate(`import(${JSON.stringify(`/@fs${resolve(path)}`)}).then((module) => (${body}))`);
}

async function openPage(server: ViteDevServer, browser: Browser, { width = 1280, height = 720, theme = 'light', module }: PageOptions) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: theme });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (line) => {
    const developing = line.text().startsWith('Lit is in dev mode');
    if (['warning', 'error'].includes(line.type()) && !developing) complaints.push(line.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  const home = server.resolvedUrls?.local[0] ?? '';
  if (module) await context.route(`${home}specimen.html`, (route) => route.fulfill({ contentType: 'text/html', body: specimenHtml(module) }));
  await page.goto(module ? `${home}specimen.html` : home);
  return { page, complaints };
}

function specimenHtml(module: string): string {
  return `<!doctype html><html lang="en"><title>Specimen</title><bf-app></bf-app><script type="module" src="/@fs${resolve(module)}"></script></html>`;
}
