import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { kept, PATIENCE_MS, ready } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// Two tabs on one storage: what is kept is the run of the tab that acted last, and that of the other is not gone.

const WAIT = { timeout: PATIENCE_MS };
const LONG = 200_000;

let session: Session;

beforeAll(async () => {
  session = await launch({ webgl: false });
});

afterAll(async () => {
  await session.close();
});

/** Does the step of the task in hand, and waits until the run is kept with it. */
async function act(page: Page): Promise<number> {
  const before = (await kept(page))?.log.length ?? 0;
  await page.bringToFront();
  await page.keyboard.press('n');
  await expect.poll(async () => (await kept(page)).log.length, WAIT).toBeGreaterThan(before);
  return (await kept(page)).log.length;
}

test(
  'an idle tab leaves the newer run of another, also when it is closed; a tab that acts later puts that run aside',
  async () => {
    const context = await session.browser.newContext({ serviceWorkers: 'block', reducedMotion: 'reduce' });
    const tab = async (): Promise<Page> => {
      const page = await context.newPage();
      await page.goto(session.base);
      await ready(page);
      return page;
    };
    const first = await tab();
    await act(first);
    const idle = await tab();
    const second = await tab();
    // Twice, since the same step of the same column would be the same run.
    await act(second);
    const taken = await act(second);
    const newer = await kept(second);
    expect(newer.log).toHaveLength(taken);
    await first.getByText('another tab now keeps its own run').waitFor(WAIT);

    await idle.close({ runBeforeUnload: true });
    await expect.poll(() => context.pages().length, WAIT).toBe(2);
    await first.evaluate(() => dispatchEvent(new PageTransitionEvent('pagehide')));
    expect((await kept(second)).log).toEqual(newer.log);

    await first.bringToFront();
    await first.keyboard.press('n');
    await expect.poll(async () => JSON.stringify(await kept(first)), WAIT).not.toBe(JSON.stringify(newer));
    await first.evaluate(() => dispatchEvent(new PageTransitionEvent('pagehide')));
    await first.getByRole('button', { name: 'Menu', exact: true }).click();
    await first.getByRole('button', { name: 'Back to the run before' }).click(WAIT);
    await expect.poll(async () => (await kept(first)).log, WAIT).toEqual(newer.log);
    await context.close();
  },
  LONG,
);
