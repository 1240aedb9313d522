import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { kept, more, PATIENCE_MS, ready, still } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// What leaves, as the eye sees it: coloured portions in the strip, up to the moment that is shown.

const LONG = 300_000;

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

/** Does what the task proposes until so much is delivered, mL, or nothing is left to do. */
async function goOnTo(page: Page, mL: number): Promise<void> {
  for (let i = 0; i < 12 && (await now(page)) < mL; i++) {
    const { log } = await kept(page);
    await page.keyboard.press('n');
    await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(log.length);
    await still(page);
  }
}

async function now(page: Page): Promise<number> {
  const { now_min } = await kept(page);
  // Before anything has happened there is nothing to look back at.
  return now_min > 0 ? Number(await page.getByRole('slider', { name: 'Moment shown' }).getAttribute('aria-valuenow')) : 0;
}

/** Right ends and colours of the portions, and where the moment stands, px. */
async function drips(page: Page) {
  const portions = page.locator('bf-figure g.dripped rect[fill^="#"]');
  const drawn = await portions.evaluateAll((all) => all.map((rect) => ({ right: rect.getBoundingClientRect().right, fill: rect.getAttribute('fill') ?? '' })));
  const line = await page.locator('bf-figure g.cursor.now line').boundingBox();
  return { drawn, now_px: line?.x ?? Number.NaN, spoken: (await page.locator('bf-figure svg.plot').getAttribute('aria-label')) ?? '' };
}

const channels = (hex: string) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
const isGreen = ({ fill }: { fill: string }) => channels(fill)[1] > channels(fill)[2] + 12;
const isPink = ({ fill }: { fill: string }) => channels(fill)[0] > channels(fill)[1] + 12;

test(
  'by eye the strip shows the colours of what has left, named as well, and none of what is to come',
  async () => {
    const { page, close } = await session.openPage({ column: 1, reducedMotion: 'reduce', viewport: { width: 1280, height: 720 } });
    await ready(page);
    expect((await drips(page)).drawn).toEqual([]);
    await goOnTo(page, 35);
    await page.locator('bf-figure g.dripped').waitFor({ state: 'attached', timeout: PATIENCE_MS });
    const washed = await drips(page);
    const asks = page.locator('bf-figure svg text', { hasText: 'where does the cobalt begin to leave (first 1\u202f%)?' });
    expect(await asks.count()).toBe(1);
    expect(washed.drawn.some(isGreen)).toBe(true);
    expect(washed.drawn.some(isPink)).toBe(false);
    expect(Math.abs(Math.max(...washed.drawn.map(({ right }) => right)) - washed.now_px)).toBeLessThan(2);
    expect(washed.spoken).toMatch(/green from/);
    expect(washed.spoken).not.toContain('pink');
    await page.locator('bf-figure svg text', { hasText: /^(pale )?green$/ }).waitFor();

    await goOnTo(page, 62);
    const eluted = await drips(page);
    expect(await asks.count()).toBe(0);
    expect(eluted.drawn.some(isPink)).toBe(true);
    expect(eluted.spoken).toMatch(/green from .*pink from/);

    const dialog = await more(page);
    await page.getByRole('checkbox', { name: 'exaggerate faint colours' }).check();
    await dialog.getByRole('button', { name: 'Close' }).click();
    const palest = (shown: typeof eluted) => Math.min(...shown.drawn.flatMap(({ fill }) => channels(fill)));
    expect(palest(await drips(page))).toBeLessThan(palest(eluted) - 12);

    await page.getByRole('slider', { name: 'Moment shown' }).focus();
    await page.keyboard.press('Home');
    await page.getByText('Looking back at').waitFor({ timeout: PATIENCE_MS });
    const before = await drips(page);
    expect(before.drawn.some(isGreen) || before.drawn.some(isPink)).toBe(false);
    expect(before.spoken).not.toContain('pink');
    await close();
  },
  LONG,
);
