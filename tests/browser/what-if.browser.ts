import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeViolations } from './axe.ts';
import { kept, PATIENCE_MS, ready, wholeProcedure } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// After the end the handles are free: what would have been is shown beside the reader's own run, which comes back when the debrief is left.

/** Notes, frame by frame, what the bench says of the end of the run. */
const NOTE_ENDS = `{
  const within = (root, name) => root?.querySelector(name)?.shadowRoot;
  window.ends = new Set();
  const look = () => {
    const ended = within(within(within(document, 'bf-app'), 'bf-bench'), 'bf-ended');
    if (ended) window.ends.add(ended.querySelector('.over > span').textContent.trim());
    requestAnimationFrame(look);
  };
  look();
}`;
const ENDS = '[...window.ends]';

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

test.each([
  ['a laptop', { width: 1280, height: 720 }, false],
  ['a phone', { width: 390, height: 844 }, true],
] as const)(
  'a handle moved in the debrief shows what would have been beside the own run, and leaving brings that back, on %s',
  async (_, viewport, touch) => {
    const { page, close } = await session.openPage({ column: 1, reducedMotion: 'reduce', viewport, touch });
    page.setDefaultTimeout(PATIENCE_MS);
    await ready(page);
    await wholeProcedure(page);
    const { log, now_min } = await kept(page);
    const ended = (await page.locator('bf-ended .over > span').textContent())?.trim();
    await page.getByRole('button', { name: 'Debrief', exact: true }).click();
    await page.getByRole('heading', { name: 'Debrief' }).waitFor();
    const own = (await page.locator('bf-debrief .lesson').innerText()).trim();
    const handle = page.getByRole('slider', { name: 'receiver cobalt put under the tip' });
    const at_mL = Number(await handle.getAttribute('aria-valuenow'));
    await handle.focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Enter');
    await expect.poll(async () => JSON.stringify((await kept(page)).log)).not.toBe(JSON.stringify(log));
    const lines = page.locator('bf-debrief .lesson');
    await expect.poll(() => lines.count()).toBe(2);
    const [tried, mine] = await lines.allInnerTexts();
    expect(mine.trim()).toBe(`Your run: ${own}`);
    expect(tried).toMatch(/^What if: \d/);
    expect(tried).not.toContain(own);
    await expect.poll(async () => Number(await handle.getAttribute('aria-valuenow'))).toBeCloseTo(at_mL + 4, 0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Back to my own run' }).click();
    expect(await lines.allInnerTexts()).toEqual([own]);
    await expect.poll(async () => (await kept(page)).log).toEqual(log);
    expect(Number(await handle.getAttribute('aria-valuenow'))).toBeCloseTo(at_mL, 3);

    await handle.focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Enter');
    await expect.poll(async () => JSON.stringify((await kept(page)).log)).not.toBe(JSON.stringify(log));
    await page.getByText('What if:').waitFor();
    await page.evaluate(NOTE_ENDS);
    await page.getByRole('button', { name: 'Back to the bench' }).click();
    await page.locator('bf-ended').waitFor();
    await expect.poll(async () => (await kept(page)).log).toEqual(log);
    expect(await page.evaluate(ENDS)).toEqual([ended]);
    expect((await kept(page)).now_min).toBe(now_min);
    await close();
  },
  300_000,
);

test('a handle let go on the bench after the end is a what-if too: the debrief shows it beside the own run, which is back in every view afterwards', async () => {
  const { page, close } = await session.openPage({ column: 1, reducedMotion: 'reduce', viewport: { width: 1280, height: 720 } });
  page.setDefaultTimeout(PATIENCE_MS);
  await ready(page);
  await wholeProcedure(page);
  const { log } = await kept(page);
  const handle = page.getByRole('slider', { name: 'receiver cobalt put under the tip' });
  await handle.focus();
  for (let i = 0; i < 4; i++) await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Enter');
  await page.getByText('What if:').waitFor();
  await page.getByText('Your run:').waitFor();
  await expect.poll(async () => JSON.stringify((await kept(page)).log)).not.toBe(JSON.stringify(log));
  await page.evaluate(`location.hash = '#notebook'`);
  await page.locator('bf-notebook').waitFor();
  await expect.poll(async () => (await kept(page)).log).toEqual(log);
  await close();
}, 300_000);
