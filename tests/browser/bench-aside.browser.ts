import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { kept, PATIENCE_MS, reading, ready, still, wholeProcedure, withForecast } from './bench-rig.ts';
import { onePage } from './one-page.ts';

// A run that is not acted on: one reads elsewhere, is told a run, or looks back.

const LONG = 300_000;
const PHONE = { viewport: { width: 390, height: 844 }, touch: true, column: 1, reducedMotion: 'reduce' } as const;
const it = onePage();

test(
  'a run that would play on waits while one reads another page',
  async () => {
    const page = await it.open({ column: 1 });
    await ready(page);
    await page.getByRole('button', { name: 'Pour', exact: true }).click();
    await page.keyboard.press('o');
    await page.getByText('The clamp is open; the clock stands still.').waitFor({ timeout: PATIENCE_MS });
    await page.locator('bf-time').getByRole('button', { name: 'Play' }).click();
    await expect.poll(() => reading(page, 'drops'), { timeout: PATIENCE_MS }).toMatch(/^\d+ \/ min$/);
    await page.getByRole('link', { name: 'Why' }).click();
    await page.locator('bf-bench').waitFor({ state: 'detached', timeout: PATIENCE_MS });
    await page.waitForTimeout(1500);
    await page.getByRole('link', { name: 'Bench', exact: true }).click();
    await still(page);
    const clock = await reading(page, 'clock');
    await page.waitForTimeout(1000);
    expect(await reading(page, 'clock')).toBe(clock);
  },
  LONG,
);

test(
  'a run that is told shows the speed at which it plays and the way in which it is seen',
  async () => {
    const page = await it.open({ column: 1 });
    await ready(page);
    await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('figure');
    await page.getByRole('button', { name: 'Watch one run' }).click();
    const panel = page.locator('bf-watch');
    await panel.getByText('First the column is conditioned').waitFor({ timeout: PATIENCE_MS });
    const speeds = new Set<string>();
    for (let i = 0; i < 3; i++) {
      await expect.poll(async () => [await shown(page), await truth(page)]).toSatisfy(agree);
      speeds.add((await shown(page)).speed);
      const told = await panel.locator('.caption').textContent();
      await panel.getByRole('button', { name: 'Next' }).click();
      await expect.poll(() => panel.locator('.caption').textContent(), { timeout: PATIENCE_MS }).not.toBe(told);
    }
    expect(speeds.size).toBeGreaterThan(1);
    await panel.getByRole('button', { name: 'Run one yourself' }).click();
    await ready(page);
    await expect.poll(async () => [await shown(page), await truth(page)]).toSatisfy(agree);
    expect((await shown(page)).seen).toBe('figure');
  },
  LONG,
);

test(
  'looking back on a phone, the way to the present is whole and on the screen',
  async () => {
    const page = await finishedOnPhone();
    const back = page.locator('bf-now-handle');
    await back.focus();
    for (let i = 0; i < 12; i++) await page.keyboard.press('Shift+ArrowLeft');
    const note = page.locator('bf-bench .past');
    await note.waitFor({ timeout: PATIENCE_MS });
    const side = await page.locator('bf-bench .side').boundingBox();
    const press = await note.getByRole('button').first().boundingBox();
    const words = await note.boundingBox();
    if (!side || !press || !words) throw new Error('bench: expected a note on looking back, with a way to the present');
    for (const box of [press, words]) {
      expect(box.y).toBeGreaterThanOrEqual(side.y - 0.5);
      expect(box.y + box.height).toBeLessThanOrEqual(Math.min(side.y + side.height, PHONE.viewport.height) + 0.5);
      expect(box.x + box.width).toBeLessThanOrEqual(PHONE.viewport.width);
    }
    await note.getByRole('button').first().click();
    await note.waitFor({ state: 'detached', timeout: PATIENCE_MS });
  },
  LONG,
);

test(
  'a swipe up the debrief on a phone scrolls, and leaves the run as it is, also where it begins on a change of receiver',
  async () => {
    const page = await finishedOnPhone();
    await page.getByRole('button', { name: 'Debrief', exact: true }).click();
    const handle = page.locator('bf-debrief bf-axis-handle[kind=receiver]').last();
    await handle.scrollIntoViewIfNeeded();
    const box = await handle.boundingBox();
    if (!box) throw new Error('debrief: expected a change of receiver, found none');
    const before = await page.evaluate(() => scrollY);
    const at = await handle.getAttribute('aria-valuenow');
    await swipe(page, box.x + box.width / 2, box.y + box.height / 2);
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(before + 50);
    expect(await page.getByText('What if:').count()).toBe(0);
    expect(await handle.getAttribute('aria-valuenow')).toBe(at);
  },
  LONG,
);

test(
  'Enter in the field of the volume pours what was typed, and nothing where that cannot be poured',
  async () => {
    const page = await it.open({ column: 1 });
    await ready(page);
    const field = page.getByRole('textbox', { name: 'volume to pour, mL' });
    await field.fill('many');
    await field.press('Enter');
    await page
      .locator('bf-say-line')
      .getByText(/volume/)
      .waitFor();
    expect((await kept(page)).log).toEqual([]);
    await field.fill('3.5');
    await field.press('Enter');
    await expect.poll(async () => (await kept(page)).log.at(-1), { timeout: PATIENCE_MS }).toMatchObject({ do: 'pour', volume_mL: 3.5 });
  },
  LONG,
);

test.each([
  ['1280 by 720', { width: 1280, height: 720 }],
  ['1366 by 768', { width: 1366, height: 768 }],
])(
  'nothing beside the figure is wider than its place at %s',
  async (_, viewport) => {
    const page = await it.open({ column: 1, viewport });
    await ready(page);
    await page.locator('bf-ways-in button.fill').waitFor();
    expect(await tooWide(page)).toEqual([]);
    await page.keyboard.press('n');
    await expect.poll(() => reading(page, 'delivered'), { timeout: PATIENCE_MS }).not.toMatch(/^0\.0/);
    expect(await tooWide(page)).toEqual([]);
  },
  LONG,
);

/** A run that is over, with everything shown. */
async function finishedOnPhone(): Promise<Page> {
  const page = await it.open(PHONE);
  await ready(page);
  await withForecast(page);
  await wholeProcedure(page);
  return page;
}

const BENCH = `document.querySelector('bf-app').shadowRoot.querySelector('bf-bench').shadowRoot`;

interface Seen {
  readonly speed: string;
  readonly seen: string;
}

/** What the page says of speed and way of seeing. */
async function shown(page: Page): Promise<Seen> {
  const speed = await page.getByRole('combobox', { name: 'speed' }).evaluate((select) => (select as HTMLSelectElement).selectedOptions[0].textContent ?? '');
  return { speed, seen: await page.getByRole('combobox', { name: 'How the run is seen' }).inputValue() };
}

function agree([a, b]: readonly Seen[]): boolean {
  return a.speed === b.speed && a.seen === b.seen;
}

/** What the drawings go by. */
function truth(page: Page): Promise<Seen> {
  return page.evaluate<Seen>(
    `({ speed: '×' + ${BENCH}.querySelector('bf-glass').speed, seen: ['eye', 'figure', 'forecast'].find((way) => ${BENCH}.querySelector('.bench').classList.contains(way)) })`,
  );
}

/** A finger goes up, a little aslant. */
async function swipe(page: Page, fromX: number, fromY: number): Promise<void> {
  const screen = await page.context().newCDPSession(page);
  await screen.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x: fromX, y: fromY }] });
  for (let step = 1; step <= 15; step++) {
    await screen.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [{ x: fromX + 0.8 * step, y: fromY - 8 * step }] });
    await page.waitForTimeout(16);
  }
  await screen.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

/** What reaches out of the column beside the figure, or of the window. */
function tooWide(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const side = ${BENCH}.querySelector('.side');
    const right = side.getBoundingClientRect().right;
    const out = [...side.children].filter((part) => part.getBoundingClientRect().right > right + 0.5).map((part) => part.localName);
    return [...out, ...(side.scrollWidth > side.clientWidth ? ['the column'] : []), ...(document.documentElement.scrollWidth > innerWidth ? ['the page'] : [])];
  })()`);
}
