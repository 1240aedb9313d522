import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { SectionId } from '../../src/lab/sections/contents.ts';
import { axeViolations } from './axe.ts';
import { launch, type OpenedPage, type PageOptions, PHONE, type Session } from './session.ts';

// Setting up a lab on the built page, as an instructor would: by the names of the controls and what the page says.

let session: Session;
let opened: OpenedPage | undefined;

beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());
afterEach(async () => {
  const page = opened;
  opened = undefined;
  await page?.close();
});

const WAIT = { timeout: 30_000 };
const DESK = { width: 1280, height: 720 };

async function open(options: PageOptions = {}): Promise<Page> {
  opened = await session.openPage({ viewport: DESK, hash: '#lab', ...options });
  await opened.page.getByText(/^Window for the receiver/).waitFor(WAIT);
  return opened.page;
}

const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

async function put(page: Page, name: string, value: string): Promise<void> {
  await field(page, name).fill(value);
  await field(page, name).press('Enter');
}

async function unfold(page: Page, section: SectionId): Promise<void> {
  await page.locator(`bf-lab details#${section} > summary`).click();
}

/** Opens every fold, those inside others after them. */
async function unfoldAll(page: Page): Promise<void> {
  const closed = page.locator('bf-lab .editor details:not([open]) > summary');
  while ((await closed.count()) > 0) await closed.first().click();
}

describe('the view', () => {
  test('has no finding of axe, light, dark and on a telephone, with every section open', async () => {
    for (const options of [{}, { colorScheme: 'dark' as const }, { viewport: PHONE, touch: true }]) {
      const page = await open(options);
      await unfoldAll(page);
      expect(await axeViolations(page)).toEqual([]);
      await opened?.close();
      opened = undefined;
    }
  });

  test.each([DESK, { width: 1366, height: 768 }])('shows editor and pictures side by side and whole at $width x $height', async (viewport) => {
    const page = await open({ viewport });
    const [editor, figure, words] = await Promise.all(
      ['bf-lab .editor', 'bf-lab bf-figure', 'bf-lab-pictures .told'].map((place) => page.locator(place).boundingBox()),
    );
    if (!editor || !figure || !words) throw new Error('expected editor, figure and words on the page');
    expect(figure.x).toBeGreaterThanOrEqual(editor.x + editor.width);
    expect(words.y + words.height).toBeLessThanOrEqual(viewport.height);
    expect(figure.x + figure.width).toBeLessThanOrEqual(viewport.width);
  });

  test.each([PHONE, { width: 390, height: 844 }])('does not scroll sideways at $width x $height', async (viewport) => {
    const page = await open({ viewport, touch: true });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(viewport.width);
  });
});

describe('a lab', () => {
  test('redraws as its column changes, and says at the control what is impossible and why', async () => {
    const page = await open();
    const before = await page.locator('bf-lab-pictures .told').innerText();
    await put(page, 'bed length', '10');
    await expect.poll(() => page.locator('bf-lab-pictures .told').innerText(), WAIT).not.toBe(before);
    await put(page, 'bed length', '25');
    const told = page.locator('bf-lab-field[data-path="bed.length_cm"] [role=alert]');
    await expect.poll(() => told.innerText(), WAIT).toMatch(/below column\.tube_cm \(20 cm\).*received 25 cm/);
    await page.getByText('One thing does not fit').waitFor(WAIT);
    await unfold(page, 'column');
    await page.locator('bf-lab .misfits').getByRole('button', { name: 'bed length' }).click();
    await expect.poll(() => page.evaluate(FOCUSED), WAIT).toBe('bed length');
    await put(page, 'tube above support', '40');
    await page.getByText('Everything fits together.').waitFor(WAIT);
  });

  test('is undone and done again by keys, and outlives a reload', async () => {
    const page = await open();
    await put(page, 'bore', '1.2');
    await put(page, 'bed length', '9');
    await page.keyboard.press('Control+z');
    await expect.poll(() => field(page, 'bed length').inputValue()).toBe('7');
    await page.keyboard.press('Control+y');
    await expect.poll(() => field(page, 'bed length').inputValue()).toBe('9');
    await page.reload();
    await page.getByText(/^Window for the receiver/).waitFor(WAIT);
    expect(await field(page, 'bore').inputValue()).toBe('1.2');
    await button(page, 'Undo').click();
    await expect.poll(() => field(page, 'bed length').inputValue()).toBe('7');
  });

  test('goes to the bench as a fresh run, and the run there waits', async () => {
    const page = await open();
    await page.evaluate(`location.hash = '#bench'`);
    await page.locator('bf-task li.now').first().waitFor(WAIT);
    await button(page, 'More').click();
    await button(page, 'Play the procedure').click();
    await button(page, 'jump there').click();
    await page.getByText('The run is over').waitFor(WAIT);
    await page.evaluate(`location.hash = '#lab'`);
    await page.getByText(/On the bench now: .* 42 actions/).waitFor(WAIT);
    await put(page, 'bed length', '8');
    await button(page, 'Use on the bench').click();
    await page.locator('bf-task li.now').first().waitFor(WAIT);
    await button(page, 'Back to that run').click();
    await page.getByText('The run is over').waitFor(WAIT);
  });
});

/** Label of the field that has the focus. */
const FOCUSED = `(() => {
  let at = document.activeElement;
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
  return at?.labels?.[0]?.textContent.trim();
})()`;
