import { accessSync, constants, statSync } from 'node:fs';
import { posix, win32 } from 'node:path';
import { packagedBrowser } from './packaged-browser.ts';

// Finds a Chromium to test the page with: one that is named, one that is installed, or the one that an npm package carries.

export interface FoundBrowser {
  readonly executablePath: string;
  /** What the browser needs in its environment beside the usual. */
  readonly env: Readonly<Record<string, string>>;
}

export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly arch: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly canStart: (path: string) => boolean;
}

const NAMED_BY = ['BANDFALL_BROWSER', 'CHROME_PATH'] as const;
const COMMANDS: Partial<Record<NodeJS.Platform, readonly string[]>> = {
  linux: ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge-stable', 'microsoft-edge'],
  darwin: ['chromium', 'google-chrome'],
  win32: ['chrome.exe', 'msedge.exe'],
};
const UNDER_PROGRAM_FILES = ['Google\\Chrome\\Application\\chrome.exe', 'Chromium\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'];
const MAC_APPLICATIONS = ['Google Chrome', 'Chromium', 'Microsoft Edge'];
const LINUX_FILES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/microsoft-edge',
  '/snap/bin/chromium',
  '/opt/google/chrome/chrome',
];

export async function findBrowser(machine: Machine = thisMachine()): Promise<FoundBrowser> {
  const path = namedBrowser(machine) ?? usualPlaces(machine).find(machine.canStart);
  if (path !== undefined) return { executablePath: path, env: {} };
  if (machine.platform === 'linux' && machine.arch === 'x64') return packagedBrowser();
  throw new Error(
    `browser: expected a path in ${NAMED_BY.join(' or ')}, or Chrome, Chromium or Edge; received none at\n  ${usualPlaces(machine).join('\n  ')}`,
  );
}

/** Where a browser may be, best first: its usual folder, then the folders of PATH. */
export function usualPlaces({ platform, env }: Pick<Machine, 'platform' | 'env'>): string[] {
  const { join, delimiter } = platform === 'win32' ? win32 : posix;
  const folders = (env.PATH ?? env.Path ?? '').split(delimiter).filter((folder) => folder !== '');
  const onPath = (COMMANDS[platform] ?? []).flatMap((command) => folders.map((folder) => join(folder, command)));
  return [...new Set([...usualFiles(platform, env), ...onPath])];
}

function usualFiles(platform: NodeJS.Platform, env: Machine['env']): readonly string[] {
  if (platform === 'win32') {
    const roots = [env.PROGRAMFILES ?? env.ProgramFiles, env['PROGRAMFILES(X86)'] ?? env['ProgramFiles(x86)'], env.LOCALAPPDATA];
    return UNDER_PROGRAM_FILES.flatMap((file) => roots.flatMap((root) => (root ? [win32.join(root, file)] : [])));
  }
  if (platform !== 'darwin') return LINUX_FILES;
  const roots = ['/', ...(env.HOME ? [env.HOME] : [])];
  return MAC_APPLICATIONS.flatMap((name) => roots.map((root) => posix.join(root, `Applications/${name}.app/Contents/MacOS/${name}`)));
}

function namedBrowser({ env, canStart }: Machine): string | undefined {
  const name = NAMED_BY.find((key) => env[key]);
  const path = name === undefined ? undefined : env[name];
  if (path !== undefined && !canStart(path)) throw new Error(`${name}: expected the file of a browser; received "${path}"`);
  return path;
}

function thisMachine(): Machine {
  return { platform: process.platform, arch: process.arch, env: process.env, canStart };
}

function canStart(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
