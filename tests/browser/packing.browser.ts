import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeViolations } from './axe.ts';
import { kept, more, PATIENCE_MS, ready, still } from './bench-rig.ts';
import { launch, type Session } from './session.ts';
import type { Page } from 'playwright-core';

// The day that starts with an empty tube.

const LONG = 300_000;
const FINE = '100-200 mesh, 8 % cross-linked';

describe('an empty tube', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());

  test.each([
    ['on a laptop', { width: 1280, height: 720 }, false],
    ['on a phone', { width: 390, height: 844 }, true],
  ] as const)(
    'is filled with the resin that was chosen %s, all in view, drips, and is conditioned',
    async (_, viewport, touch) => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', viewport, touch });
      await ready(page);
      await more(page);
      await page.getByRole('combobox', { name: 'resin grade' }).selectOption(FINE);
      await page.getByRole('button', { name: 'Empty tube, to fill yourself' }).click();
      const packing = page.locator('bf-packing');
      const inView = async () => {
        const side = await page.locator('bf-bench .side').boundingBox();
        for (const control of await packing.locator('button, input, select, p:not(.error)').all()) {
          const box = await control.boundingBox();
          if (!side || !box) throw new Error('packing: expected in view, received none');
          expect(box.y).toBeGreaterThanOrEqual(side.y);
          expect(box.y + box.height).toBeLessThanOrEqual(side.y + side.height);
          expect(box.x + box.width).toBeLessThanOrEqual(side.x + side.width);
        }
        expect(await page.evaluate<number>('document.documentElement.scrollHeight')).toBeLessThanOrEqual(viewport.height);
      };
      await packing.getByText('The tube is empty').waitFor({ timeout: PATIENCE_MS });
      expect(await axeViolations(page)).toEqual([]);
      await inView();
      await nothingOverlaps(page);
      const heights: number[] = [];
      for (const name of ['Pour slurry', 'Add slurry', 'Add slurry']) {
        await packing.getByRole('button', { name, exact: true }).click();
        await expect
          .poll(async () => (await kept(page)).log.filter((action) => action.do === 'pack').length, { timeout: PATIENCE_MS })
          .toBe(heights.length + 1);
        await still(page);
        const stands = packing.getByText(/^\d\.\d cm of resin under \d+\.\d cm of liquid\. /);
        await expect.poll(async () => Number.parseFloat(await stands.innerText()), { timeout: PATIENCE_MS }).toBeGreaterThan(heights.at(-1) ?? 0);
        heights.push(Number.parseFloat(await stands.innerText()));
      }
      expect(heights.at(-1)).toBeGreaterThan(6);
      await inView();
      expect(await axeViolations(page)).toEqual([]);
      await packing.getByRole('button', { name: 'Look at the drip' }).click();
      await packing.getByText(/^\d+ drops a minute/).waitFor({ timeout: PATIENCE_MS });
      await inView();
      await nothingOverlaps(page);
      expect(JSON.stringify(await page.evaluate(`JSON.parse(localStorage.getItem('bandfall.run')).run.differences`))).toContain(FINE);
      await page.getByRole('button', { name: /^(At 1 mm pour|Pour) .*9 M HCl/ }).click();
      await packing.waitFor({ state: 'detached', timeout: PATIENCE_MS });
      await page.locator('bf-task li.filling.done').waitFor({ state: 'attached', timeout: PATIENCE_MS });
      await close();
    },
    LONG,
  );

  test(
    'is not ticked where acid is poured on too little resin, and says how much is missing before that',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', column: 1 });
      await ready(page);
      await more(page);
      await page.getByRole('button', { name: 'Empty tube, to fill yourself' }).click();
      const packing = page.locator('bf-packing');
      await packing.getByRole('button', { name: 'Pour slurry' }).click({ timeout: PATIENCE_MS });
      await packing.getByText(/Too little: 7\s?cm take about 0\.\d\s?mL more\.$/).waitFor({ timeout: PATIENCE_MS });
      const volume = page.getByRole('textbox', { name: 'volume to pour, mL' });
      await volume.fill('2');
      await volume.press('Tab');
      await page.getByRole('button', { name: 'Pour', exact: true }).click();
      await page
        .locator('bf-task li.filling.missed')
        .getByText(/^5\.\d\s?cm$/)
        .waitFor({ timeout: PATIENCE_MS });
      await close();
    },
    LONG,
  );

  test(
    'is left for another one that is empty as well',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce' });
      await ready(page);
      await more(page);
      await page.getByRole('button', { name: 'Empty tube, to fill yourself' }).click();
      const packing = page.locator('bf-packing');
      await packing.getByText('The tube is empty').waitFor({ timeout: PATIENCE_MS });
      await page.keyboard.press('n');
      await packing.getByText(/cm of resin under/).waitFor({ timeout: PATIENCE_MS });
      const { seed } = await kept(page);
      await packing.getByRole('button', { name: 'Another column' }).click();
      await packing.getByText('The tube is empty').waitFor({ timeout: PATIENCE_MS });
      await expect.poll(async () => (await kept(page)).seed, { timeout: PATIENCE_MS }).not.toBe(seed);
      expect((await kept(page)).log).toEqual([]);
      await close();
    },
    LONG,
  );
});

/** Glass, figure, read-outs, task and strip each have a place of their own. */
async function nothingOverlaps(page: Page): Promise<void> {
  const names = ['> .left', '> .run svg.plot', '> bf-say-line', '> .side', '> bf-strip'];
  const places = await Promise.all(
    names.map(async (name) => {
      const part = page.locator(`bf-bench .bench ${name}`);
      return { name, box: (await part.isVisible()) ? await part.boundingBox() : null };
    }),
  );
  for (const [i, { name, box }] of places.entries()) {
    for (const other of places.slice(i + 1)) {
      if (!box || !other.box) continue;
      const apart =
        box.x + box.width <= other.box.x + 1 ||
        other.box.x + other.box.width <= box.x + 1 ||
        box.y + box.height <= other.box.y + 1 ||
        other.box.y + other.box.height <= box.y + 1;
      expect(apart, `${name} and ${other.name} overlap`).toBe(true);
    }
  }
}
