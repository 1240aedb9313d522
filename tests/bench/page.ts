// How long the page keeps its reader waiting: npm run bench-page [-- --markdown], on the built page without the glass.
// A task over 50 ms is long (W3C Long Tasks); script is what the browser counts as such (ScriptDuration), over the frames drawn meanwhile.
// `--markdown` writes the table into DEVELOPERS.md.
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import type { CDPSession, Page } from 'playwright-core';
import { choice, ready, wholeProcedure, withForecast, withoutCoach } from '../browser/bench-rig.ts';
import { launch } from '../browser/session.ts';
import { between } from './aims.ts';

const MANUAL = new URL('../../DEVELOPERS.md', import.meta.url);
const LOOK_MS = 10_000;
const MOVES = 60;
/** Notes long tasks and frames from the first script on. */
const WATCH = `{
  globalThis.tasks = [];
  globalThis.frames = 0;
  new PerformanceObserver((list) => { for (const { startTime, duration } of list.getEntries()) tasks.push([startTime, duration]); }).observe({ type: 'longtask', buffered: true });
  const count = () => { frames += 1; requestAnimationFrame(count); };
  count();
}`;

interface Watched {
  readonly page: Page;
  readonly cdp: CDPSession;
}

interface Moment {
  readonly at_ms: number;
  readonly frames: number;
  readonly script_s: number;
}

interface Row {
  readonly what: string;
  /** Durations of tasks over 50 ms, ms. */
  readonly long: readonly number[];
  readonly frames: number;
  readonly script_ms: number;
}

const session = await launch({ webgl: false });
const rows: Row[] = [];

await withPage('no-preference', async (it) => {
  await part(it, 'start, until the bench can be used', async () => {
    await it.page.goto(session.base);
    await ready(it.page);
  });
  await part(it, 'the 10 s after that', () => it.page.waitForTimeout(LOOK_MS));
  await withoutCoach(it.page);
  await choice(it.page, 'clamp', 'open').click();
  await it.page.getByRole('button', { name: 'Pour', exact: true }).click();
  await part(it, '10 s of a run at x20, by eye', async () => {
    await it.page.getByRole('button', { name: 'Play', exact: true }).click();
    await it.page.waitForTimeout(LOOK_MS);
  });
});
// The procedure is played at once where motion is unwelcome.
await withPage('reduce', async (it) => {
  await it.page.goto(session.base);
  await ready(it.page);
  await wholeProcedure(it.page);
  await withForecast(it.page);
  await part(it, 'receiver moved along the axis, 60 moves', () => moved(it.page, /^receiver/));
  await part(it, 'start of water moved along the axis, 60 moves', () => moved(it.page, /^water poured/));
});
await session.close();

const circumstances = `${new Date().toISOString().slice(0, 10)}, Chromium without the glass, 1366 x 768, ${availableParallelism()} cores, ${loadavg()[0].toFixed(1)} other threads at work at the end.`;
const table = [
  '| the page | longest task, ms | tasks over 50 ms | script per frame, ms | frames |',
  '| --- | --- | --- | --- | --- |',
  ...rows.map(
    ({ what, long, frames, script_ms }) =>
      `| ${what} | ${Math.max(0, ...long)
        .toFixed(0)
        .replace(/^0$/, 'none over 50')} | ${long.length} | ${(script_ms / Math.max(1, frames)).toFixed(1)} | ${frames} |`,
  ),
].join('\n');
process.stdout.write(`${circumstances}\n\n${table}\n`);
if (process.argv.includes('--markdown')) writeFileSync(MANUAL, between(readFileSync(MANUAL, 'utf8'), 'page', `${circumstances}\n\n${table}`));

/** A page of its own, watched from its first script on. */
async function withPage(reducedMotion: 'reduce' | 'no-preference', use: (watched: Watched) => Promise<void>): Promise<void> {
  const context = await session.browser.newContext({ serviceWorkers: 'block', reducedMotion, viewport: { width: 1366, height: 768 } });
  await context.addInitScript(WATCH);
  const page = await context.newPage();
  const cdp = await context.newCDPSession(page);
  await cdp.send('Performance.enable');
  await use({ page, cdp });
  await context.close();
}

/** Does something and notes what the page was busy with meanwhile. */
async function part({ page, cdp }: Watched, what: string, work: () => Promise<unknown>): Promise<void> {
  const before = page.url() === 'about:blank' ? { at_ms: 0, frames: 0, script_s: 0 } : await now(page, cdp);
  await work();
  const after = await now(page, cdp);
  const tasks = await page.evaluate<[number, number][]>('tasks');
  const long = tasks.filter(([at_ms]) => at_ms >= before.at_ms && at_ms < after.at_ms).map(([, duration]) => duration);
  rows.push({ what, long, frames: after.frames - before.frames, script_ms: 1000 * (after.script_s - before.script_s) });
}

async function now(of: Page, metrics: CDPSession): Promise<Moment> {
  const [at_ms, frames] = await of.evaluate<[number, number]>('[performance.now(), frames]');
  const { metrics: all } = await metrics.send('Performance.getMetrics');
  return { at_ms, frames, script_s: all.find(({ name }) => name === 'ScriptDuration')?.value ?? Number.NaN };
}

/** A handle moved by its keys, a move a frame, there and back; then what was asked for is waited for. */
async function moved(of: Page, name: RegExp): Promise<void> {
  const handle = of.getByRole('slider', { name }).last();
  await handle.focus();
  for (let i = 0; i < MOVES; i++) {
    await of.keyboard.press(i < MOVES / 2 ? 'ArrowRight' : 'ArrowLeft');
    await of.evaluate('new Promise((done) => requestAnimationFrame(done))');
  }
  await of.getByText('rough: along one lane').waitFor({ state: 'detached' });
}
