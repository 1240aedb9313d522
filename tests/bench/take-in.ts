// How long Class takes to take in thirty runs, on the built page with two workers: npm run build && npm run -s take-in [-- --runs 30]
// [--markdown]. Thirty columns, so that nothing is computed twice. `--markdown` writes the line into DEVELOPERS.md.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser } from 'playwright-core';
import { handedInText, takenIn } from '../../sim/handed/index.ts';
import { readScenario } from '../../sim/input/scenario.ts';
import { resultsOf, runWhole } from '../../sim/run/index.ts';
import json from '../../scenarios/cathode-leach.json';
import { launch } from '../browser/session.ts';
import { between, time } from './aims.ts';

const AIM_MS = 10_000;
const WORKERS = 2;
const RUNS_MOST = 200;
const PATIENCE_MS = 300_000;
const MANUAL = new URL('../../DEVELOPERS.md', import.meta.url);

const { values: options } = parseArgs({ options: { runs: { type: 'string', default: '30' }, markdown: { type: 'boolean', default: false } } });
const runs = Number(options.runs);
if (!Number.isInteger(runs) || runs < 1 || runs > RUNS_MOST)
  throw new Error(`--runs: expected a whole number from 1 to ${RUNS_MOST}, received ${options.runs}`);

const files = Array.from({ length: runs }, (_, i) => fileOf(i + 1));
const processor_ms = await processorOf(files);
const load = loadavg()[0];
const { wall_ms, browser_ms } = await onThePage(files);
const line = `${new Date().toISOString().slice(0, 10)}, ${availableParallelism()} cores, ${load.toFixed(1)} other threads wanted to run: ${runs} runs of the cathode leach (13 lanes, a column each) taken in on the page in ${time(wall_ms)} with ${WORKERS} workers, aim ${time(AIM_MS)}: ${wall_ms <= AIM_MS ? 'met' : 'not met'}. The browser spent ${time(browser_ms)} of processor time on it, so about ${time(browser_ms / WORKERS)} where two cores are free; in Node, once warm, a run takes ${time(processor_ms)}.`;
process.stdout.write(`${line}\n`);
if (options.markdown) writeFileSync(MANUAL, between(readFileSync(MANUAL, 'utf8'), 'take-in', line));

/** The lesson as it is written on the column of a seed, handed in. */
function fileOf(seed: number): string {
  const read = readScenario(json, 'cathode-leach');
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const scenario = { ...read.scenario, seed };
  const { time_min, delivered_mL, receivers } = resultsOf(runWhole(scenario));
  return handedInText({
    who: `code ${seed}`,
    scenario: 'cathode-leach',
    seed,
    log: scenario.procedure,
    predictions: [],
    claimed: { time_min, delivered_mL, receivers },
  });
}

/** Processor time of one run that is taken in, the mean of a few. */
async function processorOf([first, ...others]: readonly string[]): Promise<number> {
  const known = async (): Promise<unknown> => json;
  await takenIn('warm-up', first, known);
  const some = [first, ...others].slice(0, 5);
  const before = process.cpuUsage();
  for (const text of some) await takenIn('run', text, known);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000 / some.length;
}

/** From the choice of the files to the last run on the page of the class. */
async function onThePage(texts: readonly string[]): Promise<{ readonly wall_ms: number; readonly browser_ms: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'bandfall-'));
  const session = await launch({ webgl: false });
  try {
    const paths = texts.map((text, i) => {
      const path = join(folder, `run-${i + 1}.json`);
      writeFileSync(path, text);
      return path;
    });
    const { page } = await session.openPage({ column: 1 });
    await page.addInitScript(`Object.defineProperty(navigator, 'hardwareConcurrency', { value: ${WORKERS} })`);
    await page.goto(`${page.url().split('#')[0]}#class`);
    await page.reload();
    const input = page.locator('input.files');
    await input.waitFor({ timeout: PATIENCE_MS });
    const [start, before] = [performance.now(), await processorTime(session.browser)];
    await input.setInputFiles(paths, { timeout: PATIENCE_MS });
    await page.getByText(`${texts.length} of ${texts.length}`, { exact: true }).waitFor({ timeout: PATIENCE_MS });
    return { wall_ms: performance.now() - start, browser_ms: (await processorTime(session.browser)) - before };
  } finally {
    await session.close();
    rmSync(folder, { recursive: true });
  }
}

/** Processor time of all processes of a browser so far, ms. */
async function processorTime(browser: Browser): Promise<number> {
  const client = await browser.newBrowserCDPSession();
  const { processInfo } = await client.send('SystemInfo.getProcessInfo');
  await client.detach();
  return 1000 * processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
}
