import { readFile } from 'node:fs/promises';
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize, sep } from 'node:path';

// Serves the built page from a folder deep below the root of the site, so that an address that begins with "/" is not found.

export interface DistServer {
  readonly origin: string;
  /** Address of the page. */
  readonly base: string;
  close(): Promise<void>;
}

const DIST = join(import.meta.dirname, '..', '..', 'dist');
const BELOW = '/some/sub/path/';
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
};

/** `policy`: content policy sent with every answer. */
export async function serveDist(policy?: string, folder = DIST): Promise<DistServer> {
  const server = createServer((request, response) => void answer(folder, request.url ?? '', response, policy));
  await new Promise<void>((resolve, reject) => server.once('error', reject).listen(0, '127.0.0.1', resolve));
  // A TCP server has an address of this kind.
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return { origin, base: `${origin}${BELOW}`, close: () => closed(server) };
}

async function answer(folder: string, url: string, response: ServerResponse, policy: string | undefined): Promise<void> {
  const file = fileOf(folder, url);
  const body = file === undefined ? undefined : await readFile(file).catch(() => undefined);
  if (file === undefined || body === undefined) {
    response.writeHead(404).end();
    return;
  }
  response
    .writeHead(200, {
      'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      'cache-control': 'no-store',
      ...(policy === undefined ? {} : { 'content-security-policy': policy }),
    })
    .end(body);
}

function fileOf(folder: string, url: string): string | undefined {
  const path = decodeURIComponent(new URL(url, 'http://x').pathname);
  if (!path.startsWith(BELOW)) return undefined;
  const file = normalize(join(folder, path === BELOW ? 'index.html' : path.slice(BELOW.length)));
  return file.startsWith(normalize(folder) + sep) ? file : undefined;
}

function closed(server: Server): Promise<void> {
  server.closeAllConnections();
  return new Promise((resolve) => server.close(() => resolve()));
}
