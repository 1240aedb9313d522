import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { drawn } from '../../sim/column/drawn.ts';
import { sectionOf } from '../../sim/terms/geometry.ts';
import type { Scenario } from '../../sim/terms/types.ts';
import { choice, expectSameAsHeadless, kept, PATIENCE_MS, reading, ready, scenario, still } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

const LONG = 300_000;

describe('the default run', () => {
  let session: Session;
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());

  test.each([
    ['clicking', { width: 1280, height: 720 }, false],
    ['tapping on a phone', { width: 390, height: 844 }, true],
  ] as const)(
    'can be done by %s in at most twelve presses, and the page shows what the runner gives',
    async (_, viewport, touch) => {
      const opened = await session.openPage({ reducedMotion: 'reduce', viewport, touch });
      const { page } = opened;
      await ready(page);
      let presses = 0;
      const press = async (name: string | RegExp): Promise<void> => {
        const { log } = await kept(page);
        const button = page.locator('bf-task').getByRole('button', { name });
        await expectInView(page, button);
        await button.click();
        presses++;
        await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(log.length);
        await still(page);
      };
      for (const name of pressesOf(drawn({ ...scenario(), seed: (await kept(page)).seed }))) {
        // The wash ends sooner where the band nears the bottom.
        const washed = name.source.startsWith(WASH) && !(await page.locator('bf-task li.now', { hasText: 'Wash, at most' }).isVisible());
        if (!washed) await press(name);
      }
      expect(presses).toBeLessThanOrEqual(12);
      await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
      await expectSameAsHeadless(page);
      await page.getByRole('button', { name: 'Debrief', exact: true }).click();
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      await opened.close();
    },
    LONG,
  );

  test(
    'can be done by keyboard alone: one key does what is next, Ctrl Z takes it back',
    async () => {
      const opened = await session.openPage({ reducedMotion: 'reduce' });
      const { page } = opened;
      await ready(page);
      let before = -1;
      for (let presses = 0; presses < 12 && before < (await kept(page)).log.length; presses++) {
        before = (await kept(page)).log.length;
        await page.keyboard.press('n');
        await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(before);
        await still(page);
        if (await page.getByText('The run is over').isVisible()) break;
      }
      await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
      const { log } = await kept(page);
      await page.keyboard.press('Control+z');
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(log.length - 1);
      await page.keyboard.press('Control+y');
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBe(log.length);
      await page.keyboard.press('d');
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      await page.keyboard.press('d');
      await page.locator('bf-strip').waitFor();
      await opened.close();
    },
    LONG,
  );

  test(
    'can be poured, played and changed by single keys; Play says so while nothing can drip',
    async () => {
      const opened = await session.openPage({ reducedMotion: 'reduce' });
      const { page } = opened;
      await ready(page);
      await page.keyboard.press(' ');
      await page.getByRole('alert').getByText('The clamp is shut: nothing drips.').waitFor();
      await page.keyboard.press('p');
      await acts(page, 'pour');
      await page.keyboard.press('o');
      await acts(page, 'clamp');
      await page.keyboard.press(' ');
      await page.getByRole('button', { name: 'Pause' }).waitFor();
      await page.keyboard.press(' ');
      await still(page);
      await page.keyboard.press('r');
      await acts(page, 'receiver');
      await page.keyboard.press('?');
      await page.getByRole('dialog', { name: 'Keys' }).waitFor();
      await page.getByText('pour the chosen liquid').waitFor();
      await opened.close();
    },
    LONG,
  );
  test(
    'goes on after the clamp was shut to think with water on the column, and ends only where that is pressed',
    async () => {
      const { page, close } = await session.openPage({ column: 1, viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' });
      await ready(page);
      for (const name of [/^Open, pour/, /^Pour.*sample/, /^Pour/, /^Pour/, /^Pour/, /^Pour.*water/]) {
        const { log } = await kept(page);
        await page.locator('bf-task li.now').getByRole('button', { name }).click();
        await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(log.length);
        await still(page);
      }
      await page.getByRole('button', { name: 'Hide', exact: true }).click({ timeout: PATIENCE_MS });
      await page.keyboard.press('o');
      await page.getByText('The clamp is shut, and the run waits').waitFor({ timeout: PATIENCE_MS });
      expect(await page.getByText('The run is over').count()).toBe(0);
      await page.keyboard.press('o');
      await page.getByText('The clamp is shut, and the run waits').waitFor({ state: 'hidden', timeout: PATIENCE_MS });
      await choice(page, 'clamp', 'shut').click();
      const end = page.locator('bf-task').getByRole('button', { name: 'End the run here' });
      await end.waitFor({ timeout: PATIENCE_MS });
      expect(await page.getByText('The run is over').count()).toBe(0);
      await end.click();
      await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
      await close();
    },
    LONG,
  );

  test(
    'takes a press of the list at once while a run by hand merely plays and its liquid sinks into the bed',
    async () => {
      const { page, close } = await session.openPage({ column: 1, viewport: { width: 1280, height: 720 } });
      await ready(page);
      await page.keyboard.press('p');
      await acts(page, 'pour');
      await page.keyboard.press('o');
      await acts(page, 'clamp');
      const speed = page.getByRole('combobox', { name: 'speed' });
      await speed.selectOption('20');
      await page.keyboard.press(' ');
      await expect.poll(() => reading(page, 'above the bed'), { timeout: PATIENCE_MS }).toMatch(/^1?\d\smm$/);
      // At full speed air would come in before the press, and the bed would have to be mended first.
      await speed.selectOption('1');
      await expect.poll(() => reading(page, 'above the bed'), { timeout: PATIENCE_MS, interval: 100 }).toMatch(/^1\smm$/);
      expect(await page.getByRole('button', { name: 'Pause' }).isVisible()).toBe(true);
      const { log } = await kept(page);
      await page.getByRole('button', { name: /pour\s20\smL 9\sM\sHCl in 3 portions$/i }).click({ timeout: 5000 });
      await expect.poll(async () => (await kept(page)).log.length, { timeout: PATIENCE_MS }).toBeGreaterThan(log.length);
      // What is on its way now is told so instead of being poured twice.
      await page.keyboard.press('n');
      await page.getByText('That is on its way.').waitFor();
      await close();
    },
    LONG,
  );
});

/**
 * What the buttons of a run by hand are called, in turn: the bed conditioned in one press and the sample washed in with its own, the wash
 * in as few equal portions as the tube takes above the bed, or less, a tube full of water, the beaker changed, and the rest of the water likewise.
 */
function pressesOf({ values, procedure }: Scenario): RegExp[] {
  const low_cm = 0.1;
  const room_mL = Math.floor(sectionOf(values) * (values['column.tube_cm'] - values['bed.length_cm'] - low_cm) * 10) / 10;
  const poured = procedure.filter((action) => action.do === 'pour');
  const loaded = poured.findIndex(({ liquid }) => liquid === 'sample');
  const sample_mL = poured[loaded].volume_mL;
  const first = poured.findIndex(({ volume_mL }, i) => i > loaded && volume_mL > sample_mL);
  const rinses = poured.slice(loaded + 1, first);
  const total = (pours: typeof poured, of: string) => pours.reduce((sum, { liquid, volume_mL }) => sum + (liquid === of ? volume_mL : 0), 0);
  const conditioning_mL = total(poured.slice(0, loaded), 'acid');
  const water_mL = total(poured, 'water');
  const later = evenly(water_mL - room_mL, room_mL);
  return [
    named(`Open, pour ${written(conditioning_mL)} 9 M HCl in ${Math.ceil(conditioning_mL / room_mL)} portions`),
    named(`Pour ${written(sample_mL)} sample, then ${rinses.length} rinses, ${written(total(rinses, 'acid'))} 9 M HCl in all; each run to 1 mm`),
    ...evenly(total(poured.slice(first), 'acid'), room_mL).map((volume_mL, i) =>
      i === 0 ? named(`Pour ${written(volume_mL)} 9 M HCl, run to 1 mm`) : noMoreThan(volume_mL),
    ),
    named(`Pour ${written(room_mL)} water, run 1.5 mL`),
    named('Put “cobalt” under the tip'),
    ...later.map((volume_mL, i) => named(`${i === 0 ? 'At 1 mm pour' : 'Pour'} ${written(volume_mL)} water, run to 1 mm`)),
    named('Shut the clamp: the run ends'),
  ];
}

/** Names of the presses of a wash begin so. */
const WASH = '^Pour(?=';

/** A further portion of the wash: the even one, or less where the band nears the bottom. */
function noMoreThan(most_mL: number): RegExp {
  const volumes = Array.from({ length: Math.round(10 * most_mL) }, (_, tenths) => written((tenths + 1) / 10));
  return new RegExp(
    `${WASH}\\s)\\s(?:${volumes.map((one) => one.replaceAll('.', '\\.').replaceAll(' ', '\\s')).join('|')})\\s9\\sM\\sHCl,\\srun\\sto\\s1\\smm$`,
  );
}

/** A volume in as few portions as the tube takes, in whole tenths of a mL, each an even share of what is still left. */
function evenly(volume_mL: number, room_mL: number): number[] {
  const count = Math.ceil(volume_mL / room_mL - 1e-9);
  if (count <= 1) return [volume_mL];
  const each = Math.ceil((volume_mL / count) * 10 - 1e-6) / 10;
  return [each, ...evenly(volume_mL - each, room_mL)];
}

function written(volume_mL: number): string {
  return `${volume_mL.toFixed(1).replace(/\.0$/, '')} mL`;
}

/** A name of a button, whichever space stands before its units. */
function named(text: string): RegExp {
  return new RegExp(`^${text.replaceAll('.', '\\.').replaceAll(' ', '\\s')}$`);
}

async function expectInView(page: Page, button: Locator): Promise<void> {
  const box = await button.boundingBox();
  const { height = 0 } = page.viewportSize() ?? {};
  if (!box) throw new Error('button: expected on the page, received none');
  expect(box.y).toBeGreaterThanOrEqual(0);
  expect(box.y + box.height).toBeLessThanOrEqual(height);
}

async function acts(page: Page, last: string): Promise<void> {
  await expect.poll(async () => (await kept(page)).log.at(-1)?.do, { timeout: PATIENCE_MS }).toBe(last);
}
