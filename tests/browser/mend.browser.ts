import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { kept, PATIENCE_MS, reading, ready, still } from './bench-rig.ts';
import { onePage } from './one-page.ts';

// A bed that was let run dry, and what is done for it, on a laptop and on a phone.

const LONG = 300_000;
const LAPTOP = { viewport: { width: 1280, height: 720 }, column: 1, reducedMotion: 'reduce' } as const;
const PHONE = { viewport: { width: 390, height: 844 }, touch: true, column: 1, reducedMotion: 'reduce' } as const;
const it = onePage();

for (const [name, options] of [
  ['laptop', LAPTOP],
  ['phone', PHONE],
] as const)
  test(
    `${name}: a dry bed stays said when the clamp is shut, and “Mend” leads to a cure in one press, while the clock waits`,
    async () => {
      const page = await it.open(options);
      await ready(page);
      await runDry(page);
      await whole(page, /^The bed runs dry and draws air\. Mend it before anything else is poured/);

      // What the list presses for is the same: no portion goes onto a dry bed.
      const press = page.locator('bf-task li.now button.primary');
      await expect.poll(() => press.allTextContents()).toEqual(['Mend the bed first']);
      expect(await page.locator('bf-task').getByRole('button', { name: /mL/ }).count()).toBe(0);
      if (name === 'phone') await mend(page);
      else await press.click();
      await page.getByRole('dialog', { name: 'More of the bench' }).waitFor({ timeout: PATIENCE_MS });
      await still(page);
      const first = page.locator('bf-repair li').first();
      await expect.poll(() => first.textContent()).toMatch(/Fits now: the bed is dry\./);
      expect(await inSight(page, 'bf-repair li button.primary')).toBe(true);
      // However long the sheet is, so is the way out of it.
      expect(await inSight(page, 'bf-more dialog .foot button')).toBe(true);
      const before = await kept(page);
      // A moment that was asked for before the clock stood may still come.
      await page.waitForTimeout(500);
      const clock = await seconds(page);
      await first.getByRole('button', { name: /^Shut the clamp and push in \d\.\d\smL$/ }).click();
      await first.getByText('Done. No air is left in the bed.').waitFor({ timeout: PATIENCE_MS });
      expect(await page.locator('bf-repair').evaluate((part) => part.shadowRoot?.querySelector('li p.mark')?.textContent ?? '')).not.toContain('dry');
      await whole(page, /^No air is left in the bed\.$/);
      // At ×60 the clock would have gone on by a minute and a half.
      await page.waitForTimeout(1500);
      expect((await seconds(page)) - clock).toBeLessThan(10);
      await expect.poll(async () => (await kept(page)).log.filter(({ do: done }) => done !== 'wait').at(-1)?.do).toBe('refill-from-below');

      // Both come back together.
      await first.getByRole('button', { name: 'Undo' }).click();
      await whole(page, /^The bed runs dry/);
      await expect.poll(async () => (await kept(page)).log).toEqual(before.log);
      await page.getByRole('button', { name: 'Close' }).click();

      // The clock goes on as it did; the clamp is shut, and nothing of it is forgotten.
      await page.locator('bf-time button.play', { hasText: 'Pause' }).waitFor({ timeout: PATIENCE_MS, state: 'attached' });
      await expect.poll(() => seconds(page), { timeout: PATIENCE_MS }).toBeGreaterThan(15 * 60);
      await page.keyboard.press('o');
      await whole(page, /^The bed is dry: air is between its white beads\. Mend it/);
      expect((await page.locator('bf-ahead').textContent())?.trim()).toMatch(/^The bed is dry/);
      await page.keyboard.press('p');
      await whole(page, /of air is in the bed: liquid runs past it unevenly\. “Mend” drives it out\.$/);
      await mend(page);
      await page.locator('bf-repair').getByText('Fits now: air is in the bed.').waitFor({ timeout: PATIENCE_MS });

      // Behind a shut clamp nothing flows: the clock stands when the sheet is closed, and the list pours again.
      await page.getByRole('button', { name: 'Close' }).click();
      await page.waitForTimeout(500);
      expect(await page.locator('bf-time button.play').textContent()).toContain('Play');
      await expect.poll(() => press.allTextContents()).toEqual([expect.stringMatching(/mL/)]);

      // The debrief tells of it, and leads to what it cost.
      await page.keyboard.press('d');
      await page
        .locator('bf-debrief .lesson')
        .getByText(/The bed ran dry at \d+\.\d\smin, for \d+\.\d\smin: keep liquid above it/)
        .waitFor({ timeout: PATIENCE_MS });
      await page.getByRole('button', { name: 'Where it went, and why' }).click();
      await expect.poll(() => inSight(page, 'bf-why-lost h2')).toBe(true);
    },
    LONG,
  );

test(
  'a cure that is refused says why beside its press, and whole on the bench of a phone',
  async () => {
    const page = await it.open(PHONE);
    await ready(page);
    await page.getByRole('button', { name: 'More', exact: true }).click();
    await page.getByText('Mend the bed').click();
    const last = page.locator('bf-repair li').last();
    await last.getByRole('button', { name: /^Top up/ }).click();
    await last.getByText('There is no hollow to fill: the bed is full.').waitFor({ timeout: PATIENCE_MS });
    await whole(page, /^There is no hollow to fill/);
  },
  LONG,
);

/** Pours, opens the clamp and lets the clock run fast until the bed is dry. */
async function runDry(page: Page): Promise<void> {
  await page.keyboard.press('p');
  await expect.poll(async () => (await kept(page)).log.some(({ do: done }) => done === 'pour'), { timeout: PATIENCE_MS }).toBe(true);
  await page.keyboard.press('o');
  await page.getByText('The clamp is open; the clock stands still.').waitFor({ timeout: PATIENCE_MS });
  const time = page.locator('bf-strip').getByRole('button', { name: 'Time' });
  if (await time.isVisible()) await time.click();
  await page.getByRole('combobox', { name: 'speed' }).selectOption('60');
  await page.locator('bf-time button.play').click();
  await page.locator('bf-say-line').getByText('The bed runs dry').waitFor({ timeout: PATIENCE_MS });
}

async function mend(page: Page): Promise<void> {
  await page.locator('bf-say-line').getByRole('button', { name: 'Mend' }).click();
  await page.getByRole('dialog', { name: 'More of the bench' }).waitFor({ timeout: PATIENCE_MS });
}

/** The bench comes to say this, and all of it can be read. */
async function whole(page: Page, words: RegExp): Promise<void> {
  const said = () =>
    page.locator('bf-say-line').evaluate((line) => {
      const p = line.shadowRoot?.querySelector('p');
      return { text: p?.firstChild?.nextSibling?.textContent ?? p?.textContent ?? '', cut: (p?.scrollHeight ?? 0) - (p?.clientHeight ?? 0) };
    });
  await expect.poll(async () => (await said()).text, { timeout: PATIENCE_MS }).toMatch(words);
  expect((await said()).cut).toBeLessThanOrEqual(1);
}

/** The clock, s. */
async function seconds(page: Page): Promise<number> {
  const parts = [...(await reading(page, 'clock')).matchAll(/(\d+)\s*(h|min|s)/g)];
  return parts.reduce((sum, [, number, unit]) => sum + Number(number) * (unit === 'h' ? 3600 : unit === 'min' ? 60 : 1), 0);
}

async function inSight(page: Page, what: string): Promise<boolean> {
  const box = await page.locator(what).first().boundingBox();
  const size = page.viewportSize();
  return box !== null && size !== null && box.y >= 0 && box.y + box.height <= size.height && box.x >= 0 && box.x + box.width <= size.width;
}
