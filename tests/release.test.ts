import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { archiveOf } from '../.config/archive.ts';

let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bandfall-release-'));
  mkdirSync(join(folder, 'dist', 'assets'), { recursive: true });
  writeFileSync(join(folder, 'dist', 'index.html'), '<!doctype html>');
  writeFileSync(join(folder, 'dist', 'licences.md'), 'notices');
  writeFileSync(join(folder, 'dist', 'assets', 'a.js'), 'let a;');
  writeFileSync(join(folder, 'LICENSE'), 'MIT');
});

afterEach(() => rmSync(folder, { recursive: true }));

test('a release holds the page, the notices and the licence below one name', () => {
  const files = unzipSync(archiveOf('bandfall-1', join(folder, 'dist'), [join(folder, 'LICENSE')]));
  expect(Object.keys(files)).toEqual(['bandfall-1/LICENSE', 'bandfall-1/page/assets/a.js', 'bandfall-1/page/index.html', 'bandfall-1/page/licences.md']);
  expect(strFromU8(files['bandfall-1/page/licences.md'] ?? new Uint8Array())).toBe('notices');
});

test('the same files make the same release, whenever they were written', () => {
  const first = archiveOf('bandfall-1', join(folder, 'dist'), []);
  utimesSync(join(folder, 'dist', 'index.html'), 1e9, 1e9);
  expect(archiveOf('bandfall-1', join(folder, 'dist'), [])).toEqual(first);
});
