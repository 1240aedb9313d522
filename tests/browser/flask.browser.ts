import { differenceCiede2000 } from 'culori';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { allText } from './all-text.ts';
import { axeViolations } from './axe.ts';
import { more, PATIENCE_MS, ready, wholeProcedure } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// The flask while it is titrated: in sight of what adds to it, in a colour that is seen to change, of the receiver as it is now.

const LONG_MS = 300_000;
/** CIEDE2000 between two colours that nobody takes for one; a just noticeable difference is about 1 (common practice, no source). */
const SEEN_APART = 20;

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });

/** All done but the titration: blue, with the burette above. */
async function blue(page: Page): Promise<void> {
  page.setDefaultTimeout(PATIENCE_MS);
  await button(page, /written procedure run to its end/).click();
  for (let i = 0; i < 8; i++) await button(page, 'Do the next usual step').click();
  await page.getByText('eluate: clear, blue').waitFor();
}

/** Colour of the liquid in the middle of the vessel, as it is drawn. */
async function drawn(page: Page): Promise<string> {
  const stops = await page.locator('bf-flask #liquid stop').evaluateAll((all) => all.map((stop) => stop.getAttribute('stop-color') ?? ''));
  return stops[Math.floor(stops.length / 2)] ?? '';
}

/** Whether a press on the middle of this would reach it. */
function onTop(part: Locator): Promise<boolean> {
  return part.evaluate((element) => {
    const { x, y, width, height } = element.getBoundingClientRect();
    const root = element.getRootNode() as ShadowRoot;
    return root.elementFromPoint(x + width / 2, y + height / 2) === element;
  });
}

async function inSight(page: Page, part: Locator, name: string): Promise<void> {
  const box = await part.boundingBox();
  const size = page.viewportSize();
  expect(box?.y, `${name}: top`).toBeGreaterThanOrEqual(0);
  expect((box?.y ?? 0) + (box?.height ?? 9999), `${name}: bottom`).toBeLessThanOrEqual(size?.height ?? 0);
  expect((box?.x ?? 0) + (box?.width ?? 9999), `${name}: right`).toBeLessThanOrEqual(size?.width ?? 0);
}

describe.each([
  { width: 1366, height: 768 },
  { width: 1280, height: 720 },
  { width: 390, height: 844 },
])('at $width x $height', (viewport) => {
  test(
    'flask, burette and colour are in sight together with the tap that adds a drop',
    async () => {
      const { page, close } = await session.openPage({ hash: '#workup', viewport, touch: viewport.width < 500 });
      await blue(page);
      // Filled to just below its zero line, and read before anything runs from it.
      expect(await page.locator('bf-flask dd').last().innerText()).toMatch(/^0\.[01]\d\smL$/);
      const drop = button(page, '1 drop');
      await drop.scrollIntoViewIfNeeded();
      await drop.click();
      await page
        .locator('bf-flask')
        .getByText(/burette reads/)
        .waitFor();
      if (viewport.width < 500) await page.mouse.wheel(0, 150);
      await inSight(page, drop, 'tap');
      if (viewport.width < 500) expect(await onTop(page.getByRole('link', { name: 'Notebook', exact: true }).first()), 'the views are not covered').toBe(true);
      await inSight(page, button(page, 'Add'), 'Add');
      await inSight(page, page.locator('bf-flask svg'), 'flask');
      await inSight(page, page.locator('bf-flask .burette'), 'burette');
      await inSight(page, page.locator('bf-flask .liquid'), 'liquid');
      await inSight(page, page.locator('bf-flask figcaption'), 'colour in words');
      expect(await axeViolations(page)).toEqual([]);
      await close();
    },
    LONG_MS,
  );
});

describe.each(['light', 'dark'] as const)('in the %s theme', (colorScheme) => {
  test(
    'the turn from blue to pink is a change of colour that is seen',
    async () => {
      const { page, close } = await session.openPage({ hash: '#workup', colorScheme });
      await blue(page);
      const start = await drawn(page);
      await button(page, 'Do the next usual step').click();
      await page.getByText('eluate: clear, pale pink').waitFor();
      const end = await drawn(page);
      const reading = await page.locator('bf-flask dd').last().innerText();
      const apart = differenceCiede2000();
      expect(apart(start, end)).toBeGreaterThan(SEEN_APART);

      // A millilitre before the end the flask is still another colour; the last is run in drop by drop.
      await button(page, 'Undo').click();
      for (let i = 0; i < 3; i++) await button(page, '5 mL').click();
      const left = Math.floor(Number.parseFloat(reading) - 15 - 1);
      for (let i = 0; i < left; i++) await button(page, '1 mL').click();
      await page
        .getByText(/eluate: clear, .*blue/)
        .first()
        .waitFor();
      expect(apart(await drawn(page), end)).toBeGreaterThan(SEEN_APART);
      let drops = 0;
      for (; drops < 60 && !(await page.locator('bf-flask figcaption').innerText()).includes('pink'); drops++) await button(page, '1 drop').click();
      expect(drops).toBeGreaterThan(5);
      expect(apart(await drawn(page), end)).toBeLessThan(5);
      expect(await page.locator('bf-flask .card').evaluate((card) => getComputedStyle(card).fill)).toBe('rgb(255, 255, 255)');
      await close();
    },
    LONG_MS,
  );
});

test(
  'the work-up holds the receiver as it is, not as it was when it was taken',
  async () => {
    const { page, close } = await session.openPage({ hash: '#faults' });
    page.setDefaultTimeout(PATIENCE_MS);
    await button(page, 'Play the procedure').click();
    await button(page, 'Pause').click();
    const clock = page.locator('bf-fault-clock');
    const deliver = async (least: number, most: number): Promise<number> => {
      const read = async () => Number(/([\d.]+)\s?mL delivered/.exec(await clock.locator('output').innerText())?.[1]);
      const end = Number(await clock.getByRole('slider', { name: 'time' }).getAttribute('max'));
      let [from, to] = [0, end];
      for (let i = 0; i < 24; i++) {
        const at = (from + to) / 2;
        await clock.getByRole('slider', { name: 'time' }).evaluate((slider, value) => {
          (slider as HTMLInputElement).value = String(value);
          slider.dispatchEvent(new Event('input', { bubbles: true }));
        }, at);
        await page.waitForTimeout(150);
        const mL = await read();
        if (mL >= least && mL <= most) return mL;
        if (mL < least) from = at;
        else to = at;
      }
      throw new Error(`slider: expected ${least} to ${most} mL delivered, received ${await read()}`);
    };
    const workUp = async () => {
      await page.evaluate(`location.hash = '#workup'`);
      await page.locator('bf-receiver-taken select').waitFor();
    };
    const early = await deliver(0.7, 0.9);
    await workUp();
    await page.locator('bf-receiver-taken select').selectOption('nickel');
    const volume = page.locator('bf-flask dl > dd').nth(2);
    await expect.poll(async () => Number.parseFloat(await volume.innerText())).toBeCloseTo(early, 1);

    await page.evaluate(`location.hash = '#faults'`);
    const later = await deliver(17.8, 18.2);
    await workUp();
    await expect.poll(async () => Number.parseFloat(await volume.innerText())).toBeCloseTo(later, 1);
    expect(await page.locator('bf-receiver-taken select option:checked').innerText()).toMatch(new RegExp(`nickel, ${later.toFixed(1)}`));
    await close();
  },
  LONG_MS,
);

test(
  'flask, notebook and debrief stay with the run as it ended while the bench looks back',
  async () => {
    const { page, close } = await session.openPage({ column: 1, reducedMotion: 'reduce' });
    page.setDefaultTimeout(PATIENCE_MS);
    await ready(page);
    await wholeProcedure(page);
    const choices = () => page.locator('bf-receiver-taken option').allInnerTexts();
    const see = (view: string) => page.evaluate(`location.hash = '#${view}'`);
    await see('workup');
    await page.locator('bf-receiver-taken select').selectOption('cobalt');
    const ended = await choices();
    expect(ended.map((choice) => choice.split(',')[0])).toEqual(expect.arrayContaining(['nickel', 'cobalt']));
    const atEnd = await page.locator('bf-flask').innerText();

    await see('bench');
    await page.getByRole('slider', { name: 'Moment shown' }).focus();
    await page.keyboard.press('Home');
    await page.getByText('Looking back at').waitFor();
    await see('workup');
    await page.locator('bf-receiver-taken select').waitFor();
    expect(await choices()).toEqual(ended);
    expect(await page.locator('bf-flask').innerText()).toBe(atEnd);

    await see('notebook');
    await page.getByText(/the first hundredth of each ion left the column: Co²⁺ after \d+\.\d\s?mL, Ni²⁺ after/).waitFor();
    await page.getByText('receiver “cobalt” holds').waitFor();

    await see('bench');
    await page.getByText('Looking back at').waitFor();
    await page.keyboard.press('d');
    await page.getByText('The run is over. What if?').waitFor();
    await page.getByRole('button', { name: 'Back to the bench' }).click();
    await page.getByText('The run is over').waitFor();
    expect(await page.getByText('Looking back at').count()).toBe(0);
    await close();
  },
  LONG_MS,
);

test(
  'no amount of cobalt, no true end point and no volume of alkali is told before the reader has found it',
  async () => {
    const { page, close } = await session.openPage({ column: 1, reducedMotion: 'reduce' });
    page.setDefaultTimeout(PATIENCE_MS);
    const given = [
      /\d\s*mmol (of )?(the )?co(balt|²⁺)/,
      /cobalt\(ii\) lost, mmol/,
      /as much edta as cobalt at/,
      /\d\s*ml (of )?naoh/,
      /naoh for it/,
      /\bco²?⁺?, mmol/,
    ];
    const told = async (): Promise<string[]> => {
      const text = await allText(page);
      return given.flatMap((pattern) => pattern.exec(text) ?? []);
    };
    const see = (view: string) => page.evaluate(`location.hash = '#${view}'`);
    await ready(page);
    await wholeProcedure(page);
    expect(await told(), 'bench').toEqual([]);
    await more(page);
    await page.locator('bf-now').getByRole('button', { name: 'Show the amounts' }).waitFor();
    expect(await told(), 'more').toEqual([]);
    await button(page, 'Debrief so far').click();
    await button(page, 'Work out the causes').click();
    await page.getByText(/^Of the cobalt\(II\), \d+\.\d+\s%.* did not reach “cobalt”/).waitFor();
    expect(await told(), 'debrief').toEqual([]);

    await see('workup');
    await page.locator('bf-receiver-taken select').selectOption('cobalt');
    await button(page, 'Do all remaining steps').click();
    await page.getByText('is drawn once you have a molarity of your own').waitFor();
    expect(await told(), 'flask').toEqual([]);
    expect(await page.locator('bf-titration .meant').count()).toBe(0);

    await see('notebook');
    await page.getByLabel('cobalt in the unknown, mol/L', { exact: true }).fill('0.2');
    await page.keyboard.press('Tab');
    await see('workup');
    await page.getByText(/there was as much EDTA as cobalt at \d+\.\d\d\s/).waitFor();
    await page.locator('bf-titration .meant').waitFor({ state: 'attached' });
    await page.getByRole('table', { name: 'Results of both' }).waitFor();
    await see('bench');
    await button(page, 'Debrief').click();
    await page.getByRole('table', { name: 'Where everything is' }).waitFor();
    await close();
  },
  LONG_MS,
);

test(
  'an estimate of alkali stays what it was asked for: made for the eluate, it is not held against a portion; the page offers the receivers first',
  async () => {
    const { page, close } = await session.openPage({ column: 1, reducedMotion: 'reduce' });
    page.setDefaultTimeout(PATIENCE_MS);
    await ready(page);
    await wholeProcedure(page);
    await page.getByRole('link', { name: 'Flask', exact: true }).click();
    await button(page, /^Work up “cobalt”, \d/).click();
    await page.getByLabel(/NaOH for this eluate\?/).fill('4.2');
    await page.keyboard.press('Enter');
    const said = page.getByText(/^You expect 4\.20/);
    const before = await said.innerText();
    await button(page, 'Pour all into a flask and rinse the receiver').click();
    await button(page, 'Make up to the mark').click();
    await button(page, 'Take a portion').click();
    await page.locator('bf-flask figcaption').getByText('portion 1').waitFor();
    expect(await said.innerText()).toBe(before);
    expect(await page.getByLabel(/NaOH for this eluate\?/).inputValue()).toBe('4.2');
    await close();
  },
  LONG_MS,
);
