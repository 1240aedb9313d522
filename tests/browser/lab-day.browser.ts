import { describe, expect, test } from 'vitest';
import { kept, PATIENCE_MS, ready, still } from './bench-rig.ts';
import { onePage } from './one-page.ts';

// A day of three aliquots, by the presses of its list.

const LONG = 300_000;

describe('a lab day', () => {
  const one = onePage();

  test.each([
    ['a laptop', { width: 1280, height: 720 }, false],
    ['a phone', { width: 390, height: 844 }, true],
  ] as const)(
    'keeps the step in hand in sight on %s, asks for each receiver in its turn, and lets no acid of the next aliquot into the cobalt',
    async (_, viewport, touch) => {
      const page = await one.open({ reducedMotion: 'reduce', viewport, touch, column: 1 });
      await ready(page);
      if (touch) await page.getByRole('button', { name: 'Menu' }).click();
      await page.getByRole('combobox', { name: 'Scenario' }).selectOption('lab-day');
      await page.locator('bf-task').getByText('Receiver “cobalt 1”').waitFor({ state: 'attached', timeout: PATIENCE_MS });
      const due = page.locator('bf-task li.now');
      const asked: string[] = [];
      for (let before = (await kept(page)).log.length; asked.filter((label) => label === 'waste').length < 2; before = (await kept(page)).log.length) {
        const box = await due.getByRole('button').boundingBox();
        expect(box && box.y >= 0 && box.y + box.height <= viewport.height, await due.innerText()).toBe(true);
        const receiver = /^Put “(.*)” under the tip$/.exec(await due.getByRole('button').innerText())?.[1];
        if (receiver) asked.push(receiver);
        await page.keyboard.press('n');
        await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(before);
        await still(page);
      }
      expect(asked).toEqual(['cobalt 1', 'waste', 'cobalt 2', 'waste']);
      await page.locator('bf-say-line').getByText('Aliquot 2 is in “cobalt 2”').waitFor({ timeout: PATIENCE_MS });
      if (touch) expect(await due.locator('.what').evaluate((what) => getComputedStyle(what, '::before').content)).toContain('Aliquot 3');
      else await page.getByRole('heading', { name: 'The task: aliquot 3 of 3' }).waitFor();
      // Only the aliquot in hand is listed, whose last step is the last of the day.
      if (!touch) expect(await page.locator('bf-task ol li').count()).toBe(6);
      const before = (await kept(page)).log.length;
      await due.getByRole('button', { name: /^Pour 25\s?mL/ }).click();
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(before);
      const { log } = await kept(page);
      const labels = log.flatMap((action, at) => (action.do === 'receiver' ? [{ at, label: action.label }] : []));
      const into = log.flatMap((action, at) => (action.do === 'pour' && action.liquid === 'acid' ? [labels.findLast((one) => one.at < at)?.label] : []));
      expect(new Set(into)).toEqual(new Set(['waste']));
    },
    LONG,
  );
});
