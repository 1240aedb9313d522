import { describe, expect, test } from 'vitest';
import { findBrowser, type Machine } from '../../.config/browser.ts';

// Places as the vendors' installers choose them (memory; common practice, no source).

const EDGE_ON_WINDOWS = 'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe';
const WINDOWS = {
  platform: 'win32',
  arch: 'x64',
  env: { Path: 'D:\\tools', ProgramFiles: 'C:\\Program Files', 'ProgramFiles(x86)': 'C:\\Program Files (x86)' },
} as const;
const MAC = { platform: 'darwin', arch: 'arm64', env: { PATH: '/usr/bin', HOME: '/Users/a' } } as const;
const LINUX = { platform: 'linux', arch: 'arm64', env: { PATH: '/usr/bin:/home/a/bin' } } as const;

const having = (machine: Omit<Machine, 'canStart'>, ...files: string[]): Machine => ({ ...machine, canStart: (path) => files.includes(path) });

describe('the browser for the tests', () => {
  test.each([
    ['Edge of Windows', having(WINDOWS, EDGE_ON_WINDOWS), EDGE_ON_WINDOWS],
    ['a folder of the PATH on Windows', having(WINDOWS, 'D:\\tools\\chrome.exe'), 'D:\\tools\\chrome.exe'],
    [
      'an application of the user on macOS',
      having(MAC, '/Users/a/Applications/Chromium.app/Contents/MacOS/Chromium'),
      '/Users/a/Applications/Chromium.app/Contents/MacOS/Chromium',
    ],
    ['a folder of the PATH on Linux', having(LINUX, '/home/a/bin/google-chrome'), '/home/a/bin/google-chrome'],
  ])('is found as %s', async (_, machine, path) => {
    expect(await findBrowser(machine)).toEqual({ executablePath: path, env: {} });
  });

  test('is the one that is named, before any that is installed', async () => {
    const env = { ...LINUX.env, BANDFALL_BROWSER: '/opt/mine' };
    expect(await findBrowser(having({ ...LINUX, env }, '/usr/bin/chromium', '/opt/mine'))).toMatchObject({ executablePath: '/opt/mine' });
  });

  test('is refused when the named one cannot be started', async () => {
    const env = { ...LINUX.env, CHROME_PATH: '/opt/none' };
    await expect(findBrowser(having({ ...LINUX, env }, '/usr/bin/chromium'))).rejects.toThrow(
      'CHROME_PATH: expected the file of a browser; received "/opt/none"',
    );
  });

  test.each([
    ['Windows', WINDOWS, EDGE_ON_WINDOWS],
    ['macOS', MAC, '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'],
    ['Linux on ARM', LINUX, '/home/a/bin/chromium'],
  ])('is missed with a list of places on %s', async (_, machine, place) => {
    await expect(findBrowser(having(machine))).rejects.toThrow(place);
  });
});
