import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { kept, PATIENCE_MS, ready, withForecast, wholeProcedure } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// Real threads that hang, end or fail: noticed within seconds, said, and begun anew from the log.

const WAIT = { timeout: PATIENCE_MS };
const LONG = 300_000;
/** A lost thread is noticed within seconds. */
const NOTICED_MS = 15_000;
const MOVES = 40;
const SAID = /The model stopped \(.*\) and was restarted/;
/** What may become of a thread: how, and a script that does it. */
const LOST: readonly [string, string][] = [
  ['runs in a circle', 'self.onmessage = () => { for (;;); }'],
  ['fails', `self.onmessage = () => { throw new Error('out of memory'); }`],
  ['ends without a word', 'self.onmessage = () => self.close()'],
];
/** Keeps the threads of the page within reach. */
const REMEMBER = `{
  const Plain = Worker;
  globalThis.threads = [];
  globalThis.Worker = class extends Plain {
    constructor(...given) {
      super(...given);
      globalThis.threads.push(this);
    }
  };
}`;

let session: Session;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  session = await launch({ webgl: false });
});

afterAll(async () => {
  await session.close();
});

beforeEach(async () => {
  context = await session.browser.newContext({ serviceWorkers: 'block', reducedMotion: 'reduce' });
  await context.addInitScript(REMEMBER);
  page = await context.newPage();
});

afterEach(async () => {
  await context.close();
});

/** The first thread of that name is another script; the next ones are as built. */
async function firstIs(name: string, script: string): Promise<void> {
  let first = true;
  await context.route(new RegExp(`assets/${name}-[^/]*\\.js`), (route) => {
    if (!first) return route.continue();
    first = false;
    return route.fulfill({ contentType: 'text/javascript', body: script });
  });
}

describe('the thread of the model', () => {
  test.each(LOST)(
    'that %s is replaced, and the bench comes',
    async (_, script) => {
      await firstIs('column-worker', script);
      await page.goto(session.base);
      await page.getByText(SAID).waitFor(WAIT);
      await ready(page);
    },
    LONG,
  );

  test(
    'that is ended in the middle of a run is begun anew from the log, and what was asked is done',
    async () => {
      await page.goto(session.base);
      await ready(page);
      await page.keyboard.press('n');
      await expect.poll(async () => (await kept(page)).log.length, WAIT).toBeGreaterThan(0);
      const before = await kept(page);
      await page.evaluate('for (const thread of globalThis.threads) thread.terminate()');
      // A key pressed while the last answer is still being drawn does nothing, and then nothing is asked of the lost thread.
      const asked = async () => {
        await page.keyboard.press('n');
        return page
          .getByText(SAID)
          .waitFor({ timeout: NOTICED_MS })
          .then(
            () => true,
            () => false,
          );
      };
      await expect.poll(asked, WAIT).toBe(true);
      await expect.poll(async () => (await kept(page)).log.length, WAIT).toBeGreaterThan(before.log.length);
      expect((await kept(page)).log.slice(0, before.log.length)).toEqual(before.log);
      // It is still there to be read after the action that was begun anew.
      expect(await page.getByText(SAID).isVisible()).toBe(true);
    },
    LONG,
  );
});

describe('the thread of the search for a sequence', () => {
  test.each(LOST)(
    'that %s is begun once more, it is said, and the search goes on',
    async (_, script) => {
      await firstIs('sequence-worker', script);
      await page.goto(`${session.base}#why`);
      await page.getByRole('button', { name: 'Find a sequence' }).click(WAIT);
      await page.getByText(/The search stopped \(.*\) and was started again/).waitFor(WAIT);
      await page.getByRole('table', { name: /found in \d+ trials/ }).waitFor(WAIT);
    },
    LONG,
  );
});

describe('the thread of the causes', () => {
  test.each(LOST)(
    'that %s is begun once more, it is said, and the causes come',
    async (_, script) => {
      await firstIs('loss-worker', script);
      await page.goto(session.base);
      await ready(page);
      await wholeProcedure(page);
      await page.getByRole('button', { name: 'Debrief' }).click(WAIT);
      await page.getByRole('button', { name: 'Work out the causes' }).click(WAIT);
      await page.getByText(/The working out stopped \(.*\) and was started again/).waitFor(WAIT);
      await page.getByRole('button', { name: 'Work it out again' }).waitFor(WAIT);
    },
    LONG,
  );
});

test(
  'a handle dragged far over the real model leaves at most two answers to wait for, and the last is exact',
  async () => {
    await page.goto(session.base);
    await ready(page);
    await wholeProcedure(page);
    await withForecast(page);
    await page.evaluate(`{
      globalThis.asked = [];
      const post = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (message, ...more) {
        if (message.do === 'plan' || message.do === 'rough') globalThis.asked.push([message.do, performance.now()]);
        return post.call(this, message, ...more);
      };
    }`);
    // By keys, for cautions lie over the handle; each press is a move as a hand makes it.
    const handle = page.getByRole('slider', { name: 'water poured' });
    await handle.focus();
    for (let i = 0; i < MOVES; i++) await page.keyboard.press('ArrowRight');
    const last = await page.evaluate<number>('performance.now()');
    await page.getByText('rough: along one lane').waitFor({ ...WAIT, state: 'detached' });
    await page.waitForTimeout(500);
    const asked = await page.evaluate<[string, number][]>('globalThis.asked');
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.length).toBeLessThanOrEqual(2 * MOVES);
    expect(asked.filter(([, at]) => at > last).length).toBeLessThanOrEqual(2);
    expect(asked.at(-1)?.[0]).toBe('plan');
    await page.keyboard.press('Escape');
  },
  LONG,
);
