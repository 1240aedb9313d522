import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { axeViolations } from './axe.ts';
import { PATIENCE_MS } from './bench-rig.ts';
import { launch, type OpenedPage, PHONE, type Session } from './session.ts';

// A run that was worked up, noted and kept is not lost by whatever is opened next.

const LONG_MS = 400_000;
const NOTE = 'mass of the beaker';

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });

async function go(page: Page, view: string): Promise<void> {
  await page.evaluate(`location.hash = '#${view}'`);
  await page.locator(`bf-${view}`).waitFor();
}

/** A page on which a whole run was titrated, its result kept, and a note written. */
async function worked(options = {}): Promise<OpenedPage> {
  const opened = await session.openPage({ hash: '#workup', ...options });
  const { page } = opened;
  page.setDefaultTimeout(PATIENCE_MS);
  await button(page, /written procedure run to its end/).click();
  await button(page, 'Do all remaining steps').click();
  await button(page, 'Keep the result of this aliquot').click();
  await go(page, 'notebook');
  await page.getByRole('textbox', { name: 'what', exact: true }).fill(NOTE);
  await button(page, 'Write down').click();
  return opened;
}

async function list(page: Page): Promise<Locator> {
  await button(page, 'Menu').click();
  await button(page, /^Kept runs/).click();
  await page.getByRole('dialog', { name: 'Kept runs' }).waitFor();
  return page.locator('bf-kept-runs');
}

/** The card of the default column of the first scenario. */
const card = (dialog: Locator) =>
  dialog
    .getByRole('listitem')
    .filter({ hasText: /cathode leach.*column\s\d+[.;]/s })
    .filter({ hasText: '% recovered' });

async function expectBack(page: Page): Promise<void> {
  const dialog = await list(page);
  await card(dialog).last().getByRole('button', { name: /^Open/ }).click();
  await page.getByRole('dialog', { name: 'Kept runs' }).waitFor({ state: 'hidden' });
  await go(page, 'notebook');
  await page.getByText('One aliquot is kept').waitFor();
  await page.getByText(NOTE).first().waitFor();
  await page.getByRole('cell', { name: 'receiver “cobalt” holds' }).waitFor();
}

const LINK = `(async () => { const menu = document.querySelector('bf-run-menu'); const link = await menu.session.link(); return link.value; })()`;

test(
  'another scenario, a link, another aliquot and a sequence that was found leave run, kept result and notebook in the list',
  async () => {
    const { page, close } = await worked();

    await page.locator('bf-scenario-choice select').selectOption('demo-channel');
    await page.getByText('the run before it is put aside').waitFor();
    const link = await page.evaluate<string>(LINK);
    // Where nothing has been run, flask and notebook lead to the kept runs.
    for (const view of ['workup', 'notebook']) {
      await go(page, view);
      await page.locator(`bf-${view}`).getByRole('button', { name: 'Open a kept run' }).click();
      await page.getByRole('dialog', { name: 'Kept runs' }).waitFor();
      await page.keyboard.press('Escape');
    }
    await expectBack(page);

    await page.evaluate(`location.hash = '#bench?run=${link}'`);
    await page.getByText('The run of the link is open').waitFor();
    await expectBack(page);

    await go(page, 'workup');
    await button(page, 'Next aliquot, by hand').click();
    await page.locator('bf-bench').waitFor();
    await expectBack(page);

    await go(page, 'why');
    await button(page, 'Find a sequence').click();
    await button(page, 'Play it on the bench').click();
    await page.locator('bf-bench').waitFor();
    await expectBack(page);

    await go(page, 'faults');
    await page.locator('bf-faults bf-segmented.parts label').filter({ hasText: 'Demonstrations' }).click();
    await page.locator('bf-demonstrations li.card').filter({ hasText: 'far too much cobalt' }).getByRole('button', { name: 'Show with its twin' }).click();
    await page.getByRole('heading', { name: /Healthy twin/ }).waitFor();
    await expectBack(page);

    await page.reload();
    await page.locator('bf-notebook').waitFor();
    const dialog = await list(page);
    await expect.poll(() => card(dialog).count(), { timeout: PATIENCE_MS }).toBe(1);
    await close();
  },
  LONG_MS,
);

describe.each([
  { name: 'a laptop', options: { viewport: { width: 1280, height: 720 } } },
  { name: 'a telephone, dark', options: { viewport: PHONE, touch: true, colorScheme: 'dark' as const } },
])('the list on $name', ({ options }) => {
  test(
    'shows each run as a picture; runs are named, compared, opened and deleted',
    async () => {
      const { page, close } = await worked(options);
      const dialog = await list(page);
      await dialog.getByRole('button', { name: 'Keep', exact: true }).click();
      await dialog.getByRole('heading', { name: /^column\s\d+, \d+\.\d\smL$/ }).waitFor();
      await dialog.getByLabel('Keep the run on the page as').fill('my best try');
      await dialog.getByRole('button', { name: 'Keep', exact: true }).click();
      const kept = dialog.getByRole('listitem').filter({ hasText: 'my best try' });
      await kept.getByText(/this is the run on the page.*% recovered/).waitFor();
      expect(await kept.locator('svg path.band').count()).toBe(2);
      expect(await kept.locator('svg path.leaving').count()).toBe(2);
      expect(await kept.getByRole('button', { name: /^Open/ }).isDisabled()).toBe(true);

      await kept.getByRole('button', { name: /^Rename/ }).click();
      await dialog.getByLabel('name', { exact: true }).fill('the first aliquot');
      await dialog.getByRole('button', { name: 'Save this name' }).click();
      await dialog.getByRole('heading', { name: 'the first aliquot' }).waitFor();
      expect(await axeViolations(page)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(options.viewport.width);
      await page.keyboard.press('Escape');

      // A telephone has the scenarios in the menu.
      if (options.viewport === PHONE) await page.getByRole('button', { name: 'Menu', exact: true }).click();
      await page.locator('bf-scenario-choice select').selectOption('demo-channel');
      await page.getByText('the run before it is put aside').waitFor();
      await list(page);
      await dialog.getByRole('button', { name: /^Compare the first aliquot/ }).click();
      const rows = dialog.getByRole('table', { name: 'Side by side' }).getByRole('row');
      await expect.poll(async () => (await rows.nth(1).getByRole('cell').allInnerTexts()).join(' '), { timeout: PATIENCE_MS }).toMatch(/^9\d\.\d\s% not over$/);
      expect(await axeViolations(page)).toEqual([]);

      await dialog.getByRole('button', { name: /^Delete the first aliquot/ }).click();
      await dialog.getByRole('button', { name: 'No', exact: true }).click();
      await dialog.getByRole('button', { name: /^Delete the first aliquot/ }).click();
      await dialog.getByRole('button', { name: 'Delete it' }).click();
      await dialog.getByText('No run is kept yet').waitFor();
      await close();
    },
    LONG_MS,
  );
});
