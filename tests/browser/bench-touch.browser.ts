import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeViolations } from './axe.ts';
import { choice, headless, kept, PATIENCE_MS, reading, ready, still, wholeProcedure } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

const LONG = 300_000;
const WIDE = { viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' } as const;
const PHONE = { viewport: { width: 390, height: 844 }, reducedMotion: 'reduce', touch: true } as const;

describe('the bench under the hand', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch();
  });
  afterAll(() => session?.close());

  test(
    'opens the clamp by a press on the glass, half-closes it by dragging, by arrow keys and in the strip; Ctrl Z takes each back',
    async () => {
      const { page, close } = await session.openPage(WIDE);
      await ready(page);
      const clamp = page.getByRole('button', { name: /^Clamp, / });
      await clamp.click();
      await expect.poll(() => opening(page), { timeout: PATIENCE_MS }).toBe(100);
      const [x, y] = await middle(clamp);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x - 50, y, { steps: 5 });
      await page.getByText(/^open 30\s%$/).waitFor();
      await page.mouse.up();
      await expect.poll(() => opening(page), { timeout: PATIENCE_MS }).toBe(30);
      await clamp.press('ArrowLeft');
      await expect.poll(() => opening(page), { timeout: PATIENCE_MS }).toBe(20);
      await choice(page, 'clamp', 'slow').click();
      await expect.poll(() => opening(page), { timeout: PATIENCE_MS }).toBe(25);
      for (const before of [20, 30, 100]) {
        await page.keyboard.press('Control+z');
        await expect.poll(() => opening(page), { timeout: PATIENCE_MS }).toBe(before);
      }
      await close();
    },
    LONG,
  );

  test(
    'pours by a press on the mouth of the tube, and puts a beaker under the tip by dragging it there',
    async () => {
      const { page, close } = await session.openPage(WIDE);
      await ready(page);
      await page.getByRole('button', { name: 'Pour into the tube' }).click();
      await acts(page, 'pour');
      await choice(page, 'liquid', 'water').click();
      await page.getByRole('textbox', { name: 'volume to pour' }).fill('1');
      await page.keyboard.press('Tab');
      await page.getByRole('button', { name: 'Pour into the tube' }).click();
      await expect.poll(async () => (await kept(page)).log.at(-1), { timeout: PATIENCE_MS }).toMatchObject({ do: 'pour', liquid: 'water', volume_mL: 1 });
      const [from, y] = await middle(page.getByRole('button', { name: /^Receiver cobalt/ }));
      const [to] = await middle(page.getByRole('button', { name: /^Receiver nickel/ }));
      await page.mouse.move(from, y);
      await page.mouse.down();
      await page.mouse.move(to, y, { steps: 6 });
      await page.mouse.up();
      await expect
        .poll(async () => (await kept(page)).log.at(-1), { timeout: PATIENCE_MS })
        .toEqual(expect.objectContaining({ do: 'receiver', label: 'cobalt' }));
      await close();
    },
    LONG,
  );

  test(
    'does what the words on the glass say where the words are pressed, and a drag on them turns the clamp',
    async () => {
      const { page, close } = await session.openPage({ ...WIDE, viewport: { width: 1440, height: 900 } });
      await ready(page);
      const words = async (said: RegExp) => middle(page.locator('bf-glass .words text.press').filter({ hasText: said }));
      await page.mouse.click(...(await words(/^press.* pour ▸$/)));
      await acts(page, 'pour');
      const [x, y] = await words(/^press, or drag/);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 35, y, { steps: 5 });
      await page.mouse.up();
      await expect.poll(() => opening(page), { timeout: PATIENCE_MS }).toBe(50);
      await page.locator('bf-time button.play').click();
      await page.mouse.click(...(await words(/^press or drag$/)));
      await expect.poll(async () => (await kept(page)).log.at(-1), { timeout: PATIENCE_MS }).toMatchObject({ do: 'receiver', label: 'cobalt' });
      await close();
    },
    LONG,
  );

  test(
    'drags the moment back: glass, read-outs, explanation and axis follow together, and come back together',
    async () => {
      const { page, close } = await session.openPage(WIDE);
      await ready(page);
      await conditioned(page);
      await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('figure');
      await page.keyboard.press('w');
      const told = page.locator('bf-why-here').getByText('Between the beads there:');
      const state = async () => [
        await reading(page, 'delivered'),
        await told.textContent(),
        await page.locator('bf-glass svg.words').textContent(),
        await page.locator('bf-figure .now-label').textContent(),
      ];
      // The picture of the glass may come later than the read-outs.
      await expect.poll(() => page.locator('bf-glass svg.words').textContent(), { timeout: PATIENCE_MS }).toMatch(/\b1\smm/);
      let present = await state();
      await expect
        .poll(
          async () => {
            const before = present.join();
            present = await state();
            return present.join() === before;
          },
          { timeout: PATIENCE_MS, interval: 500 },
        )
        .toBe(true);
      const [x, y] = await middle(page.getByRole('slider', { name: 'Moment shown' }));
      const left = (await page.locator('bf-figure .surface').boundingBox())?.x ?? 0;
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(left + 1, y, { steps: 6 });
      await page.mouse.up();
      await page.getByText('Looking back at').waitFor({ timeout: PATIENCE_MS });
      await expect.poll(async () => (await state()).map((line, i) => line === present[i]), { timeout: PATIENCE_MS }).toEqual([false, false, false, false]);
      await page.getByRole('button', { name: 'Return to the present' }).click();
      await expect.poll(state, { timeout: PATIENCE_MS }).toEqual(present);
      await close();
    },
    LONG,
  );

  test(
    'stays on Back: it closes the debrief, and says so before it would leave the page',
    async () => {
      const { page, close } = await session.openPage(WIDE);
      await ready(page);
      await wholeProcedure(page);
      const before = await kept(page);
      await page.getByRole('button', { name: 'Debrief', exact: true }).click();
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      await page.goBack();
      await page.locator('bf-strip').waitFor();
      await page.goBack();
      await page.getByText('Press Back once more to leave Bandfall.').waitFor();
      expect(await kept(page)).toEqual(before);
      await close();
    },
    LONG,
  );

  test(
    'says what comes from elsewhere in the line of the bench, where it covers nothing, and lets it go by itself',
    async () => {
      const { page, close } = await session.openPage(WIDE);
      await ready(page);
      await page.getByRole('button', { name: 'Pour into the tube' }).click();
      await acts(page, 'pour');
      const controls = page.locator('bf-strip button, bf-task button, bf-ways-in button, bf-hazard .signs button');
      await page.getByRole('combobox', { name: 'Scenario' }).selectOption('lab-day');
      await page.locator('bf-say-line').getByText('run before it').waitFor({ timeout: PATIENCE_MS });
      expect(await covered(controls)).toEqual([]);
      await page.locator('bf-say-line').getByText('run before it').waitFor({ state: 'hidden', timeout: PATIENCE_MS });
      await close();
    },
    LONG,
  );
});

describe.each([
  ['a projector', WIDE],
  ['a phone', PHONE],
] as const)('beside the bench on %s', (_, options) => {
  let session: Session;
  beforeAll(async () => {
    session = await launch();
  });
  afterAll(() => session?.close());

  test(
    'a run is told in captions with its own figures; it is paused, passed over and left by buttons that cover nothing',
    async () => {
      // A drawn column on which the written procedure misses the task: what is watched is the column it was written for.
      const { page, close } = await session.openPage({ ...options, column: 2 });
      await ready(page);
      await page.getByRole('button', { name: 'Watch one run' }).click();
      const panel = page.locator('bf-watch');
      await panel.getByText('First the column is conditioned').waitFor({ timeout: PATIENCE_MS });
      await panel.getByRole('button', { name: 'Go on' }).click();
      await panel.getByRole('button', { name: 'Pause' }).click();
      expect(await covered(page.locator('bf-watch button, bf-strip button:visible'))).toEqual([]);
      expect(await axeViolations(page)).toEqual([]);
      for (let i = 0; i < 12 && !(await panel.getByText('Done:').isVisible()); i++) {
        const text = await panel.locator('.caption').textContent();
        await panel.getByRole('button', { name: 'Next' }).click();
        await expect.poll(() => panel.locator('.caption').textContent(), { timeout: PATIENCE_MS }).not.toBe(text);
      }
      const run = await kept(page);
      const results = headless({ ...run, now_min: 1e4 });
      const cobalt = results.receivers.find(({ label }) => label === 'cobalt');
      const share = (100 * Number(cobalt?.['Co_mmol'])) / (results.loaded['Co_mmol'] ?? 0);
      expect(share).toBeGreaterThan(99.5);
      await panel.getByRole('button', { name: 'Debrief' }).or(page.locator('bf-watch > button')).first().waitFor();
      expect(await covered(page.locator('bf-watch button, bf-strip button:visible'))).toEqual([]);
      const { seed } = run;
      expect(Number(/Done: ([\d.]+)/.exec((await panel.locator('.caption').textContent()) ?? '')?.[1])).toBeCloseTo(share, 0);
      await panel.getByRole('button', { name: 'Now run one yourself' }).click();
      await expect.poll(async () => (await kept(page)).log, { timeout: PATIENCE_MS }).toEqual([]);
      expect((await kept(page)).seed).not.toBe(seed);
      await close();
    },
    LONG,
  );

  test(
    'a place of the bed is explained: by eye without a number of what is inside, with the figure with all of them; Escape closes it',
    async () => {
      const { page, close } = await session.openPage(options);
      await ready(page);
      await conditioned(page);
      const before = await kept(page);
      const card = page.locator('bf-why-here');
      await page.getByRole('slider', { name: 'Turn the column' }).focus();
      for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      // 0.4 cm down a bed that has sunk in the acid: the card tells what the ruler on the glass reads there.
      const flag = (await page.locator('bf-glass svg.words .depth text').textContent()) ?? '';
      expect(Number.parseFloat(flag)).toBeGreaterThan(0.5);
      await card.getByRole('heading', { name: `Why, ${flag} deep, now`, exact: true }).waitFor();
      await card.getByText('tetrahedron of 4 chlorides').waitFor();
      await card.getByText('octahedron of 6 waters').waitFor();
      expect(await card.textContent()).not.toMatch(/\d\s*(M|mol|%|cm of bed)/);
      expect(await axeViolations(page)).toEqual([]);
      await page.keyboard.press('Escape');
      await card.getByRole('heading').waitFor({ state: 'hidden' });
      await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('figure');
      const bed = await page.locator('bf-glass .hand').boundingBox();
      const place = await page.locator('bf-figure svg.plot .depth .frame').boundingBox();
      if (!bed || !place) throw new Error('bench: expected glass and figure, received none');
      await page.mouse.click(place.x + 4, place.y + place.height / 2);
      await card.getByText('Between the beads there:').waitFor();
      await card.getByText(/cm of bed a minute|Nothing flows/).waitFor();
      await card.getByText(/A bead without Co²⁺: were it here, \d+ of 100 ions would be in it/).waitFor();
      expect(await axeViolations(page)).toEqual([]);
      expect(await kept(page)).toEqual(before);
      await card.getByRole('button', { name: 'Close the explanation' }).click();
      await card.getByRole('heading').waitFor({ state: 'hidden' });
      await close();
    },
    LONG,
  );
});

async function conditioned(page: Page): Promise<void> {
  await page.keyboard.press('n');
  await expect.poll(async () => (await kept(page)).now_min, { timeout: PATIENCE_MS }).toBeGreaterThan(1);
  await still(page);
  const offer = page.locator('bf-say-line').getByRole('button', { name: 'Read' });
  if (await offer.isVisible()) await offer.click();
  await page.getByRole('button', { name: 'Hide', exact: true }).click();
}

async function opening(page: Page): Promise<number | undefined> {
  const clamp = (await kept(page)).log.findLast((action) => action.do === 'clamp');
  return clamp?.do === 'clamp' ? clamp.open_percent : undefined;
}

async function acts(page: Page, last: string): Promise<void> {
  await expect.poll(async () => (await kept(page)).log.at(-1)?.do, { timeout: PATIENCE_MS }).toBe(last);
}

async function middle(thing: Locator): Promise<[x: number, y: number]> {
  const box = await thing.boundingBox();
  if (!box) throw new Error('control: expected on the page, received none');
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Names of the visible controls whose middle something else lies on. */
async function covered(controls: Locator): Promise<string[]> {
  return controls.evaluateAll((all) =>
    all
      .filter((control) => (control as HTMLElement).offsetParent !== null)
      .filter((control) => {
        const { x, y, width, height } = control.getBoundingClientRect();
        let top = document.elementFromPoint(x + width / 2, y + height / 2);
        while (top?.shadowRoot?.elementFromPoint(x + width / 2, y + height / 2) && top !== top.shadowRoot.elementFromPoint(x + width / 2, y + height / 2))
          top = top.shadowRoot.elementFromPoint(x + width / 2, y + height / 2);
        return top !== control && !control.contains(top);
      })
      .map((control) => control.textContent ?? ''),
  );
}
