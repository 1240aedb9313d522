import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { allText } from './all-text.ts';
import { axeViolations } from './axe.ts';
import { PATIENCE_MS, ready } from './bench-rig.ts';
import { DESKTOP, launch, PHONE, type OpenedPage, type Session } from './session.ts';

// An instructor hands out the open scenario, a student tries it and hands in, the instructor takes it in.

const TIME_MS = 300_000;
const NAME = 'code 5 <i>x</i>';
const QUESTION = 'What would you do otherwise next time?';

let session: Session;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bandfall-'));
  session = await launch({ webgl: false });
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await session?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
/** Looks again and again, as long as a busy machine may take. */
const soon = <T>(look: () => Promise<T>) => expect.poll(look, { timeout: PATIENCE_MS });
const seeing = (page: Page) => page.getByRole('combobox', { name: 'How the run is seen' });

async function open(hash: string, viewport = DESKTOP, touch = false): Promise<OpenedPage> {
  const opened = await session.openPage({ hash, viewport, touch });
  opened.page.setDefaultTimeout(PATIENCE_MS);
  return opened;
}

/** Two tries by eye on fresh columns, a question of each kind; gives the link. */
async function handOut(page: Page): Promise<string> {
  await page.getByLabel('tries').fill('2');
  await page.getByLabel('tries').press('Enter');
  await page.getByRole('checkbox', { name: /Which leaves the column first/ }).check();
  await page.getByLabel('question', { exact: true }).fill(QUESTION);
  await button(page, 'Add').click();
  await soon(() => page.getByRole('article', { name: 'Page for students' }).innerText()).toContain(QUESTION);
  await soon(() => page.getByRole('article', { name: 'Page for students' }).innerText()).toContain('2 tries');
  return page.getByLabel(/^Link, \d+ characters/).inputValue();
}

async function savedBy(page: Page, press: string): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), button(page, press).click()]);
  const file = join(folder, download.suggestedFilename());
  writeFileSync(file, readFileSync(await download.path()));
  return file;
}

describe('what is handed out', () => {
  test(
    'is a short link, a file and a page to print, without a finding of axe at any size',
    async () => {
      const { page, close } = await open('#class/hand-out');
      const part = page.locator('bf-hand-out');
      for (const from of [/in this lab columns differ/, /The usual choice: this lab sets no limit/, /The usual number/, /The lab leaves the coach/])
        await part.getByText(from).waitFor();
      await part.getByText('one column for all').click();
      await part.getByText('Chosen here; in this lab columns differ.').waitFor();
      await soon(() => part.getByRole('article').innerText()).toContain('Everybody has the same column');
      await part.getByText('a fresh column each try').click();
      const link = await handOut(page);
      expect(link).toMatch(/#bench\?task=1\./);
      expect(link.length).toBeLessThan(2000);
      const sheet = page.getByRole('article', { name: 'Page for students' });
      expect(await sheet.getByRole('img', { name: 'QR code of the link' }).count()).toBe(1);
      expect(await sheet.innerText()).toMatch(/Strong hydrochloric acid burns/);
      expect(await sheet.innerText()).toMatch(/Collect 99\.5\s% or more of the cobalt, with at most 0\.5\s% of the nickel/);
      expect(await sheet.innerText()).toMatch(/Groups of 3, 180\smin in the laboratory, 3 aliquots of the sample on 1 column/);
      const poured = await sheet.getByRole('row').allInnerTexts();
      expect(poured.map((row) => row.split('\t')[2].replaceAll(/\s/g, ' '))).toEqual([
        'volume',
        '25 mL',
        '1 mL',
        '26 mL, the first 0.5 mL, 0.5 mL, 1 mL by themselves',
        '30 mL',
      ]);
      expect(await axeViolations(page)).toEqual([]);
      await page.setViewportSize(PHONE);
      expect(await axeViolations(page)).toEqual([]);
      const wider = `(() => { const { right } = document.querySelector('bf-app').shadowRoot.querySelector('bf-class').getBoundingClientRect(); return right - innerWidth; })()`;
      expect(await page.evaluate<number>(wider)).toBeLessThanOrEqual(0);
      await page.emulateMedia({ media: 'print' });
      expect([await sheet.isVisible(), await page.getByLabel('tries').isVisible(), await page.getByRole('navigation', { name: 'Class' }).isVisible()]).toEqual([
        true,
        false,
        false,
      ]);
      await close();
    },
    TIME_MS,
  );

  test.each([
    ['on a desk', DESKTOP, false],
    ['on a phone', PHONE, true],
  ] as const)(
    'binds the student who opens it until the try ends, counts tries, asks, and is handed in: %s',
    async (_, viewport, touch) => {
      const instructor = await open('#class/hand-out');
      const link = await handOut(instructor.page);
      const handOutFile = await savedBy(instructor.page, 'Save as a file');

      const { page, close } = await open('', viewport, touch);
      await ready(page);
      await page.goto(link);
      await page.getByText('Handed out: try 1 of 2').waitFor();
      // More than by eye cannot be chosen, and nothing that was done can be taken back.
      expect(
        await seeing(page)
          .locator('option')
          .evaluateAll((all) => all.map((one) => (one as unknown as { disabled: boolean }).disabled)),
      ).toEqual([false, true, true]);
      await button(page, /^Open, pour/)
        .first()
        .click();
      await soon(() => page.evaluate<string>(`localStorage.getItem('bandfall.tries')`)).toMatch(/^\{"[0-9a-f]{8}":1\}$/);
      await page.keyboard.press('b');
      await page.keyboard.press('Control+z');
      await page
        .getByText(/This try counts/)
        .first()
        .waitFor();

      // Drawn in full, the lab would tell when to change the receiver.
      await page.evaluate(`location.hash = '#lab'`);
      await page.getByText(/It was handed out and opens here when its tries are over/).waitFor();
      expect(await told(page)).not.toContain('Window for the receiver');
      await page.evaluate(`location.hash = '#class/ahead'`);
      await page.locator('bf-class-forecast p', { hasText: 'when its tries are over' }).waitFor();
      expect(await button(page, 'Compute').count()).toBe(0);
      await page.evaluate(`location.hash = '#bench'`);

      await page.getByText('Handed out: try 1 of 2').click();
      await button(page, 'End this try').click();
      expect(await page.getByText('What was done up to the end is handed in, whatever is tried now.').isVisible()).toBe(true);
      await soon(() => seeing(page).locator('optgroup').getAttribute('label')).toBe('all is open now');
      expect(await seeing(page).inputValue()).toBe('eye');
      expect(await axeViolations(page)).toEqual([]);
      await button(page, 'Answer and hand in').click();
      await page.getByRole('radio', { name: 'nickel(II)', exact: true }).check();
      await page.getByRole('radio', { name: /becomes an anion in this acid/ }).check();
      await page.getByLabel(QUESTION).fill('\u202etext that turns');
      await page.getByLabel(QUESTION).blur();
      await page.getByText(/This was not kept/).waitFor();
      await page.getByLabel(QUESTION).fill('<b>watch</b> the band');
      await page.getByLabel('Name or code').fill(NAME);
      expect(await axeViolations(page)).toEqual([]);
      const runFile = await savedBy(page, 'Save as a file');
      await page.getByRole('dialog', { name: 'Hand in' }).getByRole('button', { name: 'Close' }).click();

      // The same link goes on with the try; another one is another column; a third there is not.
      await button(page, 'Next try, 1 left').click();
      await page.getByText('Handed out: try 2 of 2').waitFor();
      await button(page, /^Open, pour/)
        .first()
        .click();
      await soon(() => page.evaluate<string>(`localStorage.getItem('bandfall.tries')`)).toMatch(/":2\}$/);
      await page.goto(`${link}`);
      await page.getByText('Handed out: try 2 of 2').waitFor();
      expect(await button(page, /^Next try/).count()).toBe(0);

      await instructor.page.getByRole('link', { name: 'Take in' }).click();
      await instructor.page.locator('input.files').setInputFiles([handOutFile, runFile]);
      await instructor.page.locator('bf-take-in strong', { hasText: '1 of 1' }).waitFor();
      await instructor.page.getByText(/Compared with what was handed out/).waitFor();
      const row = await instructor.page.getByRole('table', { name: 'Runs', exact: true }).getByRole('row').nth(1).innerText();
      expect(row).toContain(NAME);
      expect(row).toContain('1 of 2');
      expect(row).toContain('agrees');
      const answers = await instructor.page.getByRole('table', { name: 'Answers' }).getByRole('row').nth(1).innerText();
      expect(answers.split('\t').slice(1)).toEqual(['1', '0', '0']);
      expect(await instructor.page.locator('bf-take-in dd').innerText()).toBe('<b>watch</b> the band');
      expect(await instructor.page.locator('bf-take-in dd b, bf-take-in i').count()).toBe(0);
      await close();
      await instructor.close();
    },
    TIME_MS,
  );

  test(
    'says which run was made without it, without calling it one that does not agree, and one that was handed in as a link is taken in',
    async () => {
      const { page, close } = await open('');
      await ready(page);
      await button(page, /^Open, pour/)
        .first()
        .click();
      await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
      await button(page, 'Menu').click();
      await button(page, 'Hand in').click();
      await page.getByLabel('Name or code').fill('code 6');
      // Not while the model is still at work on what was poured.
      await soon(async () => {
        await button(page, 'Copy as a link').click();
        return page.locator('bf-hand-in .said').innerText();
      }).toMatch(/Link copied/);
      const link = await page.evaluate<string>('navigator.clipboard.readText()');
      expect(link.length).toBeLessThan(2000);
      await page.getByRole('dialog', { name: 'Hand in' }).getByRole('button', { name: 'Close' }).click();
      await page.evaluate(`location.hash = '#class/hand-out'`);
      const task = await handOut(page);
      await page.getByRole('link', { name: 'Take in' }).click();
      await page.getByText('Paste links, or the text of one file').click();
      await page.getByLabel(/^Links, one per line/).fill(`${task}\n${link}\n${link.slice(0, -20)}`);
      await button(page, 'Take it in').click();
      await page.locator('bf-take-in strong', { hasText: '1 of 2' }).waitFor();
      const rows = await page.getByRole('table', { name: 'Files that do not agree' }).getByRole('row').allInnerTexts();
      // The run is as sound as before; only the damaged link is buried under nothing.
      expect(rows.slice(1).map((row) => row.split('\t').slice(1, 3))).toEqual([['damaged', '']]);
      expect((await page.getByRole('table', { name: 'Runs', exact: true }).getByRole('row').nth(1).innerText()).split('\t').slice(0, 2)).toEqual([
        'code 6',
        'no hand-out',
      ]);
      await page.getByText(/^1 run is not of this hand-out: 1 from none\. They are compared/).waitFor();
      await button(page, 'Compare with no hand-out').click();
      await soon(() => page.getByText(/not of this hand-out|Compared with what was handed out/).count()).toBe(0);
      expect((await page.getByRole('table', { name: 'Runs', exact: true }).getByRole('row').nth(1).innerText()).split('\t')[1]).toBe('agrees');
      // A link that is opened brings its run along.
      await page.goto('about:blank');
      await page.goto(link);
      await page.getByRole('table', { name: 'Runs', exact: true }).getByRole('row').nth(1).waitFor();
      expect(await page.getByRole('table', { name: 'Runs', exact: true }).getByRole('row').nth(1).innerText()).toContain('code 6');
      await close();
    },
    TIME_MS,
  );

  test(
    'keeps a fault that is to be found hidden in every view, in the link and once the try has ended, until it is named',
    async () => {
      const instructor = await open('#faults');
      await instructor.page
        .locator('bf-fault-board summary')
        .filter({ hasText: /^\s*crater\s*$/ })
        .click();
      await button(instructor.page, 'Impose before the run').click();
      await button(instructor.page, 'Remove crater').waitFor();
      await button(instructor.page, 'Hide on this page').click();
      await instructor.page.locator('bf-mystery form').waitFor();
      await instructor.page.evaluate(`location.hash = '#class/hand-out'`);
      expect(await instructor.page.getByRole('checkbox', { name: /have to find what is wrong/ }).isChecked()).toBe(true);
      const link = await handOut(instructor.page);
      expect(link).toMatch(/task=1s\./);
      expect(await button(instructor.page, 'Save as a file').count()).toBe(0);
      expect(await axeViolations(instructor.page)).toEqual([]);

      const { page, close } = await open('');
      await ready(page);
      await page.goto(link);
      await page.getByText('Handed out: try 1 of 2').waitFor();
      await button(page, /^Open, pour/)
        .first()
        .click();
      for (const view of ['bench', 'faults', 'why', 'workup', 'notebook', 'plan', 'lab']) {
        await page.evaluate((hash) => {
          (globalThis as unknown as { location: { hash: string } }).location.hash = hash;
        }, `#${view}`);
        await page.locator(`bf-${view}`).waitFor({ state: 'attached' });
        await page.waitForLoadState('networkidle');
        expect(await told(page), view).not.toMatch(GIVEN_AWAY);
        if (view !== 'faults') continue;
        // Pictures and numbers of the whole run would tell it early.
        await page.getByText(/^The fault board opens when the run has ended/).waitFor();
        expect(await page.locator('bf-mystery, bf-symptoms, bf-overlay, bf-unrolled').count()).toBe(0);
        await button(page, 'To the bench').click();
        await soon(() => page.evaluate(`location.hash`)).toBe('#bench');
        await page.evaluate(`location.hash = '#faults'`);
        expect(await axeViolations(page)).toEqual([]);
      }
      await page.evaluate(`location.hash = '#bench'`);
      await page.getByText('Handed out: try 1 of 2').click();
      await button(page, 'End this try').click();
      await button(page, 'Answer and hand in').waitFor();
      expect(await told(page)).not.toMatch(GIVEN_AWAY);
      await page.evaluate(`location.hash = '#faults'`);
      await page.locator('bf-mystery select').selectOption({ label: 'crater' });
      await page.getByLabel('Why: what did you see, and where').fill('a hollow on top');
      await button(page, 'That is my answer').click();
      await page.getByRole('heading', { name: 'What was wrong with this column' }).waitFor();
      expect(await told(page)).toMatch(GIVEN_AWAY);
      await close();
      await instructor.close();
    },
    TIME_MS,
  );
});

describe('the page for students on paper', () => {
  test.each(['cathode-leach', 'lab-day'])(
    'takes no more than two sheets of A4 or Letter and cuts nothing: %s',
    async (scenario) => {
      const { page, close } = await open('#bench');
      await ready(page);
      await page.getByRole('combobox', { name: 'Scenario' }).selectOption(scenario);
      await page.evaluate(`location.hash = '#class/hand-out'`);
      await handOut(page);
      for (const format of ['A4', 'Letter']) {
        const pdf = await page.pdf({ format, preferCSSPageSize: false });
        expect(pdf.toString('latin1').match(PAGE_OF_PDF)?.length, format).toBeLessThanOrEqual(2);
      }
      await page.emulateMedia({ media: 'print' });
      for (const width of [ACROSS.A4, ACROSS.Letter]) {
        await page.setViewportSize({ width, height: 1000 });
        const sheet = await page.getByRole('article', { name: 'Page for students' }).boundingBox();
        expect((sheet?.x ?? 0) + (sheet?.width ?? Number.NaN)).toBeLessThanOrEqual(width);
        expect(await page.locator('bf-hand-out .sheet *').evaluateAll(beyond, width)).toEqual([]);
      }
      await close();
    },
    TIME_MS,
  );
});

/** One object a page: ISO 32000-1, 7.7.3.3 (recalled). */
const PAGE_OF_PDF = /\/Type\s*\/Page\b(?!s)/g;
/** Between margins of 14 mm, px at 96 to the inch: A4 is 210 mm wide (ISO 216), Letter 8.5 in (ANSI Y14.1); both recalled. */
const ACROSS = { A4: Math.floor(((210 - 28) / 25.4) * 96), Letter: Math.floor((8.5 - 28 / 25.4) * 96) };

/** Texts of what ends right of the sheet. */
function beyond(parts: readonly { readonly textContent: string | null; getBoundingClientRect(): { readonly right: number } }[], width: number) {
  return parts.filter((part) => part.getBoundingClientRect().right > width + 1).map((part) => part.textContent?.slice(0, 40));
}

/** What would give away a hidden crater. */
const GIVEN_AWAY = /crater|imposed|dug out/;

/** All text that the document holds, shadow roots and attributes included, but for lists to choose from and the scripts that every run loads. */
async function told(page: Page): Promise<string> {
  const text = await allText(page);
  return text.replaceAll(/\/assets\/imposed-?[\w-]*\.js/g, '');
}
