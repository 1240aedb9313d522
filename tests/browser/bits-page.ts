import { parseScenario } from '../../sim/input/scenario.ts';
import { runWhole } from '../../sim/run/run.ts';

// Runs one scenario and gives its record as bytes: the same in Node and in a page.

/** Every number of the record of a scenario's procedure: rows, then profiles. */
export function recordBytes(text: string, id: string): Uint8Array<ArrayBuffer> {
  const read = parseScenario(text, id);
  if (!read.ok) throw new Error(`${id}: ${JSON.stringify(read.issues)}`);
  const { record } = runWhole(read.scenario);
  const rows = record.rows.slice(0, record.count * record.stride);
  const profiles = record.profiles.slice(0, record.count * record.components * record.plates);
  const bytes = new Uint8Array(rows.byteLength + profiles.byteLength);
  bytes.set(new Uint8Array(rows.buffer));
  bytes.set(new Uint8Array(profiles.buffer), rows.byteLength);
  return bytes;
}

/** SHA-256 of the record in hexadecimal digits. */
export async function recordHash(text: string, id: string): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', recordBytes(text, id)));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
