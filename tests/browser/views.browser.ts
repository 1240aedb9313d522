import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { resultsOf } from '../../sim/run/results.ts';
import { advance, runOf } from '../../sim/run/run.ts';
import { axeViolations } from './axe.ts';
import { PATIENCE_MS, ready, scenario, withoutCoach, withForecast } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// Every view shows the present state when it is entered. In one page that is never loaded again, something is changed in each
// view, and every other view is entered to see whether it shows it.

const PASS_TIME_MS = 300_000;
/** The model has answered by then, on a busy machine too. */
const SOON_MS = 15_000;
const VIEWS = ['bench', 'why', 'faults', 'workup', 'notebook', 'plan', 'lab'] as const;
type View = (typeof VIEWS)[number];

/** What a view says: its text, what its fields hold, and the words and lines of its drawings, through all shadow roots. */
const WORDS = `(name) => {
  const found = [];
  const visit = (node) => {
    if (node.nodeName === 'STYLE') return;
    if (node.nodeType === 3) found.push(node.data.trim());
    if (node.nodeType === 1) found.push(node.value ?? '', node.getAttribute('aria-label') ?? '', node.getAttribute('d') ?? '');
    if (node.shadowRoot) visit(node.shadowRoot);
    node.childNodes.forEach(visit);
  };
  const view = document.querySelector('bf-app').shadowRoot.querySelector('bf-' + name);
  if (view) visit(view);
  return found.filter((text) => text !== '').join(' ');
}`;

interface Change {
  readonly what: string;
  readonly from: View;
  readonly make: (page: Page) => Promise<void>;
  /** What the others say from then on. */
  readonly shows: Readonly<Partial<Record<View, RegExp>>>;
  /** Views that rightly stay as they were. */
  readonly same?: readonly View[];
}

/** The beaker after the whole procedure, by the runner, as the work-up writes it. */
const COBALT_BEAKER = new RegExp(`cobalt , ${cobaltVolume().toFixed(1).replace('.', '\\.')}`);

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });

const CHANGES: readonly Change[] = [
  {
    what: 'the procedure played to its end',
    from: 'bench',
    make: async (page) => {
      await button(page, 'More').click();
      await button(page, 'Play the procedure').click();
      await button(page, 'Jump there').click();
      await page.getByText('The run is over').waitFor();
    },
    shows: {
      why: /Play the front passing/,
      faults: /min.*\b[1-9]\d*\.\d\s?mL delivered/,
      workup: COBALT_BEAKER,
      notebook: /receiver “cobalt” holds/,
      plan: /Column times are those of the run on the bench/,
      lab: /On the bench now: .* [1-9][\d.]*\s?mL delivered/,
    },
  },
  {
    what: 'an aliquot titrated and kept, and the next column begun',
    from: 'workup',
    make: async (page) => {
      await page.locator('bf-receiver-taken select').selectOption('cobalt');
      await button(page, 'Do all remaining steps').click();
      await button(page, 'Keep the result of this aliquot').click();
      await button(page, 'Next aliquot, by hand').click();
    },
    shows: {
      bench: /delivered 0\.0/,
      why: /Nothing has been poured yet/,
      faults: /\b0\.0\s?mL delivered/,
      notebook: /column\s\d+ .*One aliquot is kept/,
      plan: /Column times are those of the procedure of the scenario/,
      lab: /On the bench now: .* nothing done yet/,
    },
  },
  {
    what: 'the procedure of the lesson, and a moment of it',
    from: 'why',
    make: async (page) => {
      await button(page, 'Run the procedure of this lesson').click();
      await button(page, /Play the front passing/).click();
      await button(page, 'Pause').click();
    },
    shows: {
      bench: /delivered [1-9]/,
      faults: /\b[1-9]\d*\.\d\s?mL delivered/,
      workup: /choose one/,
      notebook: /receiver “nickel” holds/,
      plan: /Column times are those of the procedure of the scenario/,
    },
    // Until a run is over the plan goes by the procedure.
    same: ['plan'],
  },
  {
    what: 'a channel imposed before the run, and its end looked at',
    from: 'faults',
    make: async (page) => {
      await page
        .locator('bf-fault-board summary')
        .filter({ hasText: /^\s*channel\s*$/ })
        .click();
      await button(page, 'Impose before the run').click();
      await button(page, 'Remove channel').waitFor();
      await page.getByRole('slider', { name: 'time' }).press('End');
    },
    shows: {
      bench: /The run is over/,
      workup: COBALT_BEAKER,
      notebook: /receiver “cobalt” holds/,
    },
  },
  {
    what: 'a demonstration opened',
    from: 'notebook',
    // The header with its menu stands above every view, and so does the line that offers the way back.
    make: async (page) => {
      await page.locator('bf-scenario-choice select').selectOption('demo-channel');
      await button(page, 'Back to that run').waitFor();
    },
    shows: {
      bench: /delivered 0\.0/,
      why: /Nothing has been poured yet/,
      faults: /Imposed on this run.*Remove channel/,
      workup: /Nothing has run out of the column yet/,
      plan: /of the scenario/,
      lab: /On the bench now: .*channel.*nothing done yet/i,
    },
  },
  {
    what: 'the run before it taken up again',
    from: 'plan',
    make: (page) => button(page, 'Back to that run').click(),
    shows: {
      bench: /The run is over/,
      why: /Now, at/,
      faults: /\b[1-9]\d*\.\d\s?mL delivered/,
      workup: COBALT_BEAKER,
      notebook: /receiver “cobalt” holds/,
    },
  },
  {
    what: 'a lab put on the bench',
    from: 'lab',
    make: async (page) => {
      const length = page.getByRole('textbox', { name: 'bed length', exact: true });
      await length.fill('9');
      await length.press('Enter');
      await button(page, 'Use on the bench').click();
      await page.locator('bf-bench').waitFor();
    },
    shows: {
      bench: /delivered 0\.0/,
      why: /Nothing has been poured yet/,
      faults: /\b0\.0\s?mL delivered/,
      workup: /Nothing has run out of the column yet/,
      plan: /Column times are those of the procedure of the scenario/,
    },
  },
];

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

const words = (page: Page, view: View): Promise<string> => page.evaluate<string>(`(${WORDS})('${view}')`);

function cobaltVolume(): number {
  const run = runOf(scenario(), scenario().procedure);
  advance(run, { endOfLog: true });
  const beaker = resultsOf(run).receivers.find(({ label }) => label === 'cobalt');
  if (!beaker) throw new Error('cobalt: expected a receiver of the procedure, received none');
  return beaker.volume_mL;
}

async function enter(page: Page, view: View): Promise<void> {
  await page.evaluate(`location.hash = '#${view}'`);
  await page.locator(`bf-${view}`).waitFor();
  await expect.poll(() => words(page, view), { timeout: PATIENCE_MS }).not.toMatch(/^$|being (packed|opened|run)/);
}

test(
  'a change made in one view is shown by every other as it is entered, without a reload',
  async () => {
    const { page } = await session.openPage({ hash: '#bench' });
    page.setDefaultTimeout(PATIENCE_MS);
    await ready(page);
    await withoutCoach(page);
    // By eye the explanations tell nothing of the own bed.
    await withForecast(page);
    await page.evaluate('globalThis.loadedOnce = true');
    const before = new Map<View, string>();
    for (const view of VIEWS) {
      await enter(page, view);
      before.set(view, await words(page, view));
    }
    for (const { what, from, make, shows, same } of CHANGES) {
      await enter(page, from);
      await make(page);
      for (const view of VIEWS.filter((one) => one !== from)) {
        await enter(page, view);
        const message = `${what} (${from}), seen in ${view}`;
        if (!same?.includes(view)) await expect.poll(() => words(page, view), { message, timeout: SOON_MS }).not.toBe(before.get(view));
        await expect.poll(() => words(page, view), { message, timeout: SOON_MS }).toMatch(shows[view] ?? /./);
        before.set(view, await words(page, view));
      }
      await enter(page, from);
      before.set(from, await words(page, from));
    }
    expect(await page.evaluate('globalThis.loadedOnce')).toBe(true);
  },
  PASS_TIME_MS,
);

const SIZES = [
  { width: 1366, height: 768 },
  { width: 1280, height: 720 },
  { width: 390, height: 844 },
] as const;

test.each(SIZES.flatMap((viewport) => (['light', 'dark'] as const).map((colorScheme) => ({ ...viewport, colorScheme, viewport }))))(
  'axe finds nothing in any view at $width x $height, $colorScheme, with a run that was begun',
  async ({ viewport, colorScheme }) => {
    const { page, close } = await session.openPage({ viewport, colorScheme, touch: viewport.width < 500, column: 1, reducedMotion: 'reduce' });
    await ready(page);
    await page.keyboard.press('n');
    for (const view of [...VIEWS, 'class'] as const) {
      await page.evaluate(`location.hash = '#${view}'`);
      await page.locator(`bf-${view}`).waitFor();
      await page.locator('main[aria-busy="false"]').waitFor();
      expect(await axeViolations(page), view).toEqual([]);
    }
    await close();
  },
  PASS_TIME_MS,
);
