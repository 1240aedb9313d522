import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Count, countReport, type Report } from './count.ts';

// Everything that has to hold, in one command: types, lint, templates, unit tests, build, tests in a browser.
// The last line is "N passed, N failed". A stage without tests of its own counts as one.

interface Stage {
  readonly name: string;
  /** Script of package.json. */
  readonly script: string;
  readonly counted?: boolean;
  /** Not run, and failed, when that one has failed. */
  readonly needs?: string;
}

interface Outcome extends Count {
  readonly output: string;
}

const STAGES: readonly Stage[] = [
  { name: 'types', script: 'types' },
  { name: 'lint', script: 'lint' },
  { name: 'templates', script: 'templates' },
  { name: 'unit tests', script: 'unit', counted: true },
  { name: 'build', script: 'build' },
  { name: 'browser tests', script: 'browser', counted: true, needs: 'build' },
];

const reports = mkdtempSync(join(tmpdir(), 'bandfall-test-'));
const failed: string[] = [];
const total = { passed: 0, failed: 0 };
const start = performance.now();
for (const stage of STAGES) await take(stage);
rmSync(reports, { recursive: true });
process.stdout.write(`\n${failed.length === 0 ? 'all stages hold' : `failed: ${failed.join(', ')}`} (${seconds(start)})\n`);
process.stdout.write(`${total.passed} passed, ${total.failed} failed\n`);
process.exitCode = failed.length === 0 ? 0 : 1;

async function take(stage: Stage): Promise<void> {
  process.stdout.write(`${stage.name} ...\n`);
  const begun = performance.now();
  const outcome = stage.needs !== undefined && failed.includes(stage.needs) ? withheld(stage) : await run(stage);
  total.passed += outcome.passed;
  total.failed += outcome.failed;
  if (outcome.failed > 0) {
    failed.push(stage.name);
    process.stdout.write(`${outcome.output.trimEnd()}\n`);
  }
  process.stdout.write(`${stage.name}: ${outcome.failed > 0 ? 'FAILED' : 'ok'}, ${outcome.passed} passed, ${outcome.failed} failed (${seconds(begun)})\n`);
}

function withheld({ name, needs }: Stage): Outcome {
  return { passed: 0, failed: 1, output: `${name}: not run, for ${needs} failed` };
}

async function run({ name, script, counted }: Stage): Promise<Outcome> {
  if (!counted) {
    const { code, output } = await npmRun(script, []);
    return { ...(code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 }), output };
  }
  const file = join(reports, `${script}.json`);
  const { code, output } = await npmRun(script, ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`]);
  const count = countReport(readReport(file), code);
  return { ...count, output: count.failed > 0 ? `${output}\n${name}: ended with ${code}` : output };
}

function readReport(file: string): Report | undefined {
  try {
    // Written by the test runner a moment ago.
    return JSON.parse(readFileSync(file, 'utf8')) as Report;
  } catch {
    return undefined;
  }
}

/** Runs a script of package.json by the npm that runs this one; output and errors in the order they came. */
function npmRun(script: string, more: readonly string[]): Promise<{ code: number; output: string }> {
  const npm = process.env.npm_execpath;
  if (npm === undefined) throw new Error('npm_execpath: expected to be started by "npm test"; received no npm');
  const child = spawn(process.execPath, [npm, 'run', '--silent', script, '--', ...more], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NO_COLOR: '1' },
  });
  let output = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? 1, output }));
  });
}

function seconds(since: number): string {
  return `${((performance.now() - since) / 1000).toFixed(1)} s`;
}
