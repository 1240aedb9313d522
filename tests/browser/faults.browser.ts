import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { allText } from './all-text.ts';
import { axeViolations } from './axe.ts';
import { PATIENCE_MS } from './bench-rig.ts';
import { onePage } from './one-page.ts';
import { type PageOptions, PHONE } from './session.ts';

// What goes wrong, on the built page: the board, the twin, the sealed question, the causes, the demonstrations.

const one = onePage();

async function open(options: PageOptions = {}): Promise<Page> {
  const page = await one.open({ hash: '#faults', ...options });
  page.setDefaultTimeout(PATIENCE_MS);
  await page.locator('bf-faults bf-segmented, bf-mystery form').first().waitFor();
  return page;
}

/** What would give away a sealed crater. */
const GIVEN_AWAY = /crater|imposed|dug out|severity/;

/** All text, without the addresses of scripts that every run loads, a healthy one too: scales of faults, what is imposed and the note on it. */
async function told(page: Page): Promise<string> {
  const text = await allText(page);
  return text.replaceAll(/\/assets\/(?:severity|imposed-note|imposed)-[^/\s]+\.js/g, '');
}

async function part(page: Page, name: string): Promise<void> {
  await page.locator('bf-faults > bf-segmented label, bf-faults bf-segmented.parts label').filter({ hasText: name }).click();
}

async function impose(page: Page, label: string): Promise<void> {
  await page
    .locator('bf-fault-board summary')
    .filter({ hasText: new RegExp(`^\\s*${label}\\s*$`) })
    .click();
  // No range is told in more figures than a ruler has.
  for (const range of await page.locator('bf-fault-form .range').allInnerTexts()) expect(range).not.toMatch(/\d\.\d{3}/);
  await page.getByRole('button', { name: 'Impose before the run' }).click();
  await page.getByRole('button', { name: `Remove ${label}` }).waitFor();
}

describe('the fault board', () => {
  test('imposes a fault and takes it away again', async () => {
    const page = await open();
    await impose(page, 'crater');
    await page.getByRole('button', { name: 'Remove crater' }).click();
    await page.getByText('No fault is set, so both runs are the same.').waitFor();
  });

  test('shows a channel at the left beside the twin with both columns seen from the left', async () => {
    const page = await open();
    await page.getByRole('button', { name: 'Show channel beside its twin' }).click();
    const sides = () =>
      page.locator('bf-twin bf-glass').evaluateAll((columns) => columns.map((one) => (one as HTMLElement & { readonly from_deg: number }).from_deg));
    await expect.poll(sides, { timeout: PATIENCE_MS }).toEqual([90, 90]);
    await page.getByRole('button', { name: 'For the projector' }).click();
    await expect.poll(sides, { timeout: PATIENCE_MS }).toEqual([90, 90]);
  });

  test('says of a picture that it is being computed until it is there', async () => {
    const page = await open();
    const awaited = page.locator('bf-fault-board .one > .awaited', { hasText: 'being computed' });
    await awaited.first().waitFor();
    await page.locator('bf-fault-board .picture .leaving').first().waitFor();
    await expect.poll(() => awaited.count(), { timeout: PATIENCE_MS }).toBe(0);
  });

  test('says in a line each what its pictures and patterns show', async () => {
    const page = await open();
    const terms = await page.locator('bf-fault-board .terms').innerText();
    for (const word of ['bed unrolled', 'weaker eluent is poured', 'effluent', 'healthy twin']) expect(terms).toMatch(new RegExp(`${word}: \\w+`));
    await page.getByText('Beside the healthy twin', { exact: true }).click();
    const legend = page.locator('.legend').filter({ hasText: 'hatched where the bed has run dry' });
    await legend.getByText('hatched in the healthy twin').waitFor();
    await page.getByText('side by side', { exact: true }).click();
    await legend.getByText('hatched is still to come').waitFor();
  });

  test('has no finding of axe, light, dark and on a telephone', async () => {
    for (const options of [{}, { colorScheme: 'dark' as const }, { viewport: PHONE, touch: true }]) {
      const page = await open(options);
      await impose(page, 'tilted bed');
      // Scrolled, the clock that stays at the top lies over half of some line, whichever that is.
      await page.evaluate('scrollTo(0, 0)');
      expect(await axeViolations(page)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true);
      await one.close();
    }
  });

  test('is worked by keys alone', async () => {
    const page = await open();
    await page
      .locator('bf-fault-board summary')
      .filter({ hasText: /^\s*crater\s*$/ })
      .focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Impose before the run' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Remove crater' }).waitFor();
  });
});

test('the twin stands at the moment of the run, and each figure has its own', async () => {
  const page = await open();
  await impose(page, 'channel');
  await part(page, 'Beside the healthy twin');
  await page.getByRole('slider', { name: 'time' }).focus();
  for (let press = 0; press < 3; press++) await page.keyboard.press('PageUp');
  await expect
    .poll(() => page.locator('bf-twin h2').allInnerTexts(), { timeout: PATIENCE_MS })
    .toEqual([expect.stringMatching(/This run.*delivered/s), expect.stringMatching(/Healthy twin.*delivered/s)]);
  // At the same delivered volume a channel still lets the liquid run faster.
  const said = async (): Promise<boolean> => {
    const [ours, theirs] = await page.locator('bf-twin h2').allInnerTexts();
    return ours?.replace('This run', '') !== theirs?.replace('Healthy twin', '');
  };
  await expect.poll(said, { timeout: PATIENCE_MS }).toBe(true);
  expect(await axeViolations(page)).toEqual([]);
});

test('a sealed run asks what is wrong, shows it nowhere, and tells it with evidence once it is named', async () => {
  const page = await open();
  await impose(page, 'crater');
  await page.evaluate(`Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { window.copied = text; } } })`);
  await page.getByRole('button', { name: 'Copy sealed link' }).click();
  await expect.poll(() => page.evaluate('window.copied')).toBeTruthy();
  const address = await page.evaluate<string>('window.copied');
  await one.close();

  const other = await open({ hash: new URL(address).hash });
  await other.getByRole('heading', { name: 'What is wrong with this column?' }).waitFor();
  expect(`${await told(other)} ${address.toLowerCase()}`).not.toMatch(GIVEN_AWAY);
  expect(await axeViolations(other)).toEqual([]);
  await other.goto(`${other.url().split('#')[0]}#bench`);
  await other.getByRole('heading', { name: 'The task' }).waitFor();
  expect(await told(other)).not.toMatch(GIVEN_AWAY);
  await other.goto(`${other.url().split('#')[0]}#faults`);

  await other.getByRole('row', { name: /^gas between the beads 0\s%/ }).waitFor();
  // Nothing has left yet: an axis of plain numbers, not of millionths.
  const numbers = (await other.locator('bf-mystery bf-overlay svg text').allTextContents()).filter((text) => /^[\d.]+$/.test(text));
  expect(numbers.length).toBeGreaterThan(4);
  expect(numbers.filter((text) => text.length > 4)).toEqual([]);
  await other.getByRole('button', { name: 'Play the procedure' }).click();
  await other.getByRole('button', { name: 'Pause' }).click();
  const time = other.locator('bf-fault-clock input[type=range]');
  await time.fill('0');
  await other.locator('bf-mystery select').selectOption({ label: 'crater' });
  await other.getByRole('button', { name: 'That is my answer' }).click();
  await other.getByText('Why: expected a few words on what you saw.').waitFor();
  await other.getByLabel('Why: what did you see, and where').fill('The band is thick from the start, and ahead in the middle.');
  // One answer only: before the sample is in the bed it is not taken.
  await other.getByRole('button', { name: 'That is my answer' }).click();
  await other.getByText('Your answer is kept for when it is.').waitFor();
  expect(await told(other)).not.toMatch(/dug out|severity/);
  await time.fill((await time.getAttribute('max')) ?? '');
  await other.locator('bf-mystery p[role=status]', { hasText: 'It is too early to tell' }).waitFor({ state: 'hidden' });
  await other.getByRole('button', { name: 'That is my answer' }).click();
  await other.getByText('Right.', { exact: true }).waitFor();
  await other
    .getByText(/in the twin/)
    .first()
    .waitFor();
  await other.reload();
  await other.getByText('Right.', { exact: true }).waitFor();
});

test('what is hidden on the page brings its question into view, and the lesson can still be chosen', async () => {
  const page = await open({ viewport: { width: 1280, height: 720 } });
  await impose(page, 'crater');
  const scenario = page.getByRole('combobox', { name: 'Scenario' });
  const lesson = await scenario.locator('option:checked').innerText();
  await part(page, 'Beside the healthy twin');
  await page.getByRole('button', { name: 'Hide on this page' }).click();
  const question = page.getByRole('heading', { name: 'What is wrong with this column?' });
  await question.waitFor();
  const inView = async (): Promise<boolean> => {
    const box = await question.boundingBox();
    return box !== null && box.y >= 0 && box.y + box.height < 360;
  };
  await expect.poll(inView, { timeout: PATIENCE_MS }).toBe(true);
  expect(await scenario.locator('option:checked').innerText()).toBe('Something may be wrong with this column');
  await scenario.selectOption({ label: lesson });
  await expect.poll(() => scenario.locator('option:checked').innerText(), { timeout: PATIENCE_MS }).toBe(lesson);
  await question.waitFor({ state: 'detached' });
});

test('the causes of a loss are told, each with its moment, and add up', async () => {
  const page = await open();
  await impose(page, 'stopped early');
  await part(page, 'Where it went');
  await page.getByRole('button', { name: 'Work out the causes' }).click();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page.getByRole('button', { name: 'Work out the causes' }).click();
  const rows = page.getByRole('table', { name: /What each cause/ }).getByRole('row');
  await rows.first().waitFor();
  await page.getByRole('button', { name: 'Show the amounts' }).click();
  await page.getByRole('columnheader', { name: 'cobalt(II) lost, mmol' }).waitFor();
  const lost = (await rows.evaluateAll((all) => all.slice(1).map((row) => row.querySelector('td')?.textContent ?? ''))).map((text) =>
    Number(text.replace('\u2212', '-')),
  );
  const total = lost.at(-1) ?? Number.NaN;
  const parts = lost.slice(0, -1).reduce((sum, part) => sum + part, 0);
  // Written to 1e-4 mmol each.
  expect(Math.abs(total - parts)).toBeLessThan(1e-4 * lost.length);
  expect(await axeViolations(page)).toEqual([]);
  // They are those of this run: of another one none are shown until they are asked for.
  await part(page, 'Fault board');
  await page.getByRole('button', { name: 'Remove stopped early' }).click();
  await page.getByText('No fault is set').waitFor();
  await part(page, 'Where it went');
  await page.getByRole('button', { name: 'Work out the causes' }).waitFor();
  expect(await rows.count()).toBe(0);
});

test('ten demonstrations tell what to watch and what to ask', async () => {
  const page = await open();
  await part(page, 'Demonstrations');
  await page.locator('bf-demonstrations .question').nth(9).waitFor();
  expect(await page.locator('bf-demonstrations li.card').count()).toBe(10);
  expect(await axeViolations(page)).toEqual([]);
  await page.locator('bf-demonstrations li.card').filter({ hasText: 'far too much cobalt' }).getByRole('button', { name: 'Show with its twin' }).click();
  await page.getByRole('heading', { name: /Healthy twin/ }).waitFor();
});

test('a rescue that cannot be done is refused with what was expected', async () => {
  const page = await open();
  await part(page, 'Rescue');
  await page.getByRole('button', { name: 'Top up with resin' }).click();
  await page.getByText('Top up with resin: There is no hollow to fill: the bed is full.').waitFor();
});

describe('a fault that is imposed', () => {
  test('is said on the bench and in the plan, and by neither while it waits to be named', async () => {
    const page = await open();
    await impose(page, 'crater');
    const go = async (view: string) => {
      await page.evaluate(`location.hash = '#${view}'`);
      await page.locator(`bf-${view}`).waitFor();
    };
    await go('bench');
    await page.locator('bf-imposed-note').getByText('Imposed').waitFor();
    await page.locator('bf-imposed-note').getByText('crater').waitFor();
    await go('plan');
    await page.getByText('The run on the bench has a fault imposed: crater').waitFor();

    await go('faults');
    await page.getByRole('button', { name: 'Hide on this page' }).click();
    await page.getByRole('heading', { name: 'What is wrong with this column?' }).waitFor();
    await go('plan');
    await page.getByText('Column times are those of the procedure of the scenario').waitFor();
    expect(await page.getByText('fault imposed').count()).toBe(0);
    await go('bench');
    await page.getByRole('heading', { name: 'The task' }).waitFor();
    expect(await page.locator('bf-imposed-note').evaluate((note) => note.shadowRoot?.textContent?.trim())).toBe('');
    expect(await page.locator('bf-imposed-note').isVisible()).toBe(false);
  });
});

test('Play runs at the speed of the bench, twenty times at first, and offers the same speeds', async () => {
  const page = await open();
  const speed = page.getByRole('combobox', { name: 'speed' });
  await speed.waitFor();
  expect(await speed.inputValue()).toBe('20');
  expect(await speed.locator('option').allTextContents()).toEqual(['1×', '5×', '20×', '60×']);
  await page.getByRole('button', { name: 'Play the procedure' }).click();
  // In real time the first millilitre would take most of a minute.
  await page.locator('bf-fault-clock output', { hasText: /^\d+\smin/ }).waitFor({ timeout: 25_000 });
});

describe('at 1280 x 720', () => {
  const PROJECTOR = { width: 1280, height: 720 };

  async function beside(): Promise<Page> {
    const page = await open({ viewport: PROJECTOR });
    await page.getByRole('button', { name: 'Show channel beside its twin' }).click();
    await page.getByRole('heading', { name: /Healthy twin.*delivered/s }).waitFor();
    return page;
  }

  test('one press on a picture shows columns, curves and one slider in one view, at the same delivered volume', async () => {
    const page = await beside();
    const parts = [...(await page.locator('bf-twin .column').all()), page.locator('bf-twin bf-overlay svg')];
    expect(parts).toHaveLength(3);
    for (const part of parts) {
      const box = await part.boundingBox();
      expect(box?.y).toBeGreaterThan(0);
      expect((box?.y ?? 0) + (box?.height ?? 9999)).toBeLessThanOrEqual(PROJECTOR.height);
    }
    expect(await page.locator('bf-twin').getByRole('slider').count()).toBe(1);
    const delivered = async () => (await page.locator('bf-twin h2').allInnerTexts()).map((text) => /([\d.]+)\s?mL delivered/.exec(text)?.[1]);
    await expect.poll(async () => new Set(await delivered()).size, { timeout: PATIENCE_MS }).toBe(1);
    const [first] = await delivered();
    expect(first).toMatch(/^[1-9]/);
    expect(await axeViolations(page)).toEqual([]);
    // With another severity the same volume comes at another minute, and is shown in both.
    const minute = () => page.locator('bf-fault-clock input[type=range]').inputValue();
    const before = await minute();
    const severity = page.getByRole('slider', { name: 'channel' });
    await severity.focus();
    await page.keyboard.press('Home');
    await expect.poll(minute, { timeout: PATIENCE_MS }).not.toBe(before);
    await expect.poll(delivered, { timeout: PATIENCE_MS }).toEqual([first, first]);
  });

  test('the projector shows two columns, one curve and the question, in large type, and nothing else', async () => {
    const page = await beside();
    await page.getByRole('button', { name: 'For the projector' }).click();
    const size = (selector: string) =>
      page
        .locator(selector)
        .first()
        .evaluate((node) => Number.parseFloat(getComputedStyle(node).fontSize));
    await page.locator('bf-twin .question').waitFor();
    expect(await size('bf-twin .question')).toBeGreaterThanOrEqual(24);
    expect(await size('bf-twin bf-overlay svg text')).toBeGreaterThanOrEqual(20);
    // Columns stand enlarged, with all that is written on them: 0.75 rem and more become a line of 16 px.
    const column = page.locator('bf-twin .column').first();
    expect(await column.evaluate((node) => (node as unknown as { currentCSSZoom: number }).currentCSSZoom)).toBeGreaterThanOrEqual(16 / 12);
    const tops = await page.locator('bf-twin .column').evaluateAll((all) => all.map((column) => column.getBoundingClientRect().top));
    expect(tops[0]).toBe(tops[1]);
    expect(await page.locator('bf-twin .column').count()).toBe(2);
    expect(await page.locator('bf-twin bf-overlay').count()).toBe(1);
    expect(await page.locator('bf-symptoms, bf-faults .parts').count()).toBe(0);
    const clock = await page.locator('bf-twin bf-fault-clock').boundingBox();
    expect((clock?.y ?? 0) + (clock?.height ?? 9999)).toBeLessThanOrEqual(PROJECTOR.height);
    expect(await axeViolations(page)).toEqual([]);
  });

  test('the projector asks what the teacher words', async () => {
    const page = await beside();
    const question = page.getByRole('textbox', { name: 'Question to the class, can be changed' });
    await page.getByRole('button', { name: 'For the projector' }).click();
    await question.fill('Where would you stop?');
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('button', { name: 'For the projector' }).click();
    expect(await question.inputValue()).toBe('Where would you stop?');
  });

  test('the projector asks what will follow, and shows it only when the button is pressed or the run is at its end', async () => {
    const page = await beside();
    await page.getByRole('button', { name: 'For the projector' }).click();
    const follows = page.getByRole('button', { name: 'Show what follows' });
    await follows.waitFor();
    const overlay = page.locator('bf-twin bf-overlay svg');
    const drawnTo = () => overlay.locator('.line path').evaluateAll((paths) => Math.max(...paths.map((path) => path.getBoundingClientRect().right)));
    const now = () => overlay.locator('.cursor line').evaluate((line) => line.getBoundingClientRect().right);
    expect(await drawnTo()).toBeLessThanOrEqual((await now()) + 3);
    expect(await overlay.getAttribute('aria-label')).not.toMatch(/has left after/);
    for (const title of await overlay.locator('.row-title').all()) {
      const [box, frame] = [await title.boundingBox(), await overlay.boundingBox()];
      expect((box?.x ?? 0) + (box?.width ?? 9999)).toBeLessThanOrEqual((frame?.x ?? 0) + (frame?.width ?? 0));
    }
    expect(await axeViolations(page)).toEqual([]);

    const cost = page.locator('bf-twin .cost');
    expect(await cost.innerText()).toBe('');
    const place = await follows.boundingBox();
    await follows.click();
    await expect.poll(async () => (await drawnTo()) - (await now()), { timeout: PATIENCE_MS }).toBeGreaterThan(50);
    expect(await cost.innerText()).toMatch(/^Cobalt\(II\) collected: [\d.]+\s%, in the twin [\d.]+\s%\s+nickel\(II\) with it: /);
    // The press stays where it was, and takes back what it showed.
    const hide = page.getByRole('button', { name: 'Hide what follows' });
    expect((await hide.boundingBox())?.y).toBe(place?.y);
    await hide.click();
    await follows.waitFor();
    expect(await cost.innerText()).toBe('');
    await page.getByRole('slider', { name: 'time' }).focus();
    await page.keyboard.press('End');
    await expect.poll(() => follows.isDisabled(), { timeout: PATIENCE_MS }).toBe(true);
    expect(await cost.innerText()).toMatch(/collected/);
  });

  test('the severity of the fault is set at the projector, which does not name the fault', async () => {
    const page = await beside();
    await page.getByRole('button', { name: 'For the projector' }).click();
    await page.getByRole('button', { name: 'Show what follows' }).click();
    const cost = page.locator('bf-twin .cost');
    const before = await cost.innerText();
    const severity = page.getByRole('textbox', { name: 'severity' });
    // What is looked at stays: the same volume, though it comes at another minute.
    const volume = async () => Number(/([\d.]+)\s?mL delivered/.exec(await page.locator('bf-twin h2').first().innerText())?.[1]);
    const was = await volume();
    await severity.fill(
      await page.locator('bf-fault-severity input[type=range]').evaluate((slider) => (slider.getAttribute('aria-valuetext')?.startsWith('1.5 ') ? '3' : '1.5')),
    );
    await severity.press('Enter');
    await expect.poll(() => cost.innerText(), { timeout: PATIENCE_MS }).not.toBe(before);
    await expect.poll(async () => Math.abs((await volume()) - was), { timeout: PATIENCE_MS }).toBeLessThanOrEqual(0.15);
    expect(await page.locator('bf-twin').innerText()).not.toMatch(/channel/i);
    expect(await axeViolations(page)).toEqual([]);
  });
});

test('a hidden fault is kind while there is nothing to tell, and answered in pictures before numbers', async () => {
  const page = await open();
  await impose(page, 'crater');
  await page.getByRole('button', { name: 'Hide on this page' }).click();
  await page.getByText(/It is too early to tell.*play the procedure/).waitFor();
  await page.locator('bf-mystery select').selectOption({ label: 'crater' });
  await page.getByLabel('Why: what did you see, and where').fill('a guess');
  await page.getByRole('button', { name: 'That is my answer' }).click();
  await page.getByText('Your answer is kept for when it is.').waitFor();
  await page.getByRole('button', { name: 'Play the procedure' }).click();
  const time = page.locator('bf-fault-clock input[type=range]');
  await page.getByRole('button', { name: 'Pause' }).click();
  await time.fill((await time.getAttribute('max')) ?? '');
  await page.locator('bf-mystery p[role=status]', { hasText: 'It is too early to tell' }).waitFor({ state: 'hidden' });
  await page.getByRole('button', { name: 'That is my answer' }).click();
  await page
    .locator('bf-mystery')
    .getByRole('heading', { name: /A sound one, .* delivered/ })
    .waitFor();
  const top = async (selector: string) => (await page.locator(selector).first().boundingBox())?.y ?? Number.NaN;
  expect(await top('bf-mystery .shown')).toBeLessThan(await top('bf-mystery bf-symptoms'));
  expect(await page.locator('bf-mystery .side').count()).toBe(2);
  expect(await page.locator('bf-mystery bf-overlay svg').count()).toBe(1);
  // Both at the same volume.
  const volumes = async () => (await page.locator('bf-mystery .shown h3').allInnerTexts()).map((text) => /([\d.]+)\s?mL/.exec(text)?.[1]);
  await expect.poll(async () => new Set(await volumes()).size, { timeout: PATIENCE_MS }).toBe(1);
  expect(await axeViolations(page)).toEqual([]);
});
