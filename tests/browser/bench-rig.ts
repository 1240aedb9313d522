import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { readScenario } from '../../sim/input/scenario.ts';
import { resultsOf } from '../../sim/run/results.ts';
import type { Results } from '../../sim/history/index.ts';
import { advance, runOf } from '../../sim/run/run.ts';
import type { Log, Scenario } from '../../sim/terms/types.ts';

// The bench as a person finds it: controls by their names, figures as they are written on the page.

const SCENARIO = join(import.meta.dirname, '..', '..', 'scenarios', 'cathode-leach.json');
/** A step of the model in the page may take this long on a busy machine, ms. */
export const PATIENCE_MS = 60_000;

export function scenario(): Scenario {
  const read = readScenario(JSON.parse(readFileSync(SCENARIO, 'utf8')), 'cathode-leach');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.scenario;
}

/** A run of the default scenario: on which column, what was done, how far it was played. */
interface Kept {
  readonly seed: number;
  readonly log: Log;
  readonly now_min: number;
}

/** What the page keeps in this browser. */
export async function kept(page: Page): Promise<Kept> {
  const text = await page.evaluate<string | null>(`localStorage.getItem('bandfall.run')`);
  // Written by the page under test.
  return (JSON.parse(text ?? '{}') as { run: Kept }).run;
}

/** The run of a log by itself, up to a time. */
export function headless({ seed, log, now_min }: Kept): Results {
  const run = runOf({ ...scenario(), seed }, log);
  advance(run, { time_min: now_min });
  return resultsOf(run);
}

export async function ready(page: Page): Promise<void> {
  await page.locator('bf-task li.now').first().waitFor({ timeout: PATIENCE_MS });
}

/** Opens what is one press away. */
export async function more(page: Page): Promise<Locator> {
  const dialog = page.getByRole('dialog', { name: 'More of the bench' });
  if (!(await dialog.isVisible())) await page.getByRole('button', { name: 'More', exact: true }).click();
  await dialog.waitFor();
  return dialog;
}

/** Opens the forecast, and with it every number. */
export async function withForecast(page: Page): Promise<void> {
  await page.getByRole('combobox', { name: 'How the run is seen' }).selectOption('forecast');
}

/** Rows of the table "Where it is", as written: place, then amounts. */
export async function whereItIs(page: Page): Promise<Record<string, string[]>> {
  const dialog = await more(page);
  const ask = page.locator('bf-now').getByRole('button', { name: 'Show the amounts' });
  if (await ask.isVisible()) await ask.click();
  const rows = await page.getByRole('table', { name: 'Where it is, mmol' }).getByRole('row').all();
  const cells = await Promise.all(
    rows.slice(1).map(async (row) => [await row.getByRole('rowheader').innerText(), await row.getByRole('cell').allInnerTexts()] as const),
  );
  await dialog.getByRole('button', { name: 'Close' }).click();
  return Object.fromEntries(cells);
}

/** What the page shows of the receivers is what the runner gives for the log that the page keeps. */
export async function expectSameAsHeadless(page: Page): Promise<Results> {
  const results = headless(await kept(page));
  const shown = await whereItIs(page);
  for (const receiver of results.receivers) {
    const [Co, Ni, HCl] = [Number(receiver['Co_mmol']).toFixed(3), Number(receiver['Ni_mmol']).toFixed(3), receiver.HCl_mmol.toFixed(1)];
    expect(shown[receiver.label]).toEqual([Co, Ni, HCl]);
  }
  expect(await reading(page, 'delivered')).toBe(`${results.delivered_mL.toFixed(1)}\u202fmL`);
  return results;
}

/** A number of the read-outs beside the task; they are there on a phone as well, though not in sight. */
export async function reading(page: Page, label: string): Promise<string> {
  return (await page.locator('bf-task dl > div', { hasText: label }).locator('dd').textContent()) ?? '';
}

/** The model has answered: playing has stopped and nothing moves. */
export async function still(page: Page): Promise<void> {
  await page.locator('bf-time button.play', { hasText: 'Play' }).waitFor({ timeout: PATIENCE_MS, state: 'attached' });
}

/** A choice of a group of radio buttons drawn as buttons; the words are the target, as for a finger. */
export function choice(page: Page, group: string, label: string): Locator {
  return page.getByRole('group', { name: group }).getByText(label, { exact: true });
}

/** Leaves the coach off, so that actions are taken at once. */
export async function withoutCoach(page: Page): Promise<void> {
  const dialog = await more(page);
  await choice(page, 'coach', 'off').click();
  await dialog.getByRole('button', { name: 'Close' }).click();
}

/** The whole procedure of the scenario, at once. */
export async function wholeProcedure(page: Page): Promise<void> {
  await more(page);
  await page.getByRole('button', { name: 'Play the procedure' }).click();
  await page.getByText('The run is over').waitFor({ timeout: PATIENCE_MS });
}
