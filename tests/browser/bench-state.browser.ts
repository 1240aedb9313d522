import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import type { Log } from '../../sim/terms/types.ts';
import { drawn } from '../../sim/column/drawn.ts';
import { sectionOf } from '../../sim/terms/geometry.ts';
import { encodeLink } from '../../src/store/keep/link.ts';
import { axeViolations } from './axe.ts';
import {
  expectSameAsHeadless,
  headless,
  kept,
  more,
  PATIENCE_MS,
  reading,
  ready,
  still,
  whereItIs,
  scenario,
  wholeProcedure,
  withForecast,
} from './bench-rig.ts';
import { launch, type Session } from './session.ts';

const LONG = 300_000;

/** Cells of a row of the debrief's table of amounts, as written. */
async function inDebrief(page: Page, place: string): Promise<string[]> {
  const ask = page.locator('bf-debrief').getByRole('button', { name: 'Show the amounts' });
  if (await ask.isVisible()) await ask.click();
  const row = page
    .getByRole('table', { name: 'Where everything is' })
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: place, exact: true }) });
  return row.getByRole('cell').allInnerTexts();
}

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
      await withForecast(page);
      await more(page);
      await page.getByRole('button', { name: 'Play the procedure' }).click();
      await expect.poll(async () => (await kept(page)).now_min, { timeout: PATIENCE_MS }).toBeGreaterThan(0.5);
      await page.keyboard.press('t');
      await still(page);
      // What is kept follows the page a little later.
      let before = await kept(page);
      const settled = async (): Promise<boolean> => {
        const last = before;
        before = await kept(page);
        return before.now_min === last.now_min;
      };
      await expect.poll(settled, { timeout: PATIENCE_MS, interval: 500 }).toBe(true);
      const table = await whereItIs(page);
      await page.reload();
      await ready(page);
      expect(await kept(page)).toEqual(before);
      expect(await whereItIs(page)).toEqual(table);
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
      await page.getByText('if moved here').waitFor({ timeout: PATIENCE_MS, state: 'attached' });
      await page.mouse.up();
      await expect.poll(async () => JSON.stringify((await kept(page)).log), { timeout: PATIENCE_MS }).not.toBe(JSON.stringify(before.log));
      // The run was over, so this is a what-if: the debrief shows it, with what is where.
      await page.getByText('What if:').waitFor({ timeout: PATIENCE_MS });
      const results = headless(await kept(page));
      const cobalt = results.receivers.find(({ label }) => label === 'cobalt');
      await expect.poll(() => inDebrief(page, 'cobalt'), { timeout: PATIENCE_MS }).toContain(Number(cobalt?.['Co_mmol']).toFixed(4));
      const whole = headless(before).receivers.find(({ label }) => label === 'cobalt');
      expect(cobalt?.volume_mL).toBeLessThan((whole?.volume_mL ?? 0) - 1);
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
      await page.getByText('if moved here').waitFor({ timeout: PATIENCE_MS, state: 'attached' });
      await page.keyboard.press('Enter');
      const acidOf = (log: Log): number => log.reduce((sum, action) => sum + (action.do === 'pour' && action.liquid === 'acid' ? action.volume_mL : 0), 0);
      await expect.poll(async () => Math.round(acidOf((await kept(page)).log)), { timeout: PATIENCE_MS }).toBe(Math.round(acidOf(scenario().procedure) + 2));
      await page.getByText('What if:').waitFor({ timeout: PATIENCE_MS });
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
    'says in a person’s words why a pour is refused, in a line whose place is kept, and Pour stays where it is',
    async () => {
      const { page, close } = await session.openPage({ viewport: { width: 1280, height: 720 } });
      await ready(page);
      const { log } = await kept(page);
      const field = page.getByRole('textbox', { name: 'volume to pour' });
      const pour = page.getByRole('button', { name: 'Pour', exact: true });
      await field.fill('15');
      const before = await pour.boundingBox();
      await pour.click();
      const fit = `Only ${startRoom((await kept(page)).seed).toFixed(1)}\u202fmL fit`;
      await page.getByRole('alert').getByText(`${fit} above the bed now.`).waitFor();
      expect(await pour.boundingBox()).toEqual(before);
      expect((await kept(page)).log).toEqual(log);
      await page.getByText(fit).waitFor({ state: 'hidden', timeout: PATIENCE_MS });
      await close();
    },
    LONG,
  );

  test(
    'opens the acid caution when acid is first poured, folds it when read and opens it again from its pictogram',
    async () => {
      const { page, close } = await session.openPage();
      await ready(page);
      expect(await page.getByText('Fume hood').isVisible()).toBe(false);
      await page.keyboard.press('p');
      await page.getByText('Fume hood').waitFor({ timeout: PATIENCE_MS });
      await page.getByRole('button', { name: 'Hide', exact: true }).click();
      await page.getByText('Fume hood').waitFor({ state: 'hidden' });
      await page.getByRole('button', { name: /^Caution: Strong hydrochloric acid/ }).click();
      await page.getByText('Fume hood').waitFor();
      await close();
    },
    LONG,
  );

  test(
    'by eye shows no curve, band picture or number of what is inside, takes a prediction by a press, and opens at the end',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', viewport: { width: 1280, height: 720 } });
      await ready(page);
      for (let i = 0; i < 3; i++) {
        const { log } = await kept(page);
        await page.keyboard.press('n');
        await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(log.length);
        await still(page);
      }
      expect(await page.locator('bf-figure canvas').isVisible()).toBe(false);
      expect(await page.locator('bf-figure g.effluent path').count()).toBe(0);
      const dialog = await more(page);
      expect(await page.getByText('Where it is, mmol').count()).toBe(0);
      await dialog.getByRole('button', { name: 'Close' }).click();
      await page.getByRole('button', { name: 'Hide', exact: true }).click();
      const surface = await page.locator('bf-figure .surface').boundingBox();
      if (!surface) throw new Error('figure: expected on the page, received none');
      await page.mouse.click(surface.x + surface.width * 0.45, surface.y + surface.height * 0.3);
      await page.getByText(/^you: \d\.\d\scm$/).waitFor();
      await page.keyboard.press('n');
      await page.getByText(/^you: \d\.\d\scm, it was \d\.\d\scm$/).waitFor({ timeout: PATIENCE_MS });
      await wholeProcedure(page);
      await page.locator('bf-figure canvas').waitFor();
      expect(await page.locator('bf-figure g.effluent path').count()).toBeGreaterThan(0);
      // The choice keeps its name, and what the end opens is said.
      const seeing = page.getByLabel('How the run is seen');
      expect((await seeing.locator('option:checked').textContent())?.trim()).toBe('by eye');
      expect(await seeing.locator('optgroup').getAttribute('label')).toBe('all is open now');
      await page.locator('bf-ended').getByText('All is open now.').waitFor();
      await close();
    },
    LONG,
  );

  test.each([
    ['a laptop', { width: 1366, height: 768 }, false],
    ['a phone', { width: 390, height: 844 }, true],
    ['a small phone', { width: 360, height: 740 }, true],
  ] as const)(
    'offers another column and an empty tube where a run has ended, in sight beside the debrief, on %s',
    async (_, viewport, touch) => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce', column: 1, viewport, touch });
      await ready(page);
      if (touch) await page.getByRole('button', { name: 'Menu' }).click();
      await page.getByRole('combobox', { name: 'Scenario' }).selectOption('lab-day');
      await page.locator('bf-task').getByText('Receiver “cobalt 1”').waitFor({ state: 'attached', timeout: PATIENCE_MS });
      await wholeProcedure(page);
      const ended = page.locator('bf-ended');
      const presses = ['Debrief', 'New column', 'Empty tube'].map((name) => ended.getByRole('button', { name, exact: true }));
      await presses[1]?.waitFor();
      expect(await page.evaluate(() => scrollY)).toBe(0);
      for (const press of presses) {
        await press.click({ trial: true });
        const box = await press.boundingBox();
        const side = await page.locator('bf-bench .side').boundingBox();
        if (!box || !side) throw new Error('end of a run: expected a press, received none');
        expect(box.height).toBeGreaterThanOrEqual(24);
        expect(box.y).toBeGreaterThanOrEqual(side.y);
        expect(box.y + box.height).toBeLessThanOrEqual(Math.min(viewport.height, side.y + side.height));
      }
      // What it came to, the longest there is, is whole.
      expect(await ended.locator('.over > span').evaluate((words) => words.scrollHeight - words.clientHeight)).toBeLessThanOrEqual(0);
      expect(await axeViolations(page)).toEqual([]);
      const { seed } = await kept(page);
      await presses[2]?.click();
      await page
        .locator('bf-task')
        .getByText(/Fill the tube to about/)
        .waitFor({ timeout: PATIENCE_MS });
      expect((await kept(page)).log).toEqual([]);
      expect((await kept(page)).seed).toBe(seed);
      await close();
    },
    LONG,
  );

  test(
    'meets a new visitor by eye on a column of its own, another for each; New column draws another one and forgets what was marked on the last',
    async () => {
      const [one, two] = [await session.openPage({ reducedMotion: 'reduce' }), await session.openPage({ reducedMotion: 'reduce' })];
      const seedOf = async (page: Page) => (await kept(page)).seed;
      for (const { page } of [one, two]) {
        await ready(page);
        await expect.poll(() => seedOf(page), { timeout: PATIENCE_MS }).toBeGreaterThanOrEqual(0);
        expect(await page.getByRole('combobox', { name: 'How the run is seen' }).inputValue()).toBe('eye');
        await page.getByRole('button', { name: 'Watch one run' }).waitFor();
        await page.getByRole('link', { name: 'Break one' }).waitFor();
      }
      const { page } = one;
      const first = await seedOf(page);
      expect(first).not.toBe(await seedOf(two.page));
      await two.close();
      const surface = await page.locator('bf-figure .surface').boundingBox();
      if (!surface) throw new Error('figure: expected on the page, received none');
      await page.mouse.click(surface.x + surface.width * 0.6, surface.y + surface.height * 0.5);
      const mark = page.getByText(/^you: \d\.\d\scm$/);
      await mark.waitFor();
      const said = await mark.textContent();
      await page.reload();
      await ready(page);
      expect(await mark.textContent()).toBe(said);
      expect(await seedOf(page)).toBe(first);
      await page.getByRole('button', { name: 'New column' }).click();
      await expect.poll(() => seedOf(page), { timeout: PATIENCE_MS }).not.toBe(first);
      await mark.waitFor({ state: 'hidden' });
      expect((await kept(page)).log).toEqual([]);
      await wholeProcedure(page);
      const run = await kept(page);
      const results = await expectSameAsHeadless(page);
      expect(results.receivers).not.toEqual(headless({ ...run, seed: first }).receivers);
      await one.close();
    },
    LONG,
  );

  test(
    'looks back by keys with all views together, does nothing meanwhile, and returns on Escape',
    async () => {
      const { page, close } = await session.openPage({ reducedMotion: 'reduce' });
      await ready(page);
      await page.keyboard.press('n');
      await expect.poll(async () => (await kept(page)).now_min, { timeout: PATIENCE_MS }).toBeGreaterThan(1);
      await still(page);
      const before = await kept(page);
      const delivered = await reading(page, 'delivered');
      await page.getByRole('slider', { name: 'Moment shown' }).focus();
      await page.keyboard.press('Home');
      await page.getByText('Looking back at').waitFor({ timeout: PATIENCE_MS });
      await expect.poll(() => reading(page, 'delivered')).not.toBe(delivered);
      await page.keyboard.press('p');
      await page.getByText('You are looking back.').waitFor();
      await page.keyboard.press('Escape');
      await page.getByText('Looking back at').waitFor({ state: 'hidden' });
      expect(await reading(page, 'delivered')).toBe(delivered);
      expect(await kept(page)).toEqual(before);
      await close();
    },
    LONG,
  );

  test.each([
    ['a laptop', { width: 1366, height: 768 }, false],
    ['a projector', { width: 1280, height: 720 }, false],
    ['a phone', { width: 390, height: 844 }, true],
  ] as const)(
    'has glass, figure, step in hand and strip in one view on %s, without scrolling',
    async (_, viewport, touch) => {
      const { page, close } = await session.openPage({ viewport, touch });
      await ready(page);
      for (const place of ['bf-glass', 'bf-figure', 'bf-task li.now', 'bf-strip']) {
        const box = await page.locator(place).boundingBox();
        if (!box) throw new Error(`${place}: expected in view, received none`);
        expect(box.y + box.height, place).toBeLessThanOrEqual(viewport.height);
        expect(box.x + box.width, place).toBeLessThanOrEqual(viewport.width);
      }
      expect(await page.evaluate<number>('document.documentElement.scrollHeight')).toBeLessThanOrEqual(viewport.height);
      await close();
    },
    LONG,
  );

  test.each([
    ['light', { width: 1280, height: 720 }],
    ['dark', { width: 1280, height: 720 }],
    ['light', { width: 390, height: 844 }],
    ['dark', { width: 390, height: 844 }],
  ] as const)(
    'has nothing for axe to find, %s, %o',
    async (colorScheme, viewport) => {
      const { page, close } = await session.openPage({ colorScheme, viewport, reducedMotion: 'reduce' });
      await ready(page);
      expect(await axeViolations(page)).toEqual([]);
      const dialog = await more(page);
      expect(await axeViolations(page)).toEqual([]);
      await dialog.getByRole('button', { name: 'Close' }).click();
      await wholeProcedure(page);
      expect(await axeViolations(page)).toEqual([]);
      await page.getByRole('button', { name: 'Debrief', exact: true }).click();
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      expect(await axeViolations(page)).toEqual([]);
      await close();
    },
    LONG,
  );
});

/** The tube above the liquid that stands on the bed at first, in whole tenths of mL. */
function startRoom(seed: number): number {
  const { values } = drawn({ ...scenario(), seed });
  const free_cm = values['column.tube_cm'] - values['bed.length_cm'] - values['bench.start_head_mm'] / 10;
  return Math.floor(sectionOf(values) * free_cm * 10) / 10;
}
