import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { choice, expectSameAsHeadless, kept, PATIENCE_MS, reading, ready, still, withoutCoach } from './bench-rig.ts';
import { launch, PHONE, type Session } from './session.ts';

const LONG = 300_000;

describe('the default run', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());

  test.each([
    ['clicking', undefined, false],
    ['tapping on a phone', PHONE, true],
  ] as const)(
    'can be done by %s, and the page shows what the runner gives',
    async (_, viewport, touch) => {
      const opened = await session.openPage({ reducedMotion: 'reduce', ...(viewport ? { viewport } : {}), touch });
      const { page } = opened;
      await ready(page);
      await withoutCoach(page);
      await choice(page, 'receiver', 'nickel').click();
      await page.getByRole('button', { name: 'Open fully' }).click();
      await untilLow(page);
      for (const [liquid, volume] of [
        ['9 M HCl', 7],
        ['9 M HCl', 8],
        ['cathode leach in 9 M HCl', 1],
        ['9 M HCl', 0.5],
        ['9 M HCl', 9.5],
        ['9 M HCl', 9.5],
        ['9 M HCl', 9.5],
        ['water', 6],
      ] as const) {
        await pour(page, liquid, volume);
        if (liquid !== 'water') await untilLow(page);
      }
      const { now_min } = await kept(page);
      await page.getByRole('combobox', { name: 'run until' }).selectOption('more');
      await page.getByRole('button', { name: 'Run until' }).click();
      await expect.poll(async () => (await kept(page)).now_min, { timeout: PATIENCE_MS }).toBeGreaterThan(now_min);
      await still(page);
      await choice(page, 'receiver', 'cobalt').click();
      await page.getByRole('combobox', { name: 'run until' }).selectOption('level');
      await untilLow(page);
      await pour(page, 'water', 8);
      await untilLow(page);
      await page.getByRole('button', { name: 'Shut' }).click();
      await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
      const results = await expectSameAsHeadless(page);
      const cobalt = results.receivers.find(({ label }) => label === 'cobalt');
      expect(Number(cobalt?.['Co_mmol'])).toBeGreaterThan(0.179);
      await page.getByRole('button', { name: 'Debrief' }).click();
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      await page.getByText('took 100.0').waitFor();
      await opened.close();
    },
    LONG,
  );

  test(
    'can be done by keyboard alone',
    async () => {
      const opened = await session.openPage({ reducedMotion: 'reduce' });
      const { page } = opened;
      await ready(page);
      await tabTo(page, 'the procedure');
      await page.keyboard.press('Enter');
      await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
      await expectSameAsHeadless(page);
      await page.keyboard.press('b');
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(33);
      await page.keyboard.press('z');
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(34);
      await page.keyboard.press('d');
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      await page.keyboard.press('d');
      await page.getByRole('heading', { name: 'Now' }).waitFor();
      await opened.close();
    },
    LONG,
  );

  test(
    'can be poured, played and changed by single keys and arrow keys',
    async () => {
      const opened = await session.openPage({ reducedMotion: 'reduce' });
      const { page } = opened;
      await ready(page);
      await page.keyboard.press('r');
      await acts(page, 'receiver');
      await page.keyboard.press('o');
      await acts(page, 'clamp');
      await page.keyboard.press('p');
      await acts(page, 'pour');
      await page.keyboard.press(' ');
      await page.getByRole('button', { name: 'Pause' }).waitFor();
      await page.keyboard.press(' ');
      await still(page);
      await page.keyboard.press('?');
      await page.getByRole('dialog', { name: 'Keys' }).waitFor();
      await page.getByText('pour the chosen liquid').waitFor();
      await opened.close();
    },
    LONG,
  );
});

async function pour(page: Page, liquid: string, volume: number): Promise<void> {
  const { log } = await kept(page);
  await choice(page, 'liquid', liquid).click();
  const field = page.locator('bf-pour').getByRole('textbox', { name: 'volume' });
  await field.fill(String(volume));
  await field.press('Enter');
  await page.getByRole('button', { name: 'Pour', exact: true }).click();
  await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(log.length + 1);
}

async function untilLow(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Run until' }).click();
  await expect.poll(() => reading(page, 'liquid above'), { timeout: PATIENCE_MS }).toBe('1 mm');
  await still(page);
}

async function acts(page: Page, last: string): Promise<void> {
  await expect.poll(async () => (await kept(page)).log.at(-1)?.do, { timeout: PATIENCE_MS }).toBe(last);
}

/** Moves the focus forward until it is on a button of that name. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab');
    const text = await page.evaluate<string>(
      `(() => { let e = document.activeElement; while (e?.shadowRoot?.activeElement) e = e.shadowRoot.activeElement; return e?.textContent ?? ''; })()`,
    );
    if (text.includes(name)) return;
  }
  throw new Error(`button ${name}: expected within 120 steps of Tab, received none`);
}
