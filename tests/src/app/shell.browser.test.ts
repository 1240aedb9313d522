import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { decodeLink, encodeLink, type LinkOptions } from '../../../src/store/keep/link.ts';
import type { Outcome } from '../../../src/store/keep/saved.ts';
import { startBench, withModule, type Bench, type PageOptions } from '../browser.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const VIEWS = ['bench', 'why', 'wrong', 'work-up', 'notebook'];

// A page starts in seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

let bench: Bench;
beforeAll(async () => {
  bench = await startBench();
}, 60_000);
afterAll(async () => {
  await bench.close();
});

async function specimen(options?: PageOptions) {
  const { page, complaints } = await bench.open({ ...options, module: 'tests/src/app/specimen-page.ts' });
  await page.locator('main h1').waitFor();
  return { page, complaints };
}

async function go(page: Page, view: string) {
  await page.evaluate((id) => {
    location.hash = `#${id}`;
  }, view);
  await page.locator('main[aria-busy="false"] h1').waitFor();
}

/** Findings of axe against WCAG 2.2 A and AA and its best practices. */
async function findings(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe: check } = window as unknown as { axe: typeof axe };
    const { violations } = await check.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] });
    return violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
  });
}

describe.each([
  { width: 1280, theme: 'light' },
  { width: 1280, theme: 'dark' },
  { width: 360, theme: 'light' },
  { width: 360, theme: 'dark' },
] as const)('the page at $width px, $theme', (options) => {
  test('has nothing that axe finds and nothing that sticks out, in every view and with the keys open', async () => {
    const { page, complaints } = await specimen(options);
    for (const view of VIEWS) {
      await go(page, view);
      expect(await findings(page), view).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), view).toBeLessThanOrEqual(options.width);
    }
    await page.keyboard.press('?');
    await page.locator('#keys dialog[open]').waitFor();
    expect(await findings(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

test('a view is reached by its link, named in the title and given the focus', async () => {
  const { page } = await specimen();
  await page.getByRole('link', { name: 'Why they separate' }).click();
  await page.getByRole('heading', { name: 'Drawing' }).waitFor();
  expect(await page.title()).toBe('Why they separate - Bandfall');
  expect(await page.getByRole('link', { name: 'Why they separate' }).getAttribute('aria-current')).toBe('page');
  await page.waitForFunction(() => document.querySelector('bf-app')?.shadowRoot?.activeElement?.id === 'main');
  await page.context().close();
});

test('a view that does not load says so and can be tried again', async () => {
  const { page } = await specimen();
  await go(page, 'work-up');
  expect(await page.getByRole('alert').first().textContent()).toContain('Work-up: could not be loaded (no such chunk)');
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.context().close();
});

test('the first Tab reaches the skip button, which goes to the view', async () => {
  const { page } = await specimen();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  expect(await page.evaluate(() => document.querySelector('bf-app')?.shadowRoot?.activeElement?.id)).toBe('main');
  await page.context().close();
});

test('a chosen theme shows at once and is there after a reload', async () => {
  const { page } = await specimen();
  const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  expect(await paper()).toBe('rgb(251, 251, 248)');
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByLabel('Theme').selectOption('dark');
  expect(await paper()).toBe('rgb(15, 21, 29)');
  await page.reload();
  expect(await paper()).toBe('rgb(15, 21, 29)');
  await page.context().close();
});

test('the menu opens the cautions, and Escape leads back', async () => {
  const { page } = await specimen();
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('button', { name: 'Cautions' }).click();
  await page.locator('bf-all-cautions h3').first().waitFor();
  expect(await findings(page)).toEqual([]);
  await page.keyboard.press('Escape');
  await page.locator('bf-all-cautions h3').first().waitFor({ state: 'hidden' });
  await page.context().close();
});

test('the key ? opens the list of keys, Escape closes it, and turned off it does nothing', async () => {
  const { page } = await specimen();
  await page.keyboard.press('?');
  await page.locator('#keys dialog[open]').waitFor();
  await page.getByLabel('Single keys act anywhere on the page').uncheck();
  await page.keyboard.press('Escape');
  await page.locator('#keys dialog[open]').waitFor({ state: 'detached' });
  await page.keyboard.press('?');
  expect(await page.locator('#keys dialog[open]').count()).toBe(0);
  await page.context().close();
});

test('a key typed into a field stays in the field', async () => {
  const { page } = await specimen();
  await page.locator('bf-number input[type="text"]').first().pressSequentially('?');
  expect(await page.locator('#keys dialog[open]').count()).toBe(0);
  await page.context().close();
});

test('a number field passes on a value in range and keeps a wrong one with its reason', async () => {
  const { page } = await specimen();
  await page.evaluate(() => {
    const heard: number[] = [];
    Object.assign(window, { heard });
    document.addEventListener('bf-change', (event) => heard.push((event as CustomEvent<{ value: number }>).detail.value));
  });
  const field = page.locator('bf-number input[type="text"]').first();
  await field.fill('12,5');
  await field.press('Enter');
  await field.press('ArrowUp');
  await field.fill('80');
  await field.press('Enter');
  expect(await page.evaluate(() => (window as unknown as { heard: number[] }).heard)).toEqual([12.5, 13]);
  expect(await page.locator('bf-number').first().getByRole('alert').textContent()).toBe('volume: expected 0.1 to 50 mL, received 80');
  expect(await field.inputValue()).toBe('80');
  await page.context().close();
});

test('choices move by arrow keys and skip a disabled one', async () => {
  const { page } = await specimen();
  await page.getByLabel('9 mol/L HCl').focus();
  await page.keyboard.press('ArrowRight');
  expect(await page.locator('bf-segmented').evaluate((element: HTMLElement & { value?: string }) => element.value)).toBe('water');
  await page.context().close();
});

test('one button folds a caution, keeps the focus and opens it again', async () => {
  const { page } = await specimen();
  await go(page, 'wrong');
  const note = page.locator('bf-caution[topic="acid"]');
  expect(await note.getByRole('button').count()).toBe(1);
  await note.getByRole('button', { name: 'Strong hydrochloric acid' }).click();
  expect(await note.getByRole('listitem').count()).toBe(0);
  expect(await note.evaluate((element) => element.shadowRoot?.activeElement?.className)).toBe('head');
  await page.keyboard.press('Enter');
  expect(await note.getByRole('listitem').count()).toBe(4);
  await page.context().close();
});

test('a line announced twice is spoken twice, and many at once only first and last', async () => {
  const { page } = await specimen();
  const spoken = await page.evaluate(async () => {
    const app = document.querySelector('bf-app');
    const live = app?.shadowRoot?.querySelector('[aria-live]');
    if (!app || !live) throw new Error('bf-app: expected a live region');
    const lines: string[] = [];
    const twice = new Promise<void>((resolve) => {
      new MutationObserver(() => {
        if (lines.push(live.textContent ?? '') === 2) resolve();
      }).observe(live, { childList: true, characterData: true, subtree: true });
    });
    for (const detail of ['clamp open', 'one', 'two', 'clamp open']) app.dispatchEvent(new CustomEvent('bf-announce', { detail }));
    await twice;
    return lines;
  });
  expect(spoken.map((line) => line.trim())).toEqual(['clamp open', 'clamp open']);
  await page.context().close();
});

test('a message is dismissed, or leaves by itself unless it offers something to do', async () => {
  const { page } = await specimen();
  await page.evaluate(() =>
    document.querySelector('bf-app')?.dispatchEvent(new CustomEvent('bf-message', { detail: { kind: 'problem', text: 'link: it is damaged' } })),
  );
  await page.getByText('link: it is damaged').waitFor();
  expect(await findings(page)).toEqual([]);
  await page.getByRole('button', { name: 'Dismiss' }).click();
  expect(await page.getByText('link: it is damaged').count()).toBe(0);
  // A message that comes under a resting pointer waits for it, as one that is being read does.
  await page.clock.install();
  const say = (detail: { kind: string; text: string; action?: object }) =>
    page.evaluate((given) => document.querySelector('bf-app')?.dispatchEvent(new CustomEvent('bf-message', { detail: given })), detail);
  await say({ kind: 'note', text: 'the tube is full' });
  const full = page.getByText('the tube is full');
  await full.hover();
  await page.clock.fastForward(20_000);
  expect(await full.count()).toBe(1);
  await page.mouse.move(0, 0);
  await page.clock.fastForward(20_000);
  await full.waitFor({ state: 'detached' });
  await say({ kind: 'note', text: 'a run was put aside', action: { label: 'Back' } });
  await page.clock.fastForward(60_000);
  expect(await page.getByText('a run was put aside').count()).toBe(1);
  await page.context().close();
});

test('a table is copied as CSV with its numbers in full', async () => {
  const { page } = await specimen();
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByRole('button', { name: /Copy as CSV\s+of Where the cobalt is/ }).click();
  await page.getByText('Where the cobalt is: copied as CSV').first().waitFor();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toContain('receiver: cobalt,0.1195,99.6');
  await page.context().close();
});

test('print shows paper white, no navigation, and every caution whole', async () => {
  const { page } = await specimen({ theme: 'dark' });
  await go(page, 'wrong');
  await page.emulateMedia({ media: 'print' });
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe('rgb(255, 255, 255)');
  expect(await page.locator('nav').isVisible()).toBe(false);
  expect(await page.locator('bf-caution[topic="acetone"] li').first().isVisible()).toBe(true);
  await page.context().close();
});

test('a link made in the browser is read by Node, and the other way round', async () => {
  const run = { base: 'cathode-leach', differences: { title: 'µ Ω' }, seed: 5, log: [{ do: 'stir' as const }] };
  const { page } = await specimen();
  const options: LinkOptions = { seal: true };
  const made = (await withModule(page, 'src/store/keep/link.ts', `module.encodeLink(${JSON.stringify(run)}, ${JSON.stringify(options)})`)) as Outcome<string>;
  expect(made.ok && (await decodeLink(made.value))).toEqual({ ok: true, value: run });
  const here = await encodeLink(run);
  const read = await withModule(page, 'src/store/keep/link.ts', `module.decodeLink('${here.ok ? here.value : ''}')`);
  expect(read).toEqual({ ok: true, value: run });
  await page.context().close();
});
