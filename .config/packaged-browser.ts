import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir, userInfo } from 'node:os';
import { dirname, join } from 'node:path';
import type { FoundBrowser } from './browser.ts';

// The browser inside an npm package, for Linux on x64 without a browser of its own. Unpacked once, into the temporary folder.

const PACKAGE = '@sparticuz/chromium';
const ENDS_WELL = 0;

export async function packagedBrowser(): Promise<FoundBrowser> {
  const folder = join(tmpdir(), `bandfall-browser-${packageVersion()}-${userInfo().username}`);
  if (!existsSync(folder)) await unpackInto(folder);
  const executablePath = join(folder, 'chromium');
  const fonts: Record<string, string> = existsSync('/etc/fonts/fonts.conf') ? {} : { FONTCONFIG_PATH: join(folder, 'fonts') };
  // NSS and its kin are missing on bare machines; the package carries a set of them.
  const libraries = { LD_LIBRARY_PATH: join(folder, 'al2023', 'lib') };
  const env = [fonts, { ...fonts, ...libraries }].find((candidate) => starts(executablePath, candidate));
  if (env) return { executablePath, env };
  throw new Error(`browser: expected "${executablePath} --version" to run; received ${complaint(executablePath, { ...fonts, ...libraries })}`);
}

/** The package writes below TMPDIR; the finished folder is put in place at once, so that no half of it is ever taken for the whole. */
async function unpackInto(folder: string): Promise<void> {
  const { default: packaged } = await import('@sparticuz/chromium');
  const growing = mkdtempSync(`${folder}-`);
  const restore = setEnvironment({ TMPDIR: growing, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' });
  try {
    await packaged.executablePath();
  } finally {
    restore();
  }
  try {
    renameSync(growing, folder);
  } catch (error) {
    rmSync(growing, { recursive: true });
    if (!existsSync(folder)) throw error;
  }
}

function setEnvironment(values: Readonly<Record<string, string>>): () => void {
  const before = Object.keys(values).map((key) => [key, process.env[key]] as const);
  Object.assign(process.env, values);
  return () => {
    for (const [key, value] of before) {
      if (value === undefined) delete process.env[key];
      else process.env[key] = value;
    }
  };
}

function starts(path: string, env: Readonly<Record<string, string>>): boolean {
  return version(path, env).status === ENDS_WELL;
}

function complaint(path: string, env: Readonly<Record<string, string>>): string {
  const { error, stderr } = version(path, env);
  return error?.message ?? stderr.trim();
}

function version(path: string, env: Readonly<Record<string, string>>) {
  return spawnSync(path, ['--version'], { env: { ...process.env, ...env }, encoding: 'utf8' });
}

function packageVersion(): string {
  const entry = createRequire(import.meta.url).resolve(PACKAGE);
  const { version: found } = JSON.parse(readFileSync(join(dirname(entry), '..', '..', 'package.json'), 'utf8')) as { version: string };
  return found;
}
