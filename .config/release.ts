import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { archiveOf } from './archive.ts';

// One file to put on a web server: the built page with the notices of what it bundles, the licence and the manual.

const ROOT = fileURLToPath(new URL('..', import.meta.url));

// Read from our own package.
const { version } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')) as { version: string };
await build({ configFile: `${ROOT}vite.config.ts`, logLevel: 'warn' });
const name = `bandfall-${version}`;
const archive = archiveOf(name, `${ROOT}dist`, [`${ROOT}README.md`, `${ROOT}LICENSE`]);
writeFileSync(`${ROOT}${name}.zip`, archive);
process.stdout.write(`${name}.zip, ${(archive.length / 1000).toFixed(0)} kB: put the folder "page" on any web server\n`);
