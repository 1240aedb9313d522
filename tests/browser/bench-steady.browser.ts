import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { headless, kept, PATIENCE_MS, reading, ready, still } from './bench-rig.ts';
import { onePage } from './one-page.ts';

// What is pressed stays where it is and means what it says; what asks for something is quiet once it is done.

const LONG = 300_000;
const WIDE = { viewport: { width: 1280, height: 720 }, column: 1 } as const;
const PHONE = { viewport: { width: 390, height: 844 }, touch: true, column: 1 } as const;
const it = onePage();

test(
  '“to 1 mm” stays itself while it runs: a second press does not jump, the jump has a button of its own',
  async () => {
    const page = await it.open(WIDE);
    await ready(page);
    await page.keyboard.press('o');
    await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(2);
    await page.getByRole('combobox', { name: 'speed' }).selectOption({ label: '×1' });
    const low = page.getByRole('button', { name: /^to 1\smm$/ });
    const before = await low.boundingBox();
    await low.click();
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    expect(await low.boundingBox()).toEqual(before);
    expect(await reading(page, 'drops')).toMatch(/^\d+ \/ min$/);
    await low.click();
    await page.getByText('That is on its way').waitFor();
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await page.getByRole('button', { name: 'Jump there' }).click();
    await still(page);
    await page.locator('bf-strip').getByText('to 1').waitFor();
    expect(await reading(page, 'drops')).toBe('paused');
    await page.keyboard.press('o');
    await expect.poll(() => reading(page, 'drops')).toBe('none');
    expect(headless(await kept(page)).delivered_mL).toBeGreaterThan(0.3);
  },
  LONG,
);

test(
  'on a first visit at 1280 by 720 the task, the ways in and the readings are in sight without scrolling, as on larger screens',
  async () => {
    for (const viewport of [WIDE.viewport, { width: 1366, height: 768 }]) {
      const page = await it.open({ ...WIDE, viewport });
      await ready(page);
      await page.locator('bf-ways-in button.fill').waitFor();
      const { room, needed, last } = await page.locator('.side').evaluate((side) => ({
        room: side.getBoundingClientRect().bottom,
        needed: side.scrollHeight - side.clientHeight,
        last: side.querySelector('bf-task')?.shadowRoot?.querySelector('dl')?.getBoundingClientRect().bottom,
      }));
      expect(needed).toBeLessThanOrEqual(0);
      expect(last).toBeLessThanOrEqual(room);
    }
  },
  LONG,
);

test(
  'no button of the task comes to lie under the pointer that pressed another, and the second half of a double press does nothing',
  async () => {
    const page = await it.open({ ...WIDE, reducedMotion: 'reduce' });
    await ready(page);
    for (let i = 0; i < 10; i++) {
      const buttons = page.locator('bf-task li button');
      const last = buttons.last();
      // The one that may be judged is tried before the one that is due.
      const button = i >= 4 && i % 2 === 0 ? last : buttons.first();
      const box = await button.boundingBox();
      if (!box) break;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const step = await stepAt(page, x, y);
      const { length } = (await kept(page)).log;
      await page.mouse.dblclick(x, y);
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(length);
      await still(page);
      const after = await stepAt(page, x, y);
      expect([undefined, step], `after ${step} lies ${after}`).toContain(after);
      if (await page.getByText('The run is over').isVisible()) break;
    }
  },
  LONG,
);

test(
  'on a phone a second tap half a second after the first does nothing more, whatever has come to lie under the finger; a key acts at once',
  async () => {
    const options = { ...PHONE, reducedMotion: 'reduce' } as const;
    const meant = await it.open(options);
    await ready(meant);
    const logs: unknown[][] = [];
    for (let step = 0; step < 3; step++) {
      await meant.keyboard.press('n');
      await expect.poll(async () => (await kept(meant)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(logs.at(-1)?.length ?? 0);
      await still(meant);
      logs.push(await done(meant));
    }
    const page = await it.open(options);
    await ready(page);
    const due = page.locator('bf-task li.now > button');
    for (const log of logs.slice(0, 2)) {
      const box = await due.boundingBox();
      if (!box) throw new Error('task: expected a press for the step in hand, received none');
      const words = await due.innerText();
      for (const wait of [450, 0]) {
        await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
        await page.waitForTimeout(wait);
      }
      await expect.poll(() => due.innerText(), { timeout: PATIENCE_MS }).not.toBe(words);
      if (log !== logs[1]) await page.waitForTimeout(1000);
      expect(await done(page)).toEqual(log);
    }
    await due.press('Enter');
    await expect.poll(() => done(page), { timeout: PATIENCE_MS }).toEqual(logs[2]);
  },
  LONG,
);

test(
  'at the end only what can still be done is highlighted: a beaker that was never changed is told as not done',
  async () => {
    const page = await it.open({ ...WIDE, reducedMotion: 'reduce' });
    await ready(page);
    for (let i = 0; i < 14; i++) {
      const { length } = (await kept(page)).log;
      if (await page.locator('bf-task li.now', { hasText: 'cobalt' }).count()) break;
      await page.keyboard.press('n');
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(length);
      await still(page);
    }
    await page.keyboard.press('o');
    await page.getByRole('button', { name: 'End the run here' }).click({ timeout: PATIENCE_MS });
    await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
    expect(await page.locator('bf-task li.now, bf-task li.open, bf-task li button').count()).toBe(0);
    expect(await page.locator('bf-task li.missed').textContent()).toMatch(/not done:\s*Receiver/);
    await page.getByText('Nothing more is due on this column').waitFor();
    expect(await page.locator('bf-strip button.primary').count()).toBe(0);
  },
  LONG,
);

test(
  'the jump says why there is nowhere to jump, and water that slows the clock says so and gives the speed back',
  async () => {
    const page = await it.open(WIDE);
    await ready(page);
    const jump = page.getByRole('button', { name: 'Jump there' });
    expect(await jump.getAttribute('aria-disabled')).toBe('true');
    await jump.click({ force: true });
    await page.locator('bf-say-line').getByText('jumps to where playing stops').waitFor();
    const speed = page.getByRole('combobox', { name: 'speed' });
    const chosen = await speed.inputValue();
    await page.getByRole('radio', { name: 'water' }).check({ force: true });
    await page.keyboard.press('p');
    await page
      .locator('bf-say-line')
      .getByText(/^Slowed to ×5/)
      .waitFor({ timeout: PATIENCE_MS });
    expect(await speed.inputValue()).toBe('5');
    await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(0);
    await page
      .locator('bf-say-line')
      .getByRole('button', { name: `×${chosen} again` })
      .click();
    expect(await speed.inputValue()).toBe(chosen);
  },
  LONG,
);

describe.each([
  ['a projector', WIDE],
  ['a phone', PHONE],
] as const)('on %s', (name, options) => {
  test(
    'a caution that opens by itself covers no control, no handle and no place for a mark; a mark answers its hint',
    async () => {
      const page = await it.open({ ...options, reducedMotion: 'reduce' });
      await ready(page);
      await page.keyboard.press('n');
      await expect.poll(async () => (await kept(page)).now_min, { timeout: PATIENCE_MS }).toBeGreaterThan(1);
      await still(page);
      const opened = name === 'a phone' ? page.locator('bf-say-line').getByRole('button', { name: 'Read' }) : page.getByText('Fume hood');
      await opened.waitFor();
      expect(await covered(page)).toEqual([]);
      const surface = await page.locator('bf-figure .surface').boundingBox();
      if (!surface) throw new Error('figure: expected on the page, received none');
      const hint = page.locator('bf-figure svg.plot .words', { has: page.locator('.ask') });
      expect(await hint.textContent()).toMatch(/^Once the sample is ?on the bed, predict/);
      const press = (down: number) => page.mouse.click(surface.x + surface.width * 0.75, surface.y + surface.height * down);
      await press(0.4);
      await page.getByText(/^you: \d\.\d\scm$/).waitFor();
      await press(name === 'a phone' ? 0.93 : 0.97);
      await page.getByText(/^you: \d+\.\d\smL$/).waitFor();
      expect(await hint.textContent()).toMatch(/^Marked/);
      expect(await hint.textContent()).not.toMatch(/In the|edge|begin/);
      if (name === 'a phone') {
        await opened.click();
        await page.locator('bf-say-line').getByText('Caution').waitFor({ state: 'hidden' });
      }
      const card = page.getByRole('group', { name: /^Caution/ });
      await card.getByText('Fume hood').waitFor();
      expect(await cutOff(page), 'pixels of the caution out of sight').toBe(0);
      if (name === 'a projector') expect(await readingsUnderCaution(page)).toEqual([]);
      expect(await card.getByRole('button').allTextContents()).toEqual(['In full', 'Hide']);
      await card.getByRole('button', { name: 'In full' }).click();
      const dialog = page.getByRole('dialog', { name: 'Caution' });
      await page.getByText('Splash in the eyes').waitFor();
      await dialog.getByRole('button', { name: 'Close' }).click();
      await card.waitFor({ state: 'hidden' });
      await page.getByRole('button', { name: /^Caution: Strong hydrochloric acid/ }).click();
      await card.getByRole('button', { name: 'Hide' }).click();
      await card.waitFor({ state: 'hidden' });
    },
    LONG,
  );
});

test(
  'on a phone the way of seeing can be read in the header, which stays one line, and the scenario in the menu',
  async () => {
    const page = await it.open(PHONE);
    await ready(page);
    const seeing = page.getByRole('combobox', { name: 'How the run is seen' });
    for (const choice of ['eye', 'figure', 'forecast']) {
      await seeing.selectOption(choice);
      expect(await wanting(seeing), choice).toBeLessThanOrEqual(0);
    }
    const middles = [page.getByRole('link', { name: 'Bandfall' }), seeing, page.getByRole('button', { name: 'Menu' })].map(async (part) => {
      const box = await part.boundingBox();
      return (box?.y ?? -100) + (box?.height ?? 0) / 2;
    });
    for (const middle of await Promise.all(middles)) expect(middle).toBeCloseTo(22, -1);
    await page.getByRole('button', { name: 'Menu' }).click();
    const scenario = page.getByRole('combobox', { name: 'Scenario' });
    await scenario.waitFor();
    expect(await wanting(scenario)).toBeLessThanOrEqual(0);
    await scenario.selectOption('lab-day');
    await scenario.waitFor({ state: 'hidden' });
    await page.locator('bf-say-line').getByText('Another scenario is open').or(page.locator('bf-task li.now')).first().waitFor();
  },
  LONG,
);

test(
  'on a small phone every row of the bench is on the first screen, whichever part of the strip is open and however the run is seen',
  async () => {
    const viewport = { width: 360, height: 740 };
    const page = await it.open({ ...PHONE, viewport });
    await ready(page);
    await page.getByRole('button', { name: 'Watch one run' }).waitFor();
    for (const seen of ['eye', 'figure']) {
      await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption(seen);
      for (const part of ['Clamp', 'Receivers', 'Time', 'Bottles']) {
        await page.locator('bf-strip').getByRole('button', { name: part }).click();
        expect(await page.evaluate(() => document.documentElement.scrollHeight), `${seen}, ${part}`).toBeLessThanOrEqual(viewport.height);
        const places = await page
          .locator('bf-strip button:visible, bf-strip input:visible, bf-task li button')
          .evaluateAll((all) => all.map((one) => ({ bottom: one.getBoundingClientRect().bottom, height: one.getBoundingClientRect().height })));
        expect(places.length).toBeGreaterThan(4);
        expect(Math.max(...places.map(({ bottom }) => bottom)), `${seen}, ${part}`).toBeLessThanOrEqual(viewport.height);
      }
    }
    const signs = page.locator('bf-hazard').getByRole('button');
    await signs.first().click();
    await page.getByRole('group', { name: /^Caution/ }).waitFor();
    for (const sign of await signs.all()) await sign.click({ trial: true, timeout: 5000 });
    expect(await cutOff(page)).toBe(0);
    await signs.first().click();
    const amount = await page.getByRole('textbox', { name: 'volume to pour' }).boundingBox();
    const bar = await page.locator('bf-strip .bar').boundingBox();
    expect((amount?.y ?? Number.NaN) + (amount?.height ?? 0)).toBeLessThanOrEqual(bar?.y ?? 0);
  },
  LONG,
);

/** What was done, without when. */
async function done(page: Page) {
  return (await kept(page)).log.map(({ at_min: _, ...action }) => action);
}

/** By how much the chosen words of a list are wider than the room for them, px. */
function wanting(list: Locator): Promise<number> {
  return list.evaluate((element: HTMLSelectElement) => {
    const { font, paddingLeft, paddingRight } = getComputedStyle(element);
    const pen = document.createElement('canvas').getContext('2d');
    if (!pen) return Number.POSITIVE_INFINITY;
    pen.font = font;
    // The mark of the list itself takes 16 px in this browser.
    const room = element.clientWidth - Number.parseFloat(paddingLeft) - Number.parseFloat(paddingRight) - 16;
    return pen.measureText(element.selectedOptions[0]?.text ?? '').width - room;
  });
}

/** How much of the caution is outside the page or has to be scrolled to, px. */
function cutOff(page: Page): Promise<number> {
  return page.locator('bf-hazard-card').evaluate((card) => {
    const note = card.shadowRoot?.querySelector('.note')?.getBoundingClientRect();
    const side = card.closest('.side')?.getBoundingClientRect();
    if (!note) return Number.POSITIVE_INFINITY;
    const [top, bottom] = [side?.top ?? 0, Math.min(side?.bottom ?? innerHeight, innerHeight)];
    return Math.max(0, note.bottom - bottom, top - note.top, card.scrollHeight - card.clientHeight);
  });
}

/** Names of the read-outs that the caution lies over or that are out of sight. */
function readingsUnderCaution(page: Page): Promise<string[]> {
  return page.locator('.side').evaluate((side) => {
    const card = side.querySelector('bf-hazard-card')?.shadowRoot?.querySelector('.note')?.getBoundingClientRect();
    const rows = [...(side.querySelector('bf-task')?.shadowRoot?.querySelectorAll('dl > div') ?? [])];
    const inSight = (box: DOMRect) => box.height > 0 && box.bottom <= (card?.top ?? 0) && box.top >= side.getBoundingClientRect().top;
    return rows.length === 0 ? ['all'] : rows.filter((row) => !inSight(row.getBoundingClientRect())).map((row) => row.textContent ?? '');
  });
}

test('the one sentence of the task can be read at 1280 x 720, and more of it in the drawer', async () => {
  const page = await it.open(WIDE);
  await ready(page);
  const said = page
    .locator('bf-task')
    .getByText(/^Collect 99\.5\s% or more of the cobalt, with at most 0\.5\s% of the nickel and at most 20\smmol of acid in its receiver\.$/);
  await said.waitFor();
  const box = await said.boundingBox();
  expect((box?.y ?? 1e4) + (box?.height ?? 1e4)).toBeLessThan(720);
  await page.getByRole('button', { name: 'More', exact: true }).click();
  await page.locator('bf-more').getByText('Separate cobalt from nickel').waitFor();
});

/** Which step's button lies here, if any: its words without the amounts. */
function stepAt(page: Page, x: number, y: number): Promise<string | undefined> {
  return page.evaluate(
    ([px, py]) => {
      let top = document.elementFromPoint(px, py);
      while (top?.shadowRoot) {
        const deeper: Element | null = top.shadowRoot.elementFromPoint(px, py);
        if (!deeper || deeper === top) break;
        top = deeper;
      }
      const button = top?.closest('li button');
      const items = [...(button?.closest('ol')?.children ?? [])];
      return button ? `step ${items.indexOf(button.closest('li') as Element)}` : undefined;
    },
    [x, y] as const,
  );
}

/** Names of the controls and handles in sight whose middle the caution lies on. */
async function covered(page: Page): Promise<string[]> {
  const controls = page.locator('bf-strip button, bf-task button, bf-axis-handle, bf-now-handle, bf-figure .surface, bf-segmented label, bf-coach button');
  return controls.evaluateAll((all) =>
    all
      .filter((control) => control.getClientRects().length > 0)
      .filter((control) => {
        const { x, y, width, height } = control.getBoundingClientRect();
        let top = document.elementFromPoint(x + width / 2, y + height / 2);
        while (top?.shadowRoot) {
          const deeper: Element | null = top.shadowRoot.elementFromPoint(x + width / 2, y + height / 2);
          if (!deeper || deeper === top) break;
          top = deeper;
        }
        const host = (top?.getRootNode() as ShadowRoot | undefined)?.host;
        return host?.localName === 'bf-caution';
      })
      .map((control) => control.textContent ?? ''),
  );
}
