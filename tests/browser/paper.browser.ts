import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { PATIENCE_MS } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// What goes on paper: the run figure is there, and nothing is cut off at the right edge of the sheet.

const LONG_MS = 300_000;
/** Width between margins of 12 mm, px at 96 to the inch: A4 is 210 mm wide (ISO 216), Letter 8.5 in (ANSI Y14.1); both recalled. */
const SHEETS = { A4: Math.floor(((210 - 24) / 25.4) * 96), Letter: Math.floor((8.5 - 24 / 25.4) * 96) };

/** A column on which the procedure loses cobalt: the verdict in the figure is at its longest. */
const LOSING = 2451070320;

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

/** Whatever of a view ends right of the sheet, and boxes that would have to be scrolled, through all shadow roots. */
const BEYOND = `(name) => {
  const found = [];
  const visit = (node) => {
    if (node.nodeType === 1) {
      const box = node.getBoundingClientRect();
      const seen = box.width > 1 && box.height > 1 && getComputedStyle(node).visibility !== 'hidden';
      if (seen && (box.right > innerWidth + 1 || box.left < -1)) found.push(node.localName + '.' + node.className + ' to ' + Math.round(box.right));
      if (seen && node.classList.contains('scroll') && node.scrollWidth > node.clientWidth + 1) found.push('table cut: ' + node.innerText.slice(0, 40));
    }
    if (node.shadowRoot) visit(node.shadowRoot);
    node.childNodes.forEach(visit);
  };
  visit(document.querySelector('bf-app').shadowRoot.querySelector(name));
  return found;
}`;

/** The run played and titrated, its molarity calculated, its result kept. */
async function worked(page: Page): Promise<void> {
  await page.getByRole('button', { name: /written procedure run to its end/ }).click();
  await page.getByRole('button', { name: 'Do all remaining steps' }).click();
  await page.getByRole('button', { name: 'Keep the result of this aliquot' }).click();
  await show(page, 'notebook');
  await page.getByRole('button', { name: 'Show them without' }).click();
}

async function show(page: Page, view: string): Promise<void> {
  await page.evaluate(`location.hash = '#${view}'`);
  await page.locator(`bf-${view}`).waitFor();
}

test(
  'debrief and notebook hold the run figure, and no view is cut off on A4 or Letter',
  async () => {
    const { page, close } = await session.openPage({ hash: '#workup', column: LOSING });
    page.setDefaultTimeout(PATIENCE_MS);
    await worked(page);
    for (const [view, element] of [
      ['bench', 'bf-debrief'],
      ['notebook', 'bf-notebook'],
      ['plan', 'bf-plan'],
      ['workup', 'bf-workup'],
      ['class', 'bf-class'],
    ] as const) {
      await show(page, view);
      if (view === 'bench') await page.keyboard.press('d');
      await page.locator(element).first().waitFor();
      await page.emulateMedia({ media: 'print' });
      for (const [sheet, width] of Object.entries(SHEETS)) {
        await page.setViewportSize({ width, height: 1000 });
        const within = view === 'bench' ? 'bf-bench' : element;
        await expect.poll(() => page.evaluate<string[]>(`(${BEYOND})('${within}')`), { message: `${view} on ${sheet}` }).toEqual([]);
        if (view === 'bench' || view === 'notebook') {
          const figure = await page.locator(`${element} bf-figure svg`).first().boundingBox();
          expect(figure?.width, `${view} on ${sheet}`).toBeGreaterThan(0.9 * width);
        }
      }
      await page.emulateMedia({ media: 'screen' });
      await page.setViewportSize({ width: 1280, height: 720 });
    }
    await close();
  },
  LONG_MS,
);
