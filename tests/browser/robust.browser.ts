import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { kept, withForecast } from './bench-rig.ts';
import { packagesFrom } from './packages.ts';
import { KEEPS_NOTHING, launch, type Session } from './session.ts';

// What a server may do to the page: send a strict policy, lose a part of it, or be away. In each case nothing is lost and it is said.

// Trusted Types are not required: threads are made from addresses, `new Worker(url)`, which that policy refuses as plain text.
const POLICY = "default-src 'self'; style-src 'self'";
const VIEWS = ['bench', 'why', 'faults', 'workup', 'notebook', 'plan', 'class'];
const WAIT = { timeout: 30_000 };
/** Written by the build itself. */
const VIRTUAL = 'virtual:';

let session: Session;

beforeAll(async () => {
  session = await launch({ policy: POLICY });
});

afterAll(async () => {
  await session.close();
});

/** A page that may complain, because a part of it is kept away. */
async function without(part: RegExp): Promise<{ context: BrowserContext; page: Page }> {
  const context = await session.browser.newContext({ serviceWorkers: 'block' });
  await context.route(part, (route) => route.abort());
  const page = await context.newPage();
  await page.goto(session.base);
  return { context, page };
}

/** Chooses from the menu of the page. */
async function chosen(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Menu', exact: true }).click();
  await page.getByRole('button', { name, exact: true }).click();
}

describe('under a policy that allows only files of its own server', () => {
  test('every view is drawn without a complaint, and what is placed by numbers stands where it should', async () => {
    const { page, close } = await session.openPage();
    for (const view of VIEWS) {
      await page.goto(`${session.base}#${view}`);
      await page.locator(`main bf-${view}`).waitFor(WAIT);
    }
    await page.goto(`${session.base}#bench`);
    await withForecast(page);
    const canvas = page.locator('bf-figure canvas').first();
    await canvas.waitFor(WAIT);
    expect(await canvas.evaluate((element) => getComputedStyle(element).left)).toMatch(/^[1-9]\d*(\.\d+)?px$/);
    await close();
  });
});

describe('a part that is missing', () => {
  test('is said; Try again brings it once it is there, and the run is as it was', async () => {
    const missing = /assets\/view-[^/]*\.js/;
    const { context, page } = await without(/assets\/.*none/);
    await page.locator('bf-bench').waitFor(WAIT);
    await context.route(missing, (route) => route.abort());
    await page.locator('bf-app').getByRole('link', { name: 'Notebook' }).click();
    const again = page.getByRole('button', { name: 'Try again' });
    await again.waitFor(WAIT);
    await context.unroute(missing);
    await again.click();
    await page.locator('main bf-notebook').waitFor(WAIT);
    await context.close();
  });

  test('is said when it is the glass, and the bench works', async () => {
    const { context, page } = await without(/assets\/glass-[^/]*\.js/);
    await page.locator('bf-figure').waitFor(WAIT);
    await page.getByText('The glass could not be loaded; the rest of the page works.').waitFor(WAIT);
    await context.close();
  });

  test('is said when it is the coach, and the bench works', async () => {
    const { context, page } = await without(/assets\/coach-[^/]*\.js/);
    await page.locator('bf-figure').waitFor(WAIT);
    await page.getByText('The coach could not be loaded; the rest of the page works.').waitFor(WAIT);
    await context.close();
  });

  test.each([
    ['the bands of the figure', /assets\/instruments-[^/]*\.js/],
    ['the menu', /assets\/run-menu-[^/]*\.js/],
    ['the cautions', /assets\/signs-[^/]*\.js/],
  ])('is said when it is %s, and the bench works', async (name, part) => {
    const { context, page } = await without(part);
    await page.locator('bf-figure').waitFor(WAIT);
    await page.getByText(`${name.slice(1)} could not be loaded; the rest of the page works.`).waitFor(WAIT);
    await page.locator('bf-task li.now').waitFor(WAIT);
    await context.close();
  });

  test.each([
    ['Keys', 'The keys could not be loaded; the rest of the page works.', /assets\/keys-list-[^/]*\.js/],
    ['Cautions', 'The cautions could not be loaded; the rest of the page works.', /assets\/all-cautions-[^/]*\.js/],
  ])('is said when it is wanted: %s', async (name, words, part) => {
    const { context, page } = await without(part);
    await page.locator('bf-figure').waitFor(WAIT);
    await chosen(page, name);
    await page.getByText(words, { exact: true }).waitFor(WAIT);
    expect(await page.getByRole('dialog', { name }).isVisible()).toBe(false);
    await context.close();
  });

  const gone = [
    ['a view', 'later', /assets\/view-[^/]*\.js/, (page: Page) => page.locator('bf-app').getByRole('link', { name: 'Notebook' }).click()],
    ['the keys', 'from the start', /assets\/keys-list-[^/]*\.js/, (page: Page) => page.keyboard.press('?')],
    ['the cautions', 'from the start', /assets\/all-cautions-[^/]*\.js/, (page: Page) => chosen(page, 'Cautions')],
  ] as const;

  test.each(gone)('that never comes calls for a fresh page; where the browser keeps nothing, it is said and the run stays: %s', async (_, when, part, ask) => {
    const context = await session.browser.newContext({ serviceWorkers: 'block' });
    await context.addInitScript(KEEPS_NOTHING);
    const goes = () => context.route(part, (route) => route.abort());
    if (when === 'from the start') await goes();
    const page = await context.newPage();
    await page.goto(session.base);
    await page.locator('bf-figure').waitFor(WAIT);
    // What the bench shares with the other views is there by now.
    if (when === 'later') await goes();
    await page.evaluate('window.samePage = true');
    await ask(page);
    await page.getByRole('button', { name: 'Try again' }).click(WAIT);
    await page.getByText(/This browser keeps nothing: save the run as a file, then reload\./).waitFor(WAIT);
    expect(await page.evaluate('window.samePage')).toBe(true);
    await context.close();
  });

  test('that comes no more to this page comes to a fresh one, with the run as it was, where the browser keeps it', async () => {
    const { context, page } = await without(/assets\/keys-list-[^/]*\.js/);
    await page.locator('bf-task li.now').waitFor(WAIT);
    await page.keyboard.press('n');
    await expect.poll(async () => (await kept(page)).log.length, WAIT).toBeGreaterThan(0);
    const before = await kept(page);
    await page.evaluate('window.samePage = true');
    await page.keyboard.press('?');
    await page.getByRole('button', { name: 'Try again' }).click(WAIT);
    await expect.poll(() => page.evaluate('window.samePage').catch(() => true), WAIT).toBe(undefined);
    await page.locator('bf-figure').waitFor(WAIT);
    expect((await kept(page)).log).toEqual(before.log);
    await context.unrouteAll();
    await page.reload();
    await page.locator('bf-figure').waitFor(WAIT);
    await page.keyboard.press('?');
    await page.getByRole('dialog', { name: 'Keys' }).waitFor(WAIT);
    await context.close();
  });

  test('leaves the menu as it was when it is a scenario, and says so', async () => {
    const { context, page } = await without(/assets\/six-metals-[^/]*\.js/);
    await page.locator('bf-figure').waitFor(WAIT);
    const select = page.locator('bf-scenario-choice select');
    const before = await select.inputValue();
    await select.selectOption('six-metals');
    await page.getByText('That scenario was not opened.').waitFor(WAIT);
    expect(await select.inputValue()).toBe(before);
    await context.close();
  });
});

describe('what was kept and cannot be read', () => {
  test.each([
    ['nested deeper than any run', `${'['.repeat(200_000)}`],
    ['cut off', '{"version":1,"tab":"a","run":{"base":"cathode-leach"'],
    ['of a name that is no scenario', JSON.stringify({ version: 1, tab: 'a', run: { base: 'gone', differences: {}, seed: 1, log: [] } })],
  ])('%s is moved aside word for word, said in few words, and the page starts', async (_, text) => {
    const context = await session.browser.newContext({ serviceWorkers: 'block' });
    await context.addInitScript(`localStorage.getItem('bandfall.unread.1') ?? localStorage.setItem('bandfall.run', ${JSON.stringify(text)})`);
    const page = await context.newPage();
    await page.goto(session.base);
    const line = page.getByText(/^autosave: the run kept in this browser could not be/);
    await line.waitFor(WAIT);
    expect((await line.innerText()).length).toBeLessThan(3000);
    await page.locator('bf-figure').waitFor(WAIT);
    const unread = await page.evaluate<string>(`localStorage.getItem('bandfall.unread.1')`);
    expect(JSON.parse(unread).text).toBe(text);
    await context.close();
  });
});

test('the notices of everything that is bundled are beside the page', () => {
  const dist = join(import.meta.dirname, '..', '..', 'dist');
  const notices = readFileSync(join(dist, 'licences.md'), 'utf8');
  const packages = [...packagesFrom('src/main.ts')].filter((name) => !name.startsWith(VIRTUAL));
  expect(packages).toContain('lit');
  for (const name of packages) expect(notices, name).toMatch(new RegExp(`^## ${name} - `, 'm'));
  expect(notices).toContain('Permission is hereby granted');
});
