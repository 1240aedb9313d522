import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { encodeLink } from '../../src/store/keep/link.ts';
import { axeViolations } from './axe.ts';
import { expectSameAsHeadless, kept, PATIENCE_MS, ready, still } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

const LONG = 300_000;

describe('the bench', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());

  test(
    'goes on in the middle of a run after a reload',
    async () => {
      const { page, close } = await session.openPage();
      await ready(page);
      await page.getByRole('button', { name: 'Play the procedure' }).click();
      await expect.poll(async () => (await kept(page)).now_min, { timeout: PATIENCE_MS }).toBeGreaterThan(0.5);
      await page.keyboard.press('t');
      await still(page);
      const before = await kept(page);
      const table = await page.getByRole('table', { name: 'Where it is, mmol' }).innerText();
      await page.reload();
      await ready(page);
      expect(await kept(page)).toEqual(before);
      expect(await page.getByRole('table', { name: 'Where it is, mmol' }).innerText()).toBe(table);
      await expectSameAsHeadless(page);
      await close();
    },
    LONG,
  );

  test(
    'keeps what a dragged receiver handle gives, equal to a fresh run, and takes it back on undo',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce' });
      await ready(page);
      await wholeProcedure(page);
      const before = await kept(page);
      const handle = page.getByRole('slider', { name: 'receiver cobalt put under the tip' });
      const box = await handle.boundingBox();
      if (!box) throw new Error('handle: expected on the page, received none');
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width / 2 + 20, box.y + box.height / 2, { steps: 4 });
      await page.getByText('if moved here').waitFor({ timeout: PATIENCE_MS });
      await page.mouse.up();
      await expect.poll(async () => JSON.stringify((await kept(page)).log), { timeout: PATIENCE_MS }).not.toBe(JSON.stringify(before.log));
      await page.getByText('if nothing more is done').waitFor({ timeout: PATIENCE_MS });
      const results = await expectSameAsHeadless(page);
      const cobalt = results.receivers.find(({ label }) => label === 'cobalt');
      expect(cobalt?.volume_mL).toBeLessThan(17.9);
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(async () => (await kept(page)).log, { timeout: PATIENCE_MS }).toEqual(before.log);
      await close();
    },
    LONG,
  );

  test(
    'recomputes the run while the handle of the water moves by arrow keys',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce' });
      await ready(page);
      await wholeProcedure(page);
      const handle = page.getByRole('slider', { name: 'water poured' });
      await handle.focus();
      await page.keyboard.press('Shift+ArrowRight');
      await page.keyboard.press('Shift+ArrowRight');
      await page.getByText('if moved here').waitFor({ timeout: PATIENCE_MS });
      await page.keyboard.press('Enter');
      await page.getByText('if nothing more is done').waitFor({ timeout: PATIENCE_MS });
      const { log } = await kept(page);
      const acid = log.reduce((sum, action) => sum + (action.do === 'pour' && action.liquid === 'acid' ? action.volume_mL : 0), 0);
      expect(acid).toBeCloseTo(44 + 2, 0);
      await close();
    },
    LONG,
  );

  test(
    'opens the untouched default and says so for ten damaged links',
    async () => {
      const link = await encodeLink({ base: 'cathode-leach', differences: {}, seed: 1, log: [{ do: 'clamp', open_percent: 50 }] });
      const good = link.ok ? link.value : '';
      const [version = '', sum = '', content = ''] = good.split('.');
      const damaged = [
        '',
        '1',
        `${version}.${sum}`,
        `${version}.${sum}.`,
        `${version}.${sum}.${content.slice(0, -3)}`,
        `${version}.${sum}.${content.slice(1)}`,
        `${version}.00000000.${content}`,
        `9.${sum}.${content}`,
        `${version}.${sum}.${content}%00`,
        'A'.repeat(70_000),
      ];
      for (const text of damaged) {
        const { page, close } = await session.openPage({ hash: `#bench?run=${text}` });
        await page.getByText('The default scenario is open instead.').waitFor({ timeout: PATIENCE_MS });
        await ready(page);
        expect((await kept(page)).log).toEqual([]);
        await close();
      }
      const { page, close } = await session.openPage({ hash: `#bench?run=${good}` });
      await ready(page);
      expect((await kept(page)).log).toEqual([{ do: 'clamp', open_percent: 50 }]);
      await close();
    },
    LONG,
  );

  test(
    'says at the control why a pour is refused',
    async () => {
      const { page, close } = await session.openPage();
      await ready(page);
      const { log } = await kept(page);
      const field = page.locator('bf-pour').getByRole('textbox', { name: 'volume' });
      await field.fill('900');
      await field.press('Enter');
      await page
        .locator('bf-pour')
        .getByText(/volume: expected 0\.1 to .* mL, received 900/)
        .waitFor();
      expect((await kept(page)).log).toEqual(log);
      await close();
    },
    LONG,
  );

  test(
    'shows the acid caution at the pour, folds it when read and opens it again',
    async () => {
      const { page, close } = await session.openPage();
      await ready(page);
      const caution = page.locator('bf-pour').getByRole('group', { name: /Caution: Strong hydrochloric acid/ });
      await caution.getByText('Fume hood').waitFor();
      await caution.getByRole('button', { name: 'I have read this' }).click();
      await caution.getByText('Fume hood').waitFor({ state: 'hidden' });
      await caution.getByRole('button').first().click();
      await caution.getByText('Fume hood').waitFor();
      await close();
    },
    LONG,
  );

  test.each(['light', 'dark'] as const)(
    'has nothing for axe to find, %s',
    async (colorScheme) => {
      const { page, close } = await session.openPage({ colorScheme, reducedMotion: 'reduce' });
      await ready(page);
      expect(await axeViolations(page)).toEqual([]);
      await wholeProcedure(page);
      expect(await axeViolations(page)).toEqual([]);
      await page.getByRole('button', { name: 'Debrief' }).click();
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      expect(await axeViolations(page)).toEqual([]);
      await close();
    },
    LONG,
  );
});

async function wholeProcedure(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Play the procedure' }).click();
  await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
}
