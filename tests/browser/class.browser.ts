import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type HandedIn, handedInText, takenIn } from '../../sim/handed/index.ts';
import { readScenario } from '../../sim/input/scenario.ts';
import { resultsOf } from '../../sim/run/results.ts';
import { runWhole } from '../../sim/run/run.ts';
import json from '../../scenarios/cathode-leach.json';
import { axeViolations } from './axe.ts';
import { PATIENCE_MS } from './bench-rig.ts';
import { launch, type Session } from './session.ts';

// A class hands in thirty runs, three of them damaged and two altered, and an instructor takes them in.

const TIME_MS = 300_000;
const RUNS = 30;
/** What was done to whose file. */
const DAMAGED: Readonly<Record<number, (text: string) => string>> = {
  4: (text) => text.slice(0, text.length / 2),
  11: () => '',
  19: (text) => text.replace('"pour"', '"poor"'),
};
const ALTERED: Readonly<Record<number, (text: string) => string>> = {
  7: (text) => text.replace('"who": "code 7"', '"who": "code 70"'),
  23: (text) => text.replace(/"HCl_mmol": [\d.]+/g, '"HCl_mmol": 0.5'),
};

const known = async (id: string): Promise<unknown> => (id === 'cathode-leach' ? json : undefined);

/** The run of one student: the lesson with the receiver changed so many mL after the water. Every column is another seed, three in turn, so that few need computing. */
function handedBy(student: number, made: Map<string, HandedIn>): string {
  const [seed, more_mL] = [1 + (student % 3), 1 + (student % 4)];
  const key = `${seed} ${more_mL}`;
  const known = made.get(key) ?? handed(seed, more_mL);
  made.set(key, known);
  return handedInText({ ...known, who: `code ${student}` });
}

function handed(seed: number, more_mL: number): HandedIn {
  const read = readScenario(json, 'cathode-leach');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const scenario = { ...read.scenario, seed };
  const log = scenario.procedure.map((action) => (action.do === 'wait' && 'more_mL' in action.until ? { ...action, until: { more_mL } } : action));
  const { time_min, delivered_mL, receivers } = resultsOf(runWhole(scenario, log));
  const predictions: HandedIn['predictions'] = [{ occasion: 'load', entry: 9, asked_mL: 15, choice: seed === 2 ? 'Co' : 'Ni', reason: '' }];
  return { who: '', scenario: 'cathode-leach', seed, log, predictions, claimed: { time_min, delivered_mL, receivers } };
}

let session: Session;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bandfall-'));
  session = await launch({ webgl: false });
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await session?.close();
});

describe('an instructor', () => {
  test(
    'takes in thirty runs at once and is told which five do not agree',
    async () => {
      const made = new Map<string, HandedIn>();
      const files = Array.from({ length: RUNS }, (_, i) => {
        const text = handedBy(i + 1, made);
        const spoiled = DAMAGED[i + 1] ?? ALTERED[i + 1];
        const file = join(folder, `run-${i + 1}.json`);
        writeFileSync(file, spoiled ? spoiled(text) : text);
        return file;
      });
      const { page, close } = await session.openPage({ hash: '#class' });
      await page.locator('input.files').setInputFiles(files, { timeout: PATIENCE_MS });
      await page.getByText(`25 of ${RUNS}`, { exact: true }).waitFor({ timeout: PATIENCE_MS });
      const rows = await page.getByRole('table', { name: 'Files that do not agree' }).getByRole('row').allInnerTexts();
      expect(rows.slice(1).map((row) => row.split('\t').slice(0, 2))).toEqual([
        ['run-4.json', 'damaged'],
        ['run-7.json', 'altered'],
        ['run-11.json', 'damaged'],
        ['run-19.json', 'damaged'],
        ['run-23.json', 'altered'],
      ]);
      expect(await page.getByRole('table', { name: 'Runs' }).getByRole('row').count()).toBe(RUNS + 1);
      // Nickel leaves first; who said cobalt, every column of seed 2, is wrong. Counted are the 25 that agree.
      const asked = await page.getByRole('table', { name: 'Predictions' }).getByRole('row').nth(1).innerText();
      expect(asked.split('\t').slice(1)).toEqual(['18', '7', '0']);
      const mistakes = await page.getByRole('table', { name: 'Common mistakes' }).getByRole('row').allInnerTexts();
      expect(mistakes.map((row) => row.split('\t')[0])).toEqual(['mistake', 'receiver late', 'receiver early']);
      expect(await page.locator('bf-take-in svg circle.change').count()).toBe(27);
      expect(await axeViolations(page)).toEqual([]);
      await close();
    },
    TIME_MS,
  );

  test(
    'sees what a class of virtual groups will see, and can stop it',
    async () => {
      const { page, close } = await session.openPage({ hash: '#class/ahead' });
      const work = page.getByRole('button', { name: 'Work it out' });
      await work.click({ timeout: PATIENCE_MS });
      await page.getByRole('button', { name: 'Cancel' }).click();
      await work.waitFor();
      const groups = page.getByLabel('groups', { exact: false }).first();
      await groups.fill('3');
      await groups.press('Enter');
      await work.click();
      await page.getByRole('table', { name: 'What 3 groups see' }).waitFor({ timeout: 4 * PATIENCE_MS });
      expect(await page.getByRole('table', { name: 'What another wash would do' }).getByRole('row').count()).toBe(4);
      await close();
    },
    TIME_MS,
  );
});

describe('a student', () => {
  test(
    'hands in a run that agrees when it is taken in',
    async () => {
      const { page, close } = await session.openPage({ hash: '#workup' });
      await page.getByRole('button', { name: /run the scenario's procedure/ }).click({ timeout: PATIENCE_MS });
      await page.getByRole('heading', { name: 'Add to the flask in hand' }).waitFor({ timeout: PATIENCE_MS });
      await page.getByRole('button', { name: 'Menu' }).click();
      await page.getByRole('button', { name: 'Hand in', exact: true }).click();
      await page.getByLabel('Name or code').fill('code 5');
      const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as a file', exact: true }).click()]);
      const taken = await takenIn('a.json', readFileSync(await download.path(), 'utf8'), known);
      expect(taken).toMatchObject({ verdict: 'agrees', issues: [], run: { who: 'code 5', agrees: 'exactly' } });
      await close();
    },
    TIME_MS,
  );
});
