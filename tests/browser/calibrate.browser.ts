import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeViolations } from './axe.ts';
import { onePage } from './one-page.ts';
import type { PageOptions } from './session.ts';

// Fitting a lab to readings on the built page. The readings are those of the example; what the column had that they were worked
// out for is said beside it, so a fit has to find these numbers again.

const one = onePage();

const WAIT = { timeout: 30_000 };
const DESK = { width: 1280, height: 720 };
const PHONE = { width: 390, height: 844 };
const EXAMPLE = 'Fill in an invented example';

async function open(options: PageOptions = {}): Promise<Page> {
  const page = await one.open({ viewport: DESK, hash: '#lab?calibrate', ...options });
  await button(page, EXAMPLE).waitFor(WAIT);
  return page;
}

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const readings = (page: Page) => page.getByRole('textbox', { name: /^Readings/ });
const wrong = (page: Page) => page.getByRole('alert', { name: 'What is wrong with the table' });

async function fitExample(page: Page): Promise<void> {
  await button(page, EXAMPLE).click();
  await page.getByText('22 readings. They are invented').waitFor(WAIT);
  await button(page, 'Fit').click();
  await page.getByRole('heading', { name: 'Accept', exact: true }).waitFor(WAIT);
}

/** Cells of the row of a number: before, fitted, interval, interval of that before, correlation. */
async function numberRow(page: Page, name: string): Promise<string[]> {
  return page
    .getByRole('row', { name: new RegExp(`^${name} `) })
    .getByRole('cell')
    .allInnerTexts();
}

describe('a fit to the invented example', () => {
  test('finds the column again, is accepted with a day, and is on the bench with its status', async () => {
    const page = await open();
    await fitExample(page);
    const [before, , interval] = await numberRow(page, 'bead diameter');
    expect(before).toMatch(/^250/);
    const [low, high] = (interval.match(/[\d.]+/g) ?? []).map(Number);
    expect(low).toBeLessThan(217.3);
    expect(high).toBeGreaterThan(217.3);
    expect((await numberRow(page, 'dead volume below bed'))[1]).toMatch(/^0\.\d+\smL, left open$/);
    await page.getByText(/^The readings leave open: .*dead volume below bed/).waitFor(WAIT);
    for (const title of ['Flow', 'Length of the bed', 'Edges of the band', 'Coloured drops', 'cobalt\\(II\\) in fractions', 'NaOH to neutralise fractions']) {
      const drawn = page.getByRole('img', { name: new RegExp(`^${title}: \\d+ readings? with the model before and after`) });
      expect(await drawn.locator('.before').count()).toBeGreaterThan(0);
      expect(await drawn.locator('.after').count()).toBe(await drawn.locator('.before').count());
    }
    expect(
      await page
        .getByRole('img', { name: /^Residuals of 22 readings/ })
        .locator('circle')
        .count(),
    ).toBe(22);
    await page.getByLabel('day of the run').fill('2031-05-04');
    await button(page, 'Accept').click();
    await page.getByText(/^5 numbers of this lab now have the status “fitted to your run”, 2031-05-04/).waitFor(WAIT);
    const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save as a file').click()]);
    expect(download.suggestedFilename()).toMatch(/^lab-.*\.json$/);
    await page.locator('bf-fit-accept').getByRole('button', { name: 'Use on the bench' }).click();
    const note = page.locator('bf-fitted-note').first();
    await note.getByText('Numbers fitted to a measured run, 2031-05-04 (5)').click(WAIT);
    await note.getByText(/bead diameter 22\d/).waitFor(WAIT);
    await page.evaluate(`location.hash = '#lab'`);
    await page.getByText(/^Window for the receiver/).waitFor(WAIT);
    await page.locator('bf-lab details#resin > summary').click();
    await page.locator('bf-lab-resin summary').first().click();
    await button(page, 'About bead diameter').click();
    await page.getByText(/Fitted to your run, 2031-05-04: 95 % within/).waitFor(WAIT);
  });

  test('can be cancelled, and is not accepted for a lab that has changed since', async () => {
    const page = await open();
    await button(page, EXAMPLE).click();
    await button(page, 'Fit').click();
    await page.getByText(/^run \d+ of at most \d+/).waitFor(WAIT);
    await button(page, 'Cancel').click();
    await button(page, 'Fit').click();
    await page.getByRole('heading', { name: 'Accept', exact: true }).waitFor(WAIT);
    await page.getByRole('combobox', { name: 'Start from' }).selectOption('six-metals');
    await page.getByText('The lab has changed since this fit.').waitFor(WAIT);
    expect(await button(page, 'Accept').count()).toBe(0);
    await button(page, 'Undo').click();
    await button(page, 'Accept').waitFor(WAIT);
  });
});

describe('a table', () => {
  test('has its wrong column and its impossible value named, with the row, and is kept over a reload', async () => {
    const page = await open();
    await readings(page).fill('delivered_mL,leading_mm\n32,19');
    await expect
      .poll(() => wrong(page).innerText(), WAIT)
      .toMatch(/heading, column 2: expected a column with its unit, nearest known: leading_cm; received "leading_mm"/);
    expect(await button(page, 'Fit').isDisabled()).toBe(true);
    await readings(page).fill('delivered_mL,leading_cm\n32,1.9\n\n38,280');
    await expect.poll(() => wrong(page).innerText(), WAIT).toBe('row 4, leading_cm: expected number 0 to 20 cm; received "280"');
    await page.reload();
    await expect.poll(() => readings(page).inputValue(), WAIT).toMatch(/38,280$/);
    await page.getByText('What the columns mean').click();
    await page.getByRole('row', { name: /leading_cm lower edge of the coloured band/ }).waitFor(WAIT);
  });
});

/** Columns of a flow test as README.md names them first. */
const MANUAL_ORDER = [...new Set(readFileSync('README.md', 'utf8').match(/flow_test_\w+/g))];

describe('a flow test before the run', () => {
  test('has a place in the table, is fitted and drawn, and what it determines is said; doubtful readings and a doubtful bead are named', async () => {
    const page = await open();
    await page.getByText('What the columns mean').click();
    await page.getByText(/^Drops are counted to get the flow: .*drops per minute times this is flow_mL_per_min/).waitFor(WAIT);
    await page.getByRole('row', { name: /flow_test_head_mm liquid above the bed when that test began/ }).waitFor(WAIT);
    // Table and example have the columns in the order in which the manual names them.
    const names = await page.locator('bf-readings tbody th').allInnerTexts();
    expect(names.filter((name) => name.startsWith('flow_test'))).toEqual(MANUAL_ORDER);
    const example = await page.locator('bf-readings pre').innerText();
    expect(example.split('\n')[0]).toBe(MANUAL_ORDER.filter((name) => name !== 'flow_test_end_mm').join());
    await readings(page).fill(example);
    await page.getByText(/^1 reading\./).waitFor(WAIT);
    expect(await wrong(page).count()).toBe(0);
    await readings(page).fill('flow_test_mL,flow_test_min,flow_test_head_mm,delivered_mL,leading_cm\n2,3.9,60,,\n,,,20,1.9');
    await page
      .getByText(/^Row 3, leading_cm: a reading of the band at 20\.0\smL, but this lab’s procedure pours the sample only after about 26 mL/)
      .waitFor(WAIT);
    await page.getByText('One reading of the band comes before the sample was poured').waitFor(WAIT);
    expect(await button(page, 'Fit').isDisabled()).toBe(true);
    await readings(page).fill('flow_test_mL,flow_test_min,flow_test_head_mm\n2,3.9,60');
    await button(page, 'Fit').click();
    await page.getByText(/^One reading was taken before the sample was poured, .* determine bead diameter/).waitFor(WAIT);
    await page
      .getByText(
        /^The fitted bead diameter, 1[0-7]\d µm, lies outside the wet sieve range of the grade that is set, 50-100 mesh, 8 % cross-linked: 180 to 425 µm/,
      )
      .waitFor(WAIT);
    await page.getByRole('img', { name: /^Flow test before the run: 1 reading with the model/ }).waitFor(WAIT);
    expect(await axeViolations(page)).toEqual([]);
  });
});

describe('the part', () => {
  test.each<[string, PageOptions]>([
    ['light', {}],
    ['dark', { colorScheme: 'dark' }],
    ['on a telephone', { viewport: PHONE, touch: true }],
  ])('has no finding of axe and does not scroll sideways, %s, with everything open', async (_, options) => {
    const page = await open(options);
    await fitExample(page);
    await page.getByText('What the columns mean').click();
    await page.getByText('Every reading', { exact: true }).click();
    await page
      .getByRole('row', { name: /^38 .*|leading_cm/ })
      .first()
      .waitFor(WAIT);
    expect(await axeViolations(page)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(options.viewport?.width ?? DESK.width);
  });
});
