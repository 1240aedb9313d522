import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { runWhole } from '../../sim/run/run.ts';
import type { WorkUpReport } from '../../sim/report/report.ts';
import { workUpOf } from '../../src/headless/workup.ts';
import { axeViolations } from './axe.ts';
import { PATIENCE_MS, scenario } from './bench-rig.ts';
import { launch, PHONE, type Session } from './session.ts';

// From the unknown to a reported molarity with its uncertainty, three times, as a learner goes.

const PATH_TIME_MS = 400_000;

let session: Session;
beforeAll(async () => {
  session = await launch({ webgl: false });
});
afterAll(() => session?.close());

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });

/** What the runner makes of the same run on the column of another seed. */
function runner(seed: number): WorkUpReport {
  const worked = workUpOf(runWhole({ ...scenario(), seed }), 'cobalt', undefined);
  if (!worked.ok) throw new Error(JSON.stringify(worked.issues));
  return worked.workups.workup;
}

async function openWorkUp(page: Page): Promise<void> {
  await button(page, /written procedure run to its end/).click({ timeout: PATIENCE_MS });
  await page.getByRole('heading', { name: 'Add to the flask' }).waitFor({ timeout: PATIENCE_MS });
}

async function titres(page: Page): Promise<string[][]> {
  const rows = await page.getByRole('table', { name: 'Burette and meter' }).getByRole('row').all();
  return Promise.all(rows.slice(1).map((row) => row.getByRole('cell').allInnerTexts()));
}

describe('the way from the unknown to a molarity', () => {
  test(
    'leads over three columns to a mean with its interval, by the figures of the runner',
    async () => {
      const opened = await session.openPage({ hash: '#workup', column: 1 });
      const { page } = opened;
      await openWorkUp(page);

      await page.getByLabel(/how much 6.0 mol\/L NaOH/).fill('0,5');
      await page.keyboard.press('Enter');
      await page.getByText(/Had this receiver been put under the tip 4 mL earlier/).waitFor();
      expect(await page.getByText(/You expect/).innerText()).toContain(`holds ${runner(1).receiver.HCl_mmol.toFixed(1)}`);

      for (let i = 0; i < 8; i++) await button(page, 'Do the next usual step').click();
      await page.getByText('eluate: clear, blue').waitFor();
      await button(page, 'Do all remaining steps').click();
      await page.getByText('eluate: clear, pale pink').waitFor({ timeout: PATIENCE_MS });

      for (const seed of [1, 2, 3]) {
        if (seed > 1) {
          await button(page, 'Next aliquot, handled the same').click();
          await page
            .locator('bf-workup .said', { hasText: /^The next aliquot was run over column\s\d+ .*: “cobalt” holds \d+\.\d\smL\. Work it up here\.$/ })
            .waitFor({ timeout: PATIENCE_MS });
          await page.getByText(/eluate: clear, (pale )?pink/).waitFor({ timeout: PATIENCE_MS });
          await button(page, 'Do all remaining steps').click();
        }
        await button(page, 'Keep the result of this aliquot').click({ timeout: PATIENCE_MS });
        const expected = runner(seed).titrations.map(({ titre }) => [titre.initial_mL.toFixed(2), titre.final_mL.toFixed(2)]);
        expect(
          (await titres(page)).map((cells) => cells.slice(0, 2)),
          `seed ${seed}`,
        ).toEqual(expected);
      }

      await page.getByRole('link', { name: 'Notebook', exact: true }).click();
      await button(page, 'Show them without').click({ timeout: PATIENCE_MS });
      const found = [1, 2, 3].map((seed) => runner(seed).cobalt?.found_M ?? Number.NaN);
      const mean = found.reduce((sum, value) => sum + value, 0) / 3;
      const s = Math.sqrt(found.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 2);
      // t for 95 %, two degrees of freedom: 4.303, read in a table of t.
      const report = await page.getByText(/n = 3, 95 % confidence/).innerText();
      const [, shown, half] = /^(\S+) ± (\S+) mol\/L/.exec(report) ?? [];
      expect(Math.abs(Number(shown) - mean)).toBeLessThan(6e-5);
      expect(Math.abs(Number(half) / ((4.303 * s) / Math.sqrt(3)) - 1)).toBeLessThan(0.05);
      await page.getByText(/Grubbs G/).waitFor();
      await opened.close();
    },
    PATH_TIME_MS,
  );

  test(
    'shows what an earlier receiver and nickel in the bed do to the number',
    async () => {
      const opened = await session.openPage({ hash: '#workup', column: 1 });
      const { page } = opened;
      await openWorkUp(page);
      await button(page, 'Do all remaining steps').click();
      const table = page.getByRole('table', { name: 'Results of both' });
      const ask = button(page, 'Show the amounts');
      await ask.waitFor({ timeout: PATIENCE_MS });
      expect(await table.count(), 'amounts would give the result away').toBe(0);
      await ask.click();
      await table.waitFor({ timeout: PATIENCE_MS });
      const cells = async (row: number): Promise<number[]> => (await table.getByRole('row').nth(row).getByRole('cell').allInnerTexts()).map(Number);
      const [asItWas, earlier] = [await cells(1), await cells(2)];
      // 4 mL of 9 mol/L acid are 36 mmol.
      expect((earlier[0] ?? 0) - (asItWas[0] ?? 0)).toBeGreaterThan(34);
      const nickel = page.getByLabel('nickel left in the bed, of what was loaded', { exact: true });
      await nickel.fill('5');
      await nickel.press('Tab');
      await page.getByText(/Nickel reacts with EDTA as cobalt does/).waitFor({ timeout: PATIENCE_MS });
      expect((await cells(2))[5] ?? 0).toBeGreaterThan(earlier[5] ?? Number.POSITIVE_INFINITY);
      await opened.close();
    },
    PATH_TIME_MS,
  );

  test(
    'refuses what must not be done, at the control, with its hazard; undo and keys work',
    async () => {
      const opened = await session.openPage({ hash: '#workup', column: 1 });
      const { page } = opened;
      await openWorkUp(page);
      const reagent = (name: string) => page.getByRole('radio', { name, exact: true });
      await reagent('EDTA').check({ force: true });
      await page.getByText('amount of 0.01 mol/L EDTA').waitFor();
      await button(page, 'Add').click();
      await page
        .locator('bf-dispense')
        .getByText(/Refused: without thiocyanate no end point would be seen/)
        .waitFor();
      for (let i = 0; i < 7; i++) await page.keyboard.press('n');
      await page.getByText('3.00\u202fg of ammonium thiocyanate', { exact: true }).first().waitFor();
      await reagent('acetic acid').check({ force: true });
      await button(page, 'Add').click();
      await page
        .locator('bf-dispense')
        .getByText(/Refused: thiocyanate is in the flask/)
        .waitFor();
      expect(await page.getByRole('group', { name: /Keep thiocyanate away from acid/ }).count()).toBe(1);
      await page.keyboard.press('z');
      await page.getByText(/Usually next: .*ammonium thiocyanate, 3.00/).waitFor();

      const expected = page.getByLabel(/how much 6.0 mol\/L NaOH/);
      await expected.fill('half a cup');
      await expected.press('Enter');
      await page.getByText(/“half a cup” was not understood/).waitFor();
      await opened.close();
    },
    PATH_TIME_MS,
  );

  test(
    'is kept when the page is closed, and names the first wrong step of a calculation',
    async () => {
      const opened = await session.openPage({ hash: '#workup', column: 1 });
      const { page } = opened;
      await openWorkUp(page);
      await button(page, 'Do all remaining steps').click();
      await button(page, 'Keep the result of this aliquot').waitFor({ timeout: PATIENCE_MS });
      const before = await titres(page);
      await page.reload();
      await page.getByRole('table', { name: 'Burette and meter' }).waitFor({ timeout: PATIENCE_MS });
      expect(await titres(page)).toEqual(before);
      await page.getByRole('link', { name: 'Calculate the molarity in the notebook' }).click();
      const titre = Number(before.at(-1)?.[1]) - Number(before.at(-1)?.[0]);
      const type = async (label: string, text: string) => {
        await page.getByLabel(label, { exact: true }).fill(text);
        await page.getByLabel(label, { exact: true }).press('Tab');
      };
      await type('titrant used, mL', `${titre.toFixed(2).replace('.', ',')} mL`);
      await type('EDTA used, mmol', (titre * 0.01).toPrecision(4));
      await type('cobalt in the portion, mmol', (titre * 0.01).toPrecision(4));
      await type('cobalt in the whole flask, mmol', (titre * 0.01 * runner(1).flask_mL).toPrecision(4));
      await page.getByText('First to look at: cobalt in the whole flask.').waitFor();
      await page.getByText(/not by the flask volume alone/).waitFor();
      // Right or wrong: with a molarity of one's own what would give it away is open.
      await type('cobalt in the unknown, mol/L', '0.2');
      await page.evaluate(`location.hash = '#workup'`);
      await page.getByRole('table', { name: 'Results of both' }).waitFor({ timeout: PATIENCE_MS });
      await opened.close();
    },
    PATH_TIME_MS,
  );
});

describe.each([
  { name: 'a laptop, dark', options: { viewport: { width: 1280, height: 720 }, colorScheme: 'dark' as const } },
  { name: 'a telephone', options: { viewport: PHONE, touch: true } },
])('on $name', ({ options }) => {
  test(
    'work-up, notebook and plan have nothing that axe finds and nothing that sticks out',
    async () => {
      const opened = await session.openPage({ ...options, hash: '#workup', column: 1 });
      const { page } = opened;
      await openWorkUp(page);
      await button(page, 'Do all remaining steps').click();
      await button(page, 'Keep the result of this aliquot').click({ timeout: PATIENCE_MS });
      for (const [view, heading] of [
        ['workup', 'Work-up'],
        ['notebook', 'Notebook'],
        ['plan', 'Plan'],
      ]) {
        await page.evaluate(`location.hash = '#${view}'`);
        await page.getByRole('heading', { name: heading, exact: true }).waitFor({ timeout: PATIENCE_MS });
        expect(await axeViolations(page), view).toEqual([]);
        expect(await page.evaluate('document.documentElement.scrollWidth'), view).toBe(options.viewport.width);
      }
      await opened.close();
    },
    PATH_TIME_MS,
  );
});
