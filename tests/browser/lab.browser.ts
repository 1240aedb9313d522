import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { FAULTS } from '../../sim/faults/registry.ts';
import type { SectionId } from '../../src/lab/sections/contents.ts';
import { axeViolations } from './axe.ts';
import { onePage } from './one-page.ts';
import { type PageOptions, PHONE } from './session.ts';

// Setting up a lab on the built page, as an instructor would: by the names of the controls and what the page says.

const one = onePage();

const WAIT = { timeout: 30_000 };
const DESK = { width: 1280, height: 720 };

async function open(options: PageOptions = {}): Promise<Page> {
  const page = await one.open({ viewport: DESK, hash: '#lab', ...options });
  await page.getByText(/^Window for the receiver/).waitFor(WAIT);
  return page;
}

const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

async function put(page: Page, name: string, value: string): Promise<void> {
  await field(page, name).fill(value);
  await field(page, name).press('Enter');
}

async function unfold(page: Page, section: SectionId | 'differences'): Promise<void> {
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
      await one.close();
    }
  });

  test('is scrolled inside: however much of it is open, nothing leaves the window', async () => {
    const page = await open();
    await unfoldAll(page);
    expect(await page.locator('bf-lab .editor').evaluate((editor) => editor.scrollHeight > 2 * innerHeight)).toBe(true);
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThanOrEqual(DESK.height + 1);
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
    const colour = () => page.locator('bf-lab-pictures .told').evaluate((told) => getComputedStyle(told as never).color);
    const still = await colour();
    await put(page, 'bed length', '10');
    // While figure and glass are those of the lab before, so are the words.
    await page.locator('bf-lab-pictures .told[aria-busy=true]').waitFor(WAIT);
    expect(await colour()).not.toBe(still);
    await expect.poll(() => page.locator('bf-lab-pictures .told').innerText(), WAIT).not.toBe(before);
    await expect.poll(colour, WAIT).toBe(still);
    await put(page, 'bed length', '25');
    const told = page.locator('bf-lab-field[data-path="bed.length_cm"] [role=alert]');
    await expect.poll(() => told.innerText(), WAIT).toMatch(/below column\.tube_cm \(20 cm\).*received 25 cm/);
    await page.getByText('One entry is not valid').waitFor(WAIT);
    await unfold(page, 'column');
    await page.locator('bf-lab .misfits').getByRole('button', { name: 'bed length' }).click();
    await expect.poll(() => page.evaluate(FOCUSED), WAIT).toBe('bed length');
    await put(page, 'tube above support', '40');
    await page.getByText('Everything is valid.').waitFor(WAIT);
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
    await button(page, 'Jump there').click();
    await page.getByText('The run is over').waitFor(WAIT);
    await page.evaluate(`location.hash = '#lab'`);
    await page.getByText(/On the bench now: .* [1-9][\d.]*\s?mL delivered/).waitFor(WAIT);
    await put(page, 'bed length', '8');
    await button(page, 'Use on the bench').click();
    await page.locator('bf-task li.now').first().waitFor(WAIT);
    await button(page, 'Back to that run').click();
    await page.getByText('The run is over').waitFor(WAIT);
  });
});

describe('a lab on the bench', () => {
  test('calls a bottle by the acid that is in it, on the card, at the bench and on the page for students', async () => {
    const page = await open();
    await unfold(page, 'bottles');
    const acid = page.getByRole('group', { name: 'Bottle 9 M HCl' }).getByLabel('HCl', { exact: false }).last();
    await acid.fill('8');
    await acid.press('Enter');
    await page.getByRole('group', { name: 'Bottle 8 M HCl' }).waitFor(WAIT);
    await button(page, 'Set-up card').click();
    await page
      .locator('bf-setup-card')
      .getByRole('row', { name: /8 M HCl 153\s*mL/ })
      .waitFor(WAIT);
    await button(page, 'Back to the editor').click();
    await button(page, 'Use on the bench').click();
    await page
      .getByRole('button', { name: /^Open, pour .* 8 M HCl/ })
      .first()
      .waitFor(WAIT);
    await page.evaluate(`location.hash = '#class/hand-out'`);
    const sheet = page.getByRole('article', { name: 'Page for students' });
    await sheet.getByRole('row', { name: /Condition 8 M HCl 25\s*mL/ }).waitFor(WAIT);
    expect(await sheet.getByText('9 M HCl', { exact: true }).count()).toBe(0);
  });

  test('takes in Plan as long as Lab says, from the amounts of the set-up card', async () => {
    const page = await open();
    await put(page, 'bed length', '6');
    await expect.poll(() => page.locator('bf-lab-pictures .two').getAttribute('aria-busy'), WAIT).toBe('false');
    await button(page, 'Set-up card').click();
    const card = await page.locator('bf-setup-card tbody tr').allInnerTexts();
    await button(page, 'Back to the editor').click();
    const day = await page.locator('bf-lab-pictures .told').innerText();
    expect(day).toContain('sets this time, not the number of people');
    await button(page, 'Use on the bench').click();
    await page.locator('bf-task li.now').first().waitFor(WAIT);
    await page.evaluate(`location.hash = '#plan'`);
    await page.getByText('Column times are those of the procedure of the scenario').waitFor(WAIT);
    const found = /\d+(?= min,)/.exec(await page.locator('bf-plan .verdict').innerText())?.[0];
    expect(minutesIn(/take (.*?) with the work-up/.exec(day)?.[1] ?? '')).toBe(Number(found));
    const prepared = await page.getByRole('table', { name: 'To prepare' }).getByRole('row').allInnerTexts();
    for (const row of prepared.slice(1)) {
      const [name = '', amount = '', how = ''] = row.split('\t').map((cell) => cell.trim());
      expect(
        card.some((line) => line.includes(name) && line.includes(amount) && line.includes(how)),
        row,
      ).toBe(true);
    }
    expect(prepared.join()).toContain('CoCl₂·6H₂O');
  });

  test('is named beside the heading, and goes to the form that hands it out', async () => {
    const page = await open();
    await unfold(page, 'lesson');
    await put(page, 'Title', 'Cobalt on Tuesday');
    await page.locator('bf-lab .named').getByText('Cobalt on Tuesday').waitFor(WAIT);
    const tooLong = /too long for a period of 2\sh/;
    await unfold(page, 'class');
    await put(page, 'period', '120');
    await page.locator('bf-lab-pictures .told').getByText(tooLong).waitFor(WAIT);
    const [said] = /\d+ aliquots? by .*$/.exec(await page.locator('bf-lab-pictures .told p').last().innerText()) ?? [];
    await button(page, 'Set-up card').click();
    await expect.poll(() => page.locator('bf-setup-card bf-day-warning p').innerText(), WAIT).toBe(said);
    await button(page, 'Back to the editor').click();
    await button(page, 'Hand out').click();
    await page
      .locator('bf-hand-out')
      .getByText(/^Link, \d+ characters/)
      .waitFor(WAIT);
    await expect.poll(() => page.locator('bf-hand-out bf-day-warning p').innerText(), WAIT).toBe(said);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('bf-hand-out bf-day-warning p').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
    await page
      .locator('bf-scenario-choice')
      .getByText('Cobalt on Tuesday')
      .first()
      .waitFor({ ...WAIT, state: 'attached' });
    // What was said on the way here would cover the buttons of Lab.
    const note = page.getByText('Your lab is on the bench, to be handed out.');
    expect(await note.count()).toBe(1);
    await page.evaluate(`location.hash = '#lab'`);
    await button(page, 'Undo').waitFor(WAIT);
    expect(await note.count()).toBe(0);
  });
});

/** "2 h 21 min" as minutes. */
function minutesIn(text: string): number {
  return 60 * Number(/(\d+)\s*h/.exec(text)?.[1] ?? 0) + Number(/(\d+)\s*min/.exec(text)?.[1] ?? 0);
}

describe('a lab from scratch', () => {
  test('gets bottles, a sample and the usual procedure, and redraws', async () => {
    const page = await open();
    await page.getByRole('combobox', { name: 'Start from' }).selectOption('empty-bench');
    await page.getByText(/^The procedure does not yet load a sample/).waitFor(WAIT);
    await unfold(page, 'bottles');
    await button(page, 'Add a bottle').click();
    await button(page, 'Add a sample').click();
    const sample = page.getByRole('group', { name: 'Bottle sample' });
    await sample.getByRole('textbox', { name: 'nickel(II)' }).fill('0.2');
    await sample.getByRole('textbox', { name: 'nickel(II)' }).press('Enter');
    await unfold(page, 'procedure');
    await button(page, 'Begin with the usual procedure').click();
    await page.getByText(/^Window for the receiver: [\d.]+ to [\d.]+/).waitFor(WAIT);
    await put(page, 'change the receiver after', '12');
    await page.getByText(/The procedure itself changes the receiver at 1[12]\.\d/).waitFor(WAIT);
    // The step has the name that the list on the bench gives it.
    await page.getByText('The task as students tick it off').click();
    const steps = await page.locator('bf-lab-procedure ol').getByRole('listitem').allInnerTexts();
    expect(steps.filter((step) => /^Water: \d/.test(step))).toHaveLength(1);
    expect(steps.join()).not.toMatch(/release|elut|strip/i);
  });

  test('is told at the action what the bench refuses', async () => {
    const page = await open();
    await unfold(page, 'procedure');
    await page.getByRole('textbox', { name: 'in portions of' }).first().fill('20');
    await page.getByRole('textbox', { name: 'in portions of' }).first().press('Enter');
    await page.locator('bf-lab .misfits').getByRole('button', { name: 'action 4 of the procedure' }).click(WAIT);
    await page
      .locator('bf-lab-action [role=alert]')
      .getByText(/volume_mL: .*received 20/)
      .waitFor(WAIT);
  });
});

describe('what differs', () => {
  test('is listed with what it was, and is put back one by one', async () => {
    const page = await open();
    await put(page, 'bed length', '8');
    await put(page, 'bore', '1');
    await unfold(page, 'differences');
    await page.getByText(/bed length: 7\s*cm →/).waitFor(WAIT);
    await button(page, 'Put back bed length').click();
    await expect.poll(() => field(page, 'bed length').inputValue()).toBe('7');
    expect(await page.getByRole('list', { name: 'Differences' }).getByRole('listitem').count()).toBe(1);
    await button(page, 'Put back bore').click();
    await page.getByText('Nothing differs.').waitFor(WAIT);
  });
});

describe('a lab passed on', () => {
  test('by its link opens the same for editing, in another browser, and leaves the bench alone', async () => {
    const page = await open();
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await put(page, 'bed length', '8.5');
    await button(page, 'Copy link to edit this lab').click();
    const told = page.getByText(/^Link copied, \d+ characters/);
    await told.waitFor(WAIT);
    const address = await page.evaluate<string>('navigator.clipboard.readText()');
    expect(address.length).toBeLessThan(2000);
    await one.close();
    const other = await open({ hash: new URL(address).hash });
    await other.getByText(/The lab of the link is open/).waitFor(WAIT);
    expect(await field(other, 'bed length').inputValue()).toBe('8.5');
    expect(new URL(other.url()).hash).toBe('#lab');
    await other.getByText(/On the bench now: .* nothing done yet/).waitFor(WAIT);
  });

  test('by a file is the same again', async () => {
    const page = await open();
    await put(page, 'bed length', '8.5');
    const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save').click()]);
    await button(page, 'Undo').click();
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), button(page, 'Open').click()]);
    await chooser.setFiles(await download.path());
    await expect.poll(() => field(page, 'bed length').inputValue(), WAIT).toBe('8.5');
  });
});

describe('the task', () => {
  test('of a lab may ask for less or more: its sentence, the pictures and the bench go by it', async () => {
    const page = await open();
    await unfold(page, 'procedure');
    const asked = page.locator('bf-lab-task > p, bf-lab-task p').first();
    await expect
      .poll(() => asked.innerText(), WAIT)
      .toMatch(/^Collect 99\.5\s% or more of the cobalt, with at most 0\.5\s% of the nickel and at most 20\smmol of acid in its receiver\.$/);
    await put(page, 'recovered, at least', '98');
    await put(page, 'acid, at most', '1');
    await expect.poll(() => asked.innerText(), WAIT).toMatch(/^Collect 98\.0\s% .* at most 40\smmol of acid in its receiver\.$/);
    await expect.poll(() => page.locator('bf-lab-pictures .told').innerText(), WAIT).toMatch(/for 98\.0\s% of the cobalt/);
    await button(page, 'Use on the bench').click();
    await page.locator('bf-task li.now').first().waitFor(WAIT);
    await button(page, 'More').click();
    await page
      .getByText(/^Collect 98\.0\s% .* at most 40\smmol of acid in its receiver\.$/)
      .first()
      .waitFor(WAIT);
  });
});

describe('a fault of the lab', () => {
  test('is as severe as on the board, in the unit of the bench, and the file keeps its share', async () => {
    const page = await open();
    await unfold(page, 'faults');
    await page.locator('bf-lab-faults select').selectOption({ label: 'channel' });
    // sim/faults/registry.ts: the amount is a power, so half of the share in the file is the root of the most.
    await put(page, 'permeability of the strip over that of the bed', String(Number(Math.sqrt(FAULTS.channel.most).toPrecision(3))));
    const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save').click()]);
    const [, severity] = /"severity":\s*([\d.]+)/.exec(readFileSync(await download.path(), 'utf8')) ?? [];
    expect(Number(severity)).toBeCloseTo(0.5, 2);
  });
});

describe('the wash of the procedure', () => {
  test('is said not to count the rinses before it, with the total of the bench, which follows the field', async () => {
    const page = await open();
    await unfold(page, 'procedure');
    await page.getByText(/2\smL of rinses and 24\smL of wash are 26\smL, which the list on the bench shows as “Wash, at most”/).waitFor(WAIT);
    await put(page, 'wash', '44');
    await page.getByText(/2\smL of rinses and 44\smL of wash are 46\smL/).waitFor(WAIT);
  });
});

describe('a pour of the procedure', () => {
  // 30 mL of wash leaves the band of the lesson higher than 15 mm above the bottom and lower than 70 mm, so one mark leaves the pour in and the other out.
  test('is left out once a band is as low as the mark that is set, and the run drawn beside it follows', async () => {
    const page = await open();
    await unfold(page, 'procedure');
    await page
      .locator('bf-lab-procedure summary')
      .filter({ hasText: /^Action by action/ })
      .click();
    const last = page
      .locator('bf-lab-actions li > button')
      .filter({ hasText: /^pour .*HCl/ })
      .last();
    await last.click();
    const when = page.locator('bf-lab-action label[data-path$=".unless"] select');
    const told = page.locator('bf-lab-pictures .told');
    const whole = await told.innerText();
    await when.selectOption({ label: 'only while the edge of cobalt(II) is higher than' });
    await expect.poll(() => last.innerText(), WAIT).toMatch(/, unless the leading edge of cobalt\(II\) is within 5\smm of the bottom$/);
    await expect.poll(() => told.innerText(), WAIT).toBe(whole);
    await put(page, 'leading edge above the bottom', '70');
    await expect.poll(() => last.innerText(), WAIT).toMatch(/within 70\smm of the bottom$/);
    await expect.poll(() => told.innerText(), WAIT).not.toBe(whole);
    await put(page, 'leading edge above the bottom', '9000');
    await page.locator('bf-lab-action [role=alert]').filter({ hasText: /mm/ }).first().waitFor(WAIT);
    await put(page, 'leading edge above the bottom', '70');
    const [download] = await Promise.all([page.waitForEvent('download'), button(page, 'Save').click()]);
    expect(readFileSync(await download.path(), 'utf8')).toMatch(/"unless":\s*\{\s*"ion":\s*"Co",\s*"above_bottom_mm":\s*70/);
    await when.selectOption({ label: 'always' });
    await expect.poll(() => told.innerText(), WAIT).toBe(whole);
  });
});

describe('a curve of one’s own', () => {
  test('names its bad row with a reason, is drawn, used, and taken out', async () => {
    const page = await open();
    await unfold(page, 'sample');
    await page.locator('bf-lab-sample summary').click();
    const table = page.locator('bf-lab-curve textarea');
    await table.fill('HCl M\tD\n3\t1.2\nsix\t8\n9\t-4\n12\t90');
    const bad = page.getByRole('alert', { name: 'Rows that cannot be used' });
    await expect
      .poll(() => bad.innerText(), WAIT)
      .toMatch(/Row 3, HCl: expected a number from 0 to 13 mol\/L, found “six”[\s\S]*Row 4, Dᵥ: expected a number from 0/);
    await page.getByText('Drawn: the built-in curve (dotted) and 2 points of your own (squares).').waitFor(WAIT);
    expect(await button(page, 'Use this table for cobalt(II)').isDisabled()).toBe(true);
    await table.fill('3,1.2\n6,8\n9,40\n12,90');
    const before = await page.locator('bf-lab-pictures .told').innerText();
    await button(page, 'Use this table for cobalt(II)').click();
    await page.getByText('The run uses your table for cobalt(II).').waitFor(WAIT);
    await expect.poll(() => page.locator('bf-lab-pictures .told').innerText(), WAIT).not.toBe(before);
    await button(page, 'Back to the built-in curve').click();
    await expect.poll(() => page.locator('bf-lab-pictures .told').innerText(), WAIT).toBe(before);
  });

  test('is pasted as a spreadsheet copies it, beside the built-in curve; that no ninth metal can be added is said where metals are chosen', async () => {
    const page = await open();
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await unfold(page, 'sample');
    await page.getByText('These 8 are all: no other metal can be added.').waitFor(WAIT);
    await page.locator('bf-lab-sample summary').click();
    await page.evaluate(() => navigator.clipboard.writeText('HCl / M\tD\r\n1\t0,001\r\n6\t8,5\r\n9\t40\r\n12\t90\r\n'));
    await page.locator('bf-lab-curve textarea').focus();
    await page.keyboard.press('ControlOrMeta+v');
    const drawing = page.getByRole('img', { name: /^Distribution coefficient of cobalt\(II\) against HCl: the built-in curve \(dotted\) and 3 points/ });
    await drawing.waitFor(WAIT);
    // The built-in curve and the one through the table, and a square for each point on the axes.
    expect(await drawing.locator('g.line path').count()).toBeGreaterThanOrEqual(2);
    expect(await drawing.locator('rect.own').count()).toBe(3);
    await page.getByText('; 1 more lies outside the drawing.').waitFor(WAIT);
    expect(await button(page, 'Use this table for cobalt(II)').isEnabled()).toBe(true);
  });
});

describe('the set-up card', () => {
  // Printable width of the sheet less 14 mm at either side, at 96 px an inch.
  test.each([
    ['A4', 210],
    ['Letter', 215.9],
  ])('on %s shows bottles, waste and cautions, and clips nothing', async (format, width_mm) => {
    const page = await open();
    await button(page, 'Set-up card').click();
    const card = page.locator('bf-setup-card');
    // 25 + 2 + 24 mL for each of three aliquots, by hand from the procedure; eight groups and a quarter more.
    await card.getByRole('row', { name: /9 M HCl 153\s*mL 1530\s*mL/ }).waitFor(WAIT);
    await card.getByText('Waste, kept apart').waitFor(WAIT);
    await card.getByText(/Strong hydrochloric acid burns/).waitFor(WAIT);
    expect(await axeViolations(page)).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: Math.floor(((width_mm - 28) / 25.4) * 96), height: 1000 });
    expect(await page.evaluate(CLIPPED)).toEqual([]);
    const pdf = await page.pdf({ format, preferCSSPageSize: false });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length).toBeLessThanOrEqual(3);
  });
});

/** Elements of the card whose content is wider than they are, or that reach beyond the sheet. */
const CLIPPED = `(() => {
  const card = document.querySelector('bf-app').shadowRoot.querySelector('bf-lab').shadowRoot.querySelector('bf-setup-card');
  return [...card.shadowRoot.querySelectorAll('*')].filter((element) => element.scrollWidth > element.clientWidth + 1 && element.clientWidth > 0
    || element.getBoundingClientRect().right > innerWidth + 1).map((element) => element.tagName + ' ' + element.textContent.slice(0, 40));
})()`;

/** Label of the field that has the focus. */
const FOCUSED = `(() => {
  let at = document.activeElement;
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
  return at?.labels?.[0]?.textContent.trim();
})()`;
