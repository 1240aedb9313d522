import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { parseScenario } from '../../../sim/input/scenario.ts';
import { resultsOf } from '../../../sim/run/results.ts';
import { runWhole } from '../../../sim/run/run.ts';
import { startBench, type Bench, type PageOptions } from '../browser.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const read = parseScenario(readFileSync('scenarios/cathode-leach.json', 'utf8'), 'cathode-leach');
if (!read.ok) throw new Error('scenario: expected a sound one');
const { delivered_mL } = resultsOf(runWhole(read.scenario, read.scenario.procedure));
/** The axis ends at the first mark behind the run; an axis of about 90 mL has one every 10 mL. */
const AXIS_ML = Math.ceil(delivered_mL / 10) * 10;

let bench: Bench;
beforeAll(async () => {
  bench = await startBench();
});
afterAll(async () => {
  await bench.close();
});

/** Events that the figure sends are kept in `told`, newest last. */
async function specimen(options?: PageOptions) {
  const { page, complaints } = await bench.open({ width: 900, height: 700, ...options, module: 'tests/src/figure/specimen-page.ts' });
  await page.locator('bf-figure canvas').waitFor();
  await page.evaluate(
    `window.told = []; for (const name of ['bf-handle', 'bf-point', 'bf-layout']) addEventListener(name, (event) => told.push([name, event.detail]))`,
  );
  return { page, complaints };
}

function told(page: Page, name: string): Promise<Record<string, number | string>[]> {
  return page.evaluate(`told.filter(([kind]) => kind === '${name}').map(([, detail]) => detail)`);
}

test('pointing reads out the run at the cursor, and leaving ends it', async () => {
  const { page, complaints } = await specimen();
  const box = await page.locator('bf-figure .surface').boundingBox();
  if (!box) throw new Error('surface: expected a box');
  await page.mouse.move(box.x + box.width / 2, box.y + 100);
  await expect.poll(async () => (await told(page, 'bf-point')).at(-1)?.['delivered_mL']).toBeCloseTo(AXIS_ML / 2, 1);
  await expect.poll(() => page.locator('bf-figure .read-out').innerText()).toContain('9 M HCl poured, into nickel');
  await page.mouse.move(2, 2);
  await expect.poll(() => page.locator('bf-figure .read-out').count()).toBe(0);
  expect(complaints).toEqual([]);
});

test('arrow keys, Home and End move the cursor', async () => {
  const { page } = await specimen();
  await page.locator('bf-figure .surface').focus();
  for (const key of ['Home', 'Shift+ArrowRight', 'ArrowRight', 'ArrowRight']) await page.keyboard.press(key);
  await expect.poll(async () => (await told(page, 'bf-point')).at(-1)?.['delivered_mL']).toBeCloseTo(1.2, 6);
  expect(await page.locator('bf-figure .surface').getAttribute('aria-valuetext')).toContain('1.20 millilitres delivered');
});

test('a receiver handle follows the pointer and drops once', async () => {
  const { page, complaints } = await specimen();
  const handle = page.locator('bf-axis-handle[kind="receiver"]');
  const box = await handle.boundingBox();
  if (!box) throw new Error('handle: expected a box');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 20, y, { steps: 3 });
  await expect.poll(() => page.locator('bf-figure text.verdict').textContent()).toContain('✗');
  await page.mouse.up();
  const events = await told(page, 'bf-handle');
  expect(events.filter(({ phase }) => phase === 'drop')).toHaveLength(1);
  expect(events.at(-1)?.['phase']).toBe('drop');
  expect(Number(events.at(-1)?.['delivered_mL'])).toBeGreaterThan(48);
  expect(complaints).toEqual([]);
});

test('Escape puts a handle back, Enter drops it', async () => {
  const { page } = await specimen();
  const handle = page.locator('bf-axis-handle[kind="eluent"]').last();
  const before = Number(await handle.getAttribute('aria-valuenow'));
  await handle.focus();
  await page.keyboard.press('Shift+ArrowLeft');
  await expect.poll(async () => Number(await handle.getAttribute('aria-valuenow'))).toBeCloseTo(before - 1, 0);
  await page.keyboard.press('Escape');
  await expect.poll(async () => Number(await handle.getAttribute('aria-valuenow'))).toBe(before);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  expect((await told(page, 'bf-handle')).map(({ phase }) => phase)).toEqual(['move', 'cancel', 'move', 'drop']);
});

test('the bed tells where it is again when the height changes', async () => {
  const { page } = await specimen();
  await page.locator('bf-figure').evaluate((figure) => {
    figure.style.height = '680px';
  });
  await expect.poll(async () => (await told(page, 'bf-layout')).length).toBe(1);
  const [layout] = await told(page, 'bf-layout');
  const [canvas, figure] = await Promise.all([page.locator('bf-figure canvas').boundingBox(), page.locator('bf-figure').boundingBox()]);
  expect((canvas?.y ?? 0) - (figure?.y ?? 0)).toBeCloseTo(Number(layout?.['bedTop']), 0);
  expect(canvas?.height ?? 0).toBeCloseTo(Number(layout?.['bedBottom']) - Number(layout?.['bedTop']), 0);
});

test('the picture of the bands is painted: blue where cobalt is, page where the run has not been', async () => {
  const { page } = await specimen();
  const pixel = (mL: number, share: number): Promise<number[]> =>
    page.locator('bf-figure canvas').evaluate(
      (canvas, [x = 0, y = 0]) => {
        // The locator names a canvas.
        const picture = canvas as HTMLCanvasElement;
        return [...(picture.getContext('2d')?.getImageData(Math.floor(x * picture.width), Math.floor(y * picture.height), 1, 1).data ?? [])];
      },
      [mL / AXIS_ML, share],
    );
  const bluer = async (): Promise<number> => {
    const [red = 0, , blue = 0] = await pixel(40, 0.15);
    return blue - red;
  };
  await expect.poll(bluer).toBeGreaterThan(40);
  expect((await pixel(AXIS_ML - 1, 0.5))[3]).toBe(0);
});

test.each([
  { theme: 'light', width: 900 },
  { theme: 'dark', width: 900 },
  { theme: 'light', width: 360 },
] as const)('axe finds nothing at $width px on a $theme page', async ({ theme, width }) => {
  const { page } = await specimen({ theme, width });
  await page.evaluate(AXE);
  const found = await page.evaluate(async () => {
    const { axe: check } = window as unknown as { axe: typeof axe };
    const { violations } = await check.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] });
    return violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
  });
  expect(found).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
});
