import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Log } from '../../sim/terms/types.ts';
import { more, PATIENCE_MS, ready, scenario } from './bench-rig.ts';
import { onePage } from './one-page.ts';

// What is written in the figure can be read: no words lie over other words, at the end of a run with predictions made.

const LONG = 300_000;
/** The box of a line of text is so much higher than its letters, at each side, px. */
const SLACK_PX = 2;
const SIZES = [
  ['1366 by 768', { viewport: { width: 1366, height: 768 } }],
  ['1280 by 720', { viewport: { width: 1280, height: 720 } }],
  ['a phone', { viewport: { width: 390, height: 844 }, touch: true }],
] as const;
const it = onePage();

test.each(SIZES.flatMap(([size, options]) => (['lab-day', 'cathode-leach'] as const).map((name) => ({ size, options, name }))))(
  'of the finished run of $name no two words of the figure lie over one another on $size',
  async ({ options, name }) => {
    const page = await it.open({ ...options, column: 1, reducedMotion: 'reduce' });
    await ready(page);
    await begin(page, name);
    await predict(page, 0.7, 0.35);
    await predict(page, 0.72, 0.97);
    expect(await overlaps(page)).toEqual([]);
    // By eye there is no future to play to.
    await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('forecast');
    const dialog = await more(page);
    await page.getByRole('button', { name: 'Play the procedure' }).click();
    await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS, state: 'attached' });
    if (await dialog.isVisible()) await dialog.getByRole('button', { name: 'Close' }).click();
    for (const seen of ['eye', 'figure', 'forecast']) {
      await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption(seen);
      await page.waitForTimeout(1000);
      expect(await overlaps(page), seen).toEqual([]);
      expect(await struck(page), seen).toEqual([]);
      expect(await cutOff(page), seen).toEqual([]);
    }
    expect(await underHandles(page)).toEqual([]);
    expect(await overNow(page)).toEqual([]);
    await lookBack(page, 30);
    expect(await struck(page)).toEqual([]);
    // The tag of a change that is in use stands clear of the words round it.
    const change = page.locator('bf-figure bf-axis-handle[kind=receiver]').last();
    await change.focus();
    expect(await overlaps(page)).toEqual([]);
    const words = await texts(page);
    // On a phone there may be room for the words of one prediction only; its cross and the other's stay.
    const told = words.filter((text) => /^(you|was |none left|at the bottom)/.test(text)).length;
    expect(told).toBeLessThanOrEqual(2);
    expect(told).toBeGreaterThanOrEqual('touch' in options ? 1 : 2);
    expect(await page.locator('bf-figure .predictions path').count()).toBe(2);
    expect(words.filter((text) => /\bwas\b/.test(text)).length).toBeGreaterThan(0);
    expect(words.some((text) => text.startsWith('now '))).toBe(true);
  },
  LONG,
);

test(
  'in a watched run on a phone the moment shown and the unit of the axis stay apart, and so do the titles of the rows',
  async () => {
    const page = await it.open({ viewport: { width: 390, height: 844 }, touch: true, column: 1, reducedMotion: 'reduce' });
    await ready(page);
    await page.getByRole('button', { name: 'Watch one run' }).click();
    const panel = page.locator('bf-watch');
    await panel.getByText('First the column is conditioned').waitFor({ timeout: PATIENCE_MS });
    for (let i = 0; i < 12 && !(await panel.getByText('Done:').isVisible()); i++) {
      expect(await crowded(page), (await panel.locator('.caption').textContent()) ?? '').toEqual([]);
      const text = await panel.locator('.caption').textContent();
      await panel.getByRole('button', { name: 'Next' }).click();
      await expect.poll(() => panel.locator('.caption').textContent(), { timeout: PATIENCE_MS }).not.toBe(text);
    }
    expect(await crowded(page)).toEqual([]);
  },
  LONG,
);

test(
  'by eye on a small phone what is asked is on the screen, nothing is cut off, and every receiver has its name',
  async () => {
    const page = await it.open({ viewport: { width: 360, height: 740 }, touch: true, column: 1, reducedMotion: 'reduce' });
    await ready(page);
    await page.getByText(/^Goal: Co ≥ 99\.5\s% · Ni ≤ 0\.5\s% · acid ≤ 20\smmol$/).waitFor();
    expect(await cutOff(page)).toEqual([]);
    await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('forecast');
    const dialog = await more(page);
    await page.getByRole('button', { name: 'Play the procedure' }).click();
    await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS, state: 'attached' });
    if (await dialog.isVisible()) await dialog.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('eye');
    await lookBack(page, 5);
    await page.waitForTimeout(500);
    expect(await cutOff(page)).toEqual([]);
    expect(await struck(page)).toEqual([]);
    const words = await texts(page);
    for (const name of ['nickel', 'cobalt']) expect(words.filter((text) => text.startsWith(name)).length, name).toBe(1);
  },
  LONG,
);

test(
  'on a phone the presses of the list are whole, also where the last of them takes two lines',
  async () => {
    const page = await it.open({ viewport: { width: 390, height: 844 }, touch: true, column: 1, reducedMotion: 'reduce' });
    await ready(page);
    const { procedure } = scenario();
    const water = procedure.findLastIndex((action) => action.do === 'pour');
    await begin(page, 'cathode-leach', procedure.slice(0, water), 300);
    const press = page.getByRole('button', { name: 'Shut the clamp: the run ends' });
    await press.waitFor({ timeout: PATIENCE_MS });
    const box = await press.boundingBox();
    const side = await page.locator('bf-bench .side').boundingBox();
    expect((box?.y ?? Number.NaN) + (box?.height ?? Number.NaN)).toBeLessThanOrEqual((side?.y ?? 0) + (side?.height ?? 0));
  },
  LONG,
);

/** The scenario as it ships, seen by eye, as after a visit before; with a log, as it stands after so many minutes. */
async function begin(page: Page, base: string, log: Log = [], now_min = 0): Promise<void> {
  await page.keyboard.press('o');
  await expect.poll(() => page.evaluate(() => localStorage.getItem('bandfall.run')), { timeout: PATIENCE_MS }).not.toBeNull();
  const text = await page.evaluate<string>(`(() => {
    const kept = JSON.parse(localStorage.getItem('bandfall.run'));
    return JSON.stringify({ ...kept, run: { base: ${JSON.stringify(base)}, differences: {}, seed: 1, log: ${JSON.stringify(log)}, now_min: ${now_min} } });
  })()`);
  await page.addInitScript((kept) => {
    if (sessionStorage.getItem('begun')) return;
    sessionStorage.setItem('begun', 'yes');
    localStorage.setItem('bandfall.run', kept);
  }, text);
  await page.reload();
  await ready(page);
  await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('eye');
}

/** Presses a place of the figure, as shares of its width and height. */
async function predict(page: Page, across: number, down: number): Promise<void> {
  const surface = page.locator('bf-figure .surface');
  const box = await surface.boundingBox();
  if (!box) throw new Error('figure: expected a surface to press, found none');
  await surface.click({ position: { x: across * box.width, y: down * box.height } });
}

/** Words of the figure: those of the drawing, and of the handles that show theirs. */
const SHOWN = `(() => {
  const root = document.querySelector('bf-app').shadowRoot.querySelector('bf-bench').shadowRoot.querySelector('bf-figure').shadowRoot;
  const handles = [...root.querySelectorAll('bf-axis-handle')].map((handle) => handle.shadowRoot.querySelector('span'));
  return [...root.querySelectorAll('svg text'), ...handles.filter((span) => getComputedStyle(span).opacity === '1')].filter((text) => text.textContent.trim() !== '');
})()`;

function texts(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`${SHOWN}.map((text) => text.textContent.trim())`);
}

/** Pairs of words that share more than an edge. */
function overlaps(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const boxes = ${SHOWN}.map((text) => ({ said: text.textContent.trim(), box: text.getBoundingClientRect() }));
    const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > ${2 * SLACK_PX} && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > ${2 * SLACK_PX};
    return boxes.flatMap((one, i) => boxes.slice(0, i).filter(({ box }) => meet(box, one.box)).map(({ said }) => said + ' | ' + one.said));
  })()`);
}

/** Words that a line is drawn over: one that comes later in the drawing and passes through their box; what comes before them lies under their light edge. */
function struck(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const root = document.querySelector('bf-app').shadowRoot.querySelector('bf-bench').shadowRoot.querySelector('bf-figure').shadowRoot;
    const lines = [...root.querySelectorAll('.cursor.now line, .stems path, .predictions line, .line > path')];
    const through = (line, box) => {
      const on = line.getScreenCTM();
      const length = line.getTotalLength();
      for (let at = 0; at <= length; at += 2) {
        const { x, y } = line.getPointAtLength(at).matrixTransform(on);
        if (x > box.left + ${SLACK_PX} && x < box.right - ${SLACK_PX} && y > box.top + ${2 * SLACK_PX} && y < box.bottom - ${2 * SLACK_PX}) return true;
      }
      return false;
    };
    return [...root.querySelectorAll('svg text')].filter((text) => text.textContent.trim() !== '').flatMap((text) => {
      const box = text.getBoundingClientRect();
      const over = lines.filter((line) => text.compareDocumentPosition(line) & Node.DOCUMENT_POSITION_FOLLOWING && through(line, box));
      return over.length > 0 ? [text.textContent.trim()] : [];
    });
  })()`);
}

/** What a handle of the axis lies on, by what is drawn of both: the verdict, the signs of the cautions. */
function underHandles(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const bench = document.querySelector('bf-app').shadowRoot.querySelector('bf-bench').shadowRoot;
    const figure = bench.querySelector('bf-figure').shadowRoot;
    const handles = [...figure.querySelectorAll('bf-axis-handle')].flatMap((handle) => [...handle.shadowRoot.querySelectorAll('path')]);
    if (handles.length === 0) return ['no handle is drawn'];
    const signs = [...bench.querySelector('bf-hazard').shadowRoot.querySelectorAll('button')];
    const things = [...[...figure.querySelectorAll('.verdict')].map((text) => [text.textContent, text]), ...signs.map((sign) => [sign.ariaLabel, sign.querySelector('svg')])];
    const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > ${SLACK_PX} && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > ${SLACK_PX};
    return things.filter(([, thing]) => handles.some((path) => meet(path.getBoundingClientRect(), thing.getBoundingClientRect()))).map(([said]) => said);
  })()`);
}

/** The name of the acid front, where the line of the moment runs through it; words of predictions have no other place on a phone. */
function overNow(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const root = document.querySelector('bf-app').shadowRoot.querySelector('bf-bench').shadowRoot.querySelector('bf-figure').shadowRoot;
    const now = root.querySelector('.cursor.now line').getBoundingClientRect();
    return [...root.querySelectorAll('svg text.line-label')].filter((text) => text.textContent.includes('acid front')).filter((text) => {
      const { left, right } = text.getBoundingClientRect();
      return left + ${SLACK_PX} < now.left && right - ${SLACK_PX} > now.right;
    }).map((text) => text.textContent.trim());
  })()`);
}

/** Words of the figure that leave the window or come nearer to its side than 4 px. */
function cutOff(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`${SHOWN}.filter((text) => {
    const { left, right } = text.getBoundingClientRect();
    return left < 0 || right > innerWidth - 4;
  }).map((text) => text.textContent.trim())`);
}

/** Moves the moment shown back by some mL. */
async function lookBack(page: Page, by_mL: number): Promise<void> {
  await page.locator('bf-figure bf-now-handle').focus();
  for (let i = 0; i < by_mL; i++) await page.keyboard.press('Shift+ArrowLeft');
}

/** Titles of axes, and what is beside or right above them closer than a reader tells apart: 10 px beside, 5 px between lines. */
function crowded(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`(() => {
    const boxes = ${SHOWN}.filter((text) => text.matches('.now-label, .axis-title, .row-title')).map((text) => ({ said: text.textContent.trim(), box: text.getBoundingClientRect() }));
    const near = (a, b) => Math.max(a.left, b.left) - Math.min(a.right, b.right) < 10 && Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom) < 5;
    return boxes.flatMap((one, i) => boxes.slice(0, i).filter(({ box }) => near(box, one.box)).map(({ said }) => said + ' | ' + one.said));
  })()`);
}
