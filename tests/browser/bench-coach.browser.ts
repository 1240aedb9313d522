import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { axeViolations } from './axe.ts';
import { choice, kept, more, PATIENCE_MS, ready, withForecast } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

const LONG = 300_000;

describe('the coach', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());

  test(
    'asks before the sample is poured, waits for a reason, and shows what came of it',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', column: 1 });
      await ready(page);
      await withForecast(page);
      await page.keyboard.press('o');
      await acted(page, 2);
      await page.keyboard.press('m');
      await acted(page, 3);
      await choice(page, 'liquid', 'sample').click();
      // More than the hold-up, so that it is told when this has run.
      await page.getByRole('textbox', { name: 'volume to pour' }).fill('5');
      await page.getByRole('button', { name: 'Pour', exact: true }).click();
      await page.getByRole('heading', { name: 'Before you load the sample' }).waitFor({ timeout: PATIENCE_MS });
      expect((await kept(page)).log).toHaveLength(3);
      expect(await axeViolations(page)).toEqual([]);
      await choice(page, 'prediction', 'Co²⁺').click();
      await page.getByRole('button', { name: 'Predict and do it' }).click();
      await page.getByText('because: expected a reason').waitFor();
      await page.getByRole('combobox', { name: 'because' }).selectOption({ index: 2 });
      await page.getByRole('button', { name: 'Predict and do it' }).click();
      await acted(page, 4);
      await page.keyboard.press('m');
      await page.getByRole('heading', { name: 'Not as you said' }).waitFor({ timeout: PATIENCE_MS });
      await page.getByText('hold-up volumes from the pour to the tip').waitFor();
      await close();
    },
    LONG,
  );

  test(
    'asks what drips before the figure shows it: what has left is covered until the answer',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', column: 1 });
      await ready(page);
      await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('figure');
      const curves = page.locator('bf-figure g.effluent path');
      await choice(page, 'liquid', 'sample').click();
      await page.keyboard.press('p');
      await page.getByRole('button', { name: 'Do it without' }).click({ timeout: PATIENCE_MS });
      await acted(page, 2);
      await expect.poll(() => curves.count(), { timeout: PATIENCE_MS }).toBeGreaterThan(0);
      await choice(page, 'receiver', 'cobalt').click();
      await page.getByText('What is dripping from the tip at this moment?').waitFor({ timeout: PATIENCE_MS });
      expect(await curves.count()).toBe(0);
      await page.getByRole('button', { name: 'Do it without' }).click();
      await expect.poll(() => curves.count(), { timeout: PATIENCE_MS }).toBeGreaterThan(0);
      await close();
    },
    LONG,
  );

  test(
    'does not stand in the way: the action can be taken without an answer',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', column: 1 });
      await ready(page);
      await withForecast(page);
      await choice(page, 'liquid', 'sample').click();
      await page.keyboard.press('p');
      await page.getByRole('button', { name: 'Do it without' }).click({ timeout: PATIENCE_MS });
      await acted(page, 2);
      await close();
    },
    LONG,
  );

  test(
    'shows the windows and warns as a guide, and hides them otherwise',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', column: 1 });
      await ready(page);
      await withForecast(page);
      await more(page);
      await choice(page, 'coach', 'guide').click();
      await page.getByRole('button', { name: 'Play the procedure' }).click();
      await page.getByText('Change the receiver from').waitFor({ timeout: PATIENCE_MS, state: 'attached' });
      await page.getByText('Weaker eluent may start').waitFor({ timeout: PATIENCE_MS, state: 'attached' });
      for (let i = 0; i < 4; i++) await page.keyboard.press('b');
      await page.getByText('The run is over').waitFor({ state: 'hidden', timeout: PATIENCE_MS });
      await more(page);
      await choice(page, 'coach', 'ask').click();
      await page.getByText('Change the receiver from').waitFor({ state: 'hidden', timeout: PATIENCE_MS });
      await close();
    },
    LONG,
  );
});

async function acted(page: Page, actions: number): Promise<void> {
  await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(actions);
}
