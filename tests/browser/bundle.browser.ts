import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';

// What the reader has to load before the page answers, read from the built files.

const DIST = join(import.meta.dirname, '..', '..', 'dist');
const ASSETS = join(DIST, 'assets');
/** A message of the drawing of the glass that no minifier takes out. */
const DRAWING = 'drawing of the glass: expected WebGL 2';
/** Kilobytes, gzipped, of all scripts that are needed first; assumed: half a second at 1.6 Mbit/s, a slow telephone. */
const FIRST_LOAD_KB = 100;

const STATIC_IMPORT = /(?:^|[;}\n])\s*(?:import|export)\s*(?:[^"'`;()]*?from\s*)?["']\.\/([^"']+\.js)["']/g;

const scripts = new Map(
  readdirSync(ASSETS)
    .filter((name) => name.endsWith('.js'))
    .map((name) => [name, readFileSync(join(ASSETS, name), 'utf8')]),
);
const page = readFileSync(join(DIST, 'index.html'), 'utf8');

function firstLoad(): string[] {
  const wanted = [...page.matchAll(/(?:src|href)="\.\/assets\/([^"]+\.js)"/g)].map((match) => match[1]);
  const loaded = new Set<string>();
  for (let name = wanted.pop(); name !== undefined; name = wanted.pop()) {
    if (loaded.has(name)) continue;
    loaded.add(name);
    wanted.push(...[...(scripts.get(name) ?? '').matchAll(STATIC_IMPORT)].map((match) => match[1]));
  }
  return [...loaded];
}

describe('the built files', () => {
  test('have the drawing of the glass in one chunk that is not needed at first', () => {
    const holding = [...scripts].filter(([, text]) => text.includes(DRAWING)).map(([name]) => name);
    expect(holding).toHaveLength(1);
    expect(firstLoad()).not.toContain(holding[0]);
  });

  test(`need at most ${FIRST_LOAD_KB} kB at first`, () => {
    const first = firstLoad();
    expect(first.length).toBeGreaterThan(0);
    const bytes = first.reduce((sum, name) => sum + gzipSync(scripts.get(name) ?? '').length, 0);
    expect(bytes / 1000).toBeLessThan(FIRST_LOAD_KB);
  });

  test('name no address on another server', () => {
    expect(page).not.toMatch(/(?:src|href)="(?:https?:)?\/\//);
    expect(page).not.toMatch(/(?:src|href)="\//);
  });
});
