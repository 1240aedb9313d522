import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { PATIENCE_MS, scenario } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// The notebook asks before it tells, keeps what was said, and the timetable names every block.

const LONG_MS = 300_000;

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

async function worked(page: Page): Promise<void> {
  page.setDefaultTimeout(PATIENCE_MS);
  await page.getByRole('button', { name: /written procedure run to its end/ }).click();
  await page.getByRole('button', { name: 'Do all remaining steps' }).click();
  await page.getByRole('button', { name: 'Keep the result of this aliquot' }).click();
  await page.evaluate(`location.hash = '#notebook'`);
  await page.getByRole('heading', { name: 'Your calculation' }).waitFor();
}

test(
  'no result stands beside empty boxes; it comes with the first molarity of one’s own',
  async () => {
    const { page, close } = await session.openPage({ hash: '#workup' });
    await worked(page);
    const notebook = page.locator('bf-notebook');
    await notebook.getByText('shown once you have a molarity of your own').waitFor();
    await notebook.getByRole('button', { name: /^column\s\d{1,4}$/ }).click();
    await notebook.getByText(/\(seed \d+\)/).waitFor();
    const before = await notebook.locator('bf-replicates').innerText();
    expect(before).not.toMatch(/mol\/L|\d\.\d/);
    await page.getByLabel('cobalt in the unknown, mol/L', { exact: true }).fill('0.2');
    await page.keyboard.press('Tab');
    await notebook.getByRole('table', { name: 'Aliquots over the column' }).waitFor();
    const aliquots = notebook.getByRole('table', { name: 'Aliquots over the column' });
    await expect.poll(() => aliquots.innerText()).toContain('0.2000');
    await notebook.getByText('by you', { exact: true }).click();
    await notebook.locator('.report', { hasText: '0.2' }).waitFor();
    await notebook.getByRole('table', { name: /Relative contributions/ }).waitFor();
    await close();
  },
  LONG_MS,
);

test(
  'why two ions separate is asked with the figures of the run, and the answer is kept',
  async () => {
    const { page, close } = await session.openPage({ hash: '#workup' });
    await worked(page);
    await page.getByText(/the first hundredth of each ion left the column: Co²⁺ after \d+\.\d\s?mL, Ni²⁺ after \d+\.\d\s?mL/).waitFor();
    const words = 'Cobalt takes up chloride and becomes an anion. '.repeat(8).trim();
    await page.getByLabel('in your own words').fill(words);
    await page.keyboard.press('Tab');
    await page.getByText('Kept with the run.').waitFor();
    await page.reload();
    await expect.poll(() => page.getByLabel('in your own words').inputValue(), { timeout: PATIENCE_MS }).toBe(words);
    await close();
  },
  LONG_MS,
);

test(
  'on paper the column is named, the own words stand below their question in the type of the page, and what is empty or said already is left out',
  async () => {
    const { page, close } = await session.openPage({ hash: '#workup', column: 1 });
    await worked(page);
    await page.getByLabel('in your own words').fill('Cobalt becomes an anion.');
    await page.keyboard.press('Tab');
    await page.getByText('Kept with the run.').waitFor();
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 718, height: 1000 });
    const notebook = page.locator('bf-notebook');
    expect(await notebook.getByRole('button', { name: /^column\s\d{1,4}$/ }).isVisible()).toBe(true);
    const size = (css: string) => notebook.locator(css).evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
    expect(Math.abs((await size('textarea')) - (await size('.pages')))).toBeLessThan(0.5);
    const words = await notebook.locator('label.why').evaluate((label) => {
      const range = document.createRange();
      range.selectNode(label.childNodes[0]);
      return { text: range.getBoundingClientRect().bottom, box: label.querySelector('textarea')?.getBoundingClientRect().top ?? 0 };
    });
    expect(words.box).toBeGreaterThanOrEqual(words.text - 1);
    expect(await notebook.getByRole('heading', { name: 'Own entries' }).isVisible()).toBe(false);
    const safety = await notebook.locator('.safety').innerText();
    expect(safety.match(/permission/g)).toHaveLength(1);
    // The strong acid that the written procedure pours, by the alkali of the bench.
    const { procedure, liquids, values } = scenario();
    const acid_mmol = procedure.reduce(
      (sum, action) => sum + (action.do === 'pour' && liquids[action.liquid].HCl_M > 1 ? action.volume_mL * liquids[action.liquid].HCl_M : 0),
      0,
    );
    expect(safety).toContain(`: ${(acid_mmol / values['bench.NaOH_M']).toFixed(0)} mL of `);
    await close();
  },
  LONG_MS,
);

describe.each([
  { width: 1280, height: 720 },
  { width: 390, height: 844 },
])('at $width px', (viewport) => {
  test(
    'the tables of the notebook are whole or scroll in their own box, and every block of the timetable has a name',
    async () => {
      const { page, close } = await session.openPage({ hash: '#workup', viewport, touch: viewport.width < 500 });
      await worked(page);
      await page.getByRole('button', { name: 'Show them without' }).click();
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(viewport.width);
      const cut = await page
        .locator('bf-notebook bf-table .scroll')
        .evaluateAll((boxes) => boxes.filter((box) => box.scrollWidth > box.clientWidth && box.getAttribute('tabindex') !== '0').length);
      expect(cut).toBe(0);
      // What is scrolled says so, and keeps the names of its rows; the few aliquots are turned, so that they fit.
      const tables = page.locator('bf-notebook bf-table');
      for (const table of await tables.all()) {
        const box = table.locator('.scroll');
        const wide = await box.evaluate((one) => one.scrollWidth > one.clientWidth);
        expect(await table.getByText('scroll it sideways').count()).toBe(wide ? 1 : 0);
        if (!wide) continue;
        const left = () =>
          table
            .locator('tbody th')
            .first()
            .evaluate((one) => one.getBoundingClientRect().left);
        const before = await left();
        await box.evaluate((one) => one.scrollTo(one.scrollWidth, 0));
        expect(await left()).toBeCloseTo(before, 0);
      }
      const aliquots = page.locator('bf-table', { has: page.getByRole('table', { name: 'Aliquots over the column' }) });
      expect(await aliquots.locator('.scroll').evaluate((box) => box.scrollWidth - box.clientWidth)).toBe(0);
      expect(await aliquots.locator('table').innerText()).toMatch(/titres, mL\s+\d+\.\d\d/);
      if (viewport.width > 1000) {
        const budget = page.locator('bf-table', { has: page.getByRole('table', { name: /Relative contributions/ }) }).locator('.scroll');
        expect(await budget.evaluate((box) => box.scrollWidth - box.clientWidth)).toBe(0);
      }
      await page.evaluate(`location.hash = '#plan'`);
      await page.locator('bf-lanes g.task').first().waitFor();
      const names = await page.locator('bf-lanes g.task').evaluateAll((tasks) => tasks.map((task) => task.querySelector('text')?.textContent ?? ''));
      expect(names.length).toBeGreaterThan(20);
      expect(names.filter((name) => name.trim() === '')).toEqual([]);
      await close();
    },
    LONG_MS,
  );
});
