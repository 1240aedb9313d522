import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { kept, PATIENCE_MS, ready } from './bench-rig.ts';
import { type DistServer, serveDist } from './dist-server.ts';
import { KEEPS_NOTHING, launch, type Session } from './session.ts';
import { watch } from './watch.ts';

// After the first visit the page needs no connection; a newer release waits until the reader wants it.

const DIST = join(import.meta.dirname, '..', '..', 'dist');
const SCENARIOS = join(import.meta.dirname, '..', '..', 'scenarios');
const VIEWS = ['bench', 'why', 'faults', 'workup', 'notebook', 'plan', 'class', 'lab'];
const POLICY = "default-src 'self'; style-src 'self'";
const WAIT = { timeout: PATIENCE_MS };
const LONG = 300_000;
const READY = `navigator.serviceWorker.ready.then(({ active }) => active.state === 'activated' || new Promise((go) => active.addEventListener('statechange', go, { once: true }))).then(() => true)`;

let session: Session;
let folder: string;
let server: DistServer;

beforeAll(async () => {
  session = await launch({ webgl: false });
});

afterAll(async () => {
  await session.close();
});

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bandfall-page-'));
  cpSync(DIST, folder, { recursive: true });
  server = await serveDist(POLICY, folder);
});

afterEach(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

async function visit(script?: string): Promise<{ page: Page; complaints: string[]; leave: () => Promise<void> }> {
  const context = await session.browser.newContext();
  if (script !== undefined) await context.addInitScript(script);
  const complaints = watch(context, server.origin);
  const page = await context.newPage();
  await page.goto(server.base);
  await ready(page);
  await page.evaluate(READY);
  return { page, complaints, leave: () => context.close() };
}

/** Another release in the place of the one that is served: other names for its files, as every build gives. */
function putNewRelease(): void {
  const worker = join(folder, 'service-worker.js');
  const renamed = readdirSync(join(folder, 'assets')).filter((name) => name.endsWith('.js'));
  const texts = ['index.html', 'service-worker.js', ...readdirSync(join(folder, 'assets')).map((name) => join('assets', name))];
  for (const path of texts) {
    const text = readFileSync(join(folder, path), 'utf8');
    const changed = renamed.reduce((so, name) => so.replaceAll(name, `new-${name}`), text);
    rmSync(join(folder, path));
    writeFileSync(join(folder, renamed.some((name) => path.endsWith(name)) ? path.replace('assets/', 'assets/new-') : path), changed);
  }
  const text = readFileSync(worker, 'utf8');
  writeFileSync(worker, text.replace(/"name":"\w+"/, '"name":"newer"'));
}

describe('without a connection', () => {
  test(
    'every view and every scenario opens after one visit, under a strict policy',
    async () => {
      const { page, complaints, leave } = await visit();
      await server.close();
      await page.reload();
      await ready(page);
      for (const view of VIEWS) {
        await page.goto(`${server.base}#${view}`);
        await page.locator(`main bf-${view}`).waitFor(WAIT);
      }
      await page.goto(`${server.base}#bench`);
      const ids = readdirSync(SCENARIOS)
        .filter((name) => name.endsWith('.json') && name !== 'schema.json')
        .map((name) => name.replace('.json', ''));
      for (const id of ids) {
        await page.locator('bf-scenario-choice select').selectOption(id);
        await expect
          .poll(async () => JSON.parse((await page.evaluate<string | null>(`localStorage.getItem('bandfall.run')`)) ?? '{}').run?.base, WAIT)
          .toBe(id);
      }
      expect(complaints).toEqual([]);
      await leave();
    },
    LONG,
  );
});

describe('a newer release', () => {
  test(
    'leaves an open page whole, is offered, and comes with the run as it was once it is wanted',
    async () => {
      const { page, complaints, leave } = await visit();
      await page.keyboard.press('n');
      await expect.poll(async () => (await kept(page)).log.length, WAIT).toBeGreaterThan(0);
      putNewRelease();
      await page.evaluate(`navigator.serviceWorker.ready.then((registration) => registration.update())`);
      await page.getByText('A new release is ready.').waitFor(WAIT);
      // A part that this page has not asked for yet, and that is no longer on the server.
      await page.goto(`${server.base}#plan`);
      await page.locator('main bf-plan').waitFor(WAIT);
      const before = await kept(page);
      await page.getByRole('button', { name: 'Save and reload' }).click();
      await page
        .locator('script[src*="/new-"]')
        .first()
        .waitFor({ ...WAIT, state: 'attached' });
      await page.locator('main bf-plan').waitFor(WAIT);
      expect((await kept(page)).log).toEqual(before.log);
      expect(complaints).toEqual([]);
      await leave();
    },
    LONG,
  );

  test(
    'is not taken at once where the browser keeps nothing: that is said first, and the page stays until it is asked again',
    async () => {
      const { page, leave } = await visit(KEEPS_NOTHING);
      await page.evaluate('window.samePage = true');
      putNewRelease();
      await page.evaluate(`navigator.serviceWorker.ready.then((registration) => registration.update())`);
      await page.getByRole('button', { name: 'Save and reload' }).click(WAIT);
      await page.getByText('This browser keeps nothing: save the run as a file, then reload.').waitFor(WAIT);
      expect(await page.evaluate('window.samePage')).toBe(true);
      await page.getByRole('button', { name: 'Reload', exact: true }).click();
      await page
        .locator('script[src*="/new-"]')
        .first()
        .waitFor({ ...WAIT, state: 'attached' });
      await leave();
    },
    LONG,
  );

  test(
    'is taken by one tab; another tab goes on with the parts of its own release',
    async () => {
      const { page, leave } = await visit();
      const other = await page.context().newPage();
      await other.goto(`${server.base}#why`);
      await other.locator('main bf-why').waitFor(WAIT);
      putNewRelease();
      await page.evaluate(`navigator.serviceWorker.ready.then((registration) => registration.update())`);
      await page.getByRole('button', { name: 'Save and reload' }).click(WAIT);
      await page
        .locator('script[src*="/new-"]')
        .first()
        .waitFor({ ...WAIT, state: 'attached' });
      await other.evaluate(`location.hash = '#plan'`);
      await other.locator('main bf-plan').waitFor(WAIT);
      await leave();
    },
    LONG,
  );
});

test('the page can be installed: its manifest names itself and stays within its own folder', () => {
  const page = readFileSync(join(DIST, 'index.html'), 'utf8');
  expect(page).toContain('<link rel="manifest" href="./manifest.webmanifest"');
  const manifest = JSON.parse(readFileSync(join(DIST, 'manifest.webmanifest'), 'utf8'));
  expect(manifest).toMatchObject({ name: 'Bandfall', start_url: './', scope: './', display: 'standalone' });
  for (const { src } of manifest.icons) expect(readFileSync(join(DIST, src), 'utf8')).toContain('<svg');
});
