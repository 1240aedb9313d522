import { parseJson, TEXT_MAX } from '../../../sim/input/index.ts';
import { crc32, deflate, fromBase64Url, inflate, toBase64Url } from './bytes.ts';
import { readSaved, type Outcome, type SavedRun } from './saved.ts';

// A run in an address: `<version>.<checksum>.<content>`, or `<version>s.` when sealed. The content is the run as JSON,
// deflated, in base64url; the checksum is the CRC-32 of the deflated bytes in eight hexadecimal digits.

/** Goes up when an older page could not read the content. */
export const LINK_VERSION = 1;

/** Longest text of a link, characters. Mail programs and chats cut longer addresses; common practice, no source. */
export const LINK_MAX = 65_536;

const LONG = `link: expected at most ${LINK_MAX} characters`;
const DAMAGED = 'link: it is damaged; a part is missing or was changed on the way';

export interface LinkOptions {
  /**
   * Scrambles the content so that inflating the address does not show a fault the receiver is meant to find. It keeps a
   * secret from a glance, not from a determined reader: the page itself has to be able to read it.
   */
  readonly seal?: boolean;
}

/** Text of a run for an address. Not ok when it would be too long. */
export async function encodeLink(run: SavedRun, options: LinkOptions = {}): Promise<Outcome<string>> {
  const { base, differences, seed, log, now_min, view, mystery } = run;
  const json = JSON.stringify({
    base,
    differences,
    seed,
    log,
    ...(now_min === undefined ? {} : { now_min }),
    ...(view === undefined ? {} : { view }),
    ...(mystery === undefined ? {} : { mystery: {} }),
  });
  const content = await deflate(new TextEncoder().encode(json));
  const checksum = crc32(content);
  const bytes = options.seal ? scrambled(content, checksum) : content;
  const text = `${LINK_VERSION}${options.seal ? 's' : ''}.${checksum.toString(16).padStart(8, '0')}.${toBase64Url(bytes)}`;
  if (text.length > LINK_MAX) return { ok: false, message: `${LONG}, received ${text.length}; save the run as a file instead` };
  return { ok: true, value: text };
}

/** Reads the text of a link, or an address hash that holds one. Never throws; what is not ok has changed nothing. */
export async function decodeLink(hash: string): Promise<Outcome<SavedRun>> {
  if (hash.length > LINK_MAX) return { ok: false, message: `${LONG}, received ${hash.length}` };
  const parts = /^(\d{1,6})(s?)\.([0-9a-f]{8})\.([A-Za-z0-9_-]+)$/.exec(hash.replace(/^.*run=/, '').replace(/^#/, ''));
  if (!parts) return { ok: false, message: DAMAGED };
  const [, version = '', seal, sum = '', text = ''] = parts;
  const versionIssue = versionMessage(Number(version));
  if (versionIssue !== undefined) return { ok: false, message: versionIssue };
  const checksum = Number.parseInt(sum, 16);
  const bytes = fromBase64Url(text);
  const content = bytes && (seal ? scrambled(bytes, checksum) : bytes);
  if (!content || crc32(content) !== checksum) return { ok: false, message: DAMAGED };
  return inflatedRun(content);
}

async function inflatedRun(content: Uint8Array<ArrayBuffer>): Promise<Outcome<SavedRun>> {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await inflate(content, TEXT_MAX));
    const parsed = parseJson(text, 'content');
    const reading = parsed.ok ? readSaved(parsed.json) : parsed;
    if (reading.ok) return reading;
    const first = reading.issues[0];
    return { ok: false, message: `link, ${first?.path}: expected ${first?.expected}, received ${first?.received}` };
  } catch (error) {
    return { ok: false, message: error instanceof RangeError ? `link: expected at most ${TEXT_MAX} bytes of content, received more` : DAMAGED };
  }
}

function versionMessage(version: number): string | undefined {
  if (version > LINK_VERSION) return `link: expected version ${LINK_VERSION}, received ${version}; it was made by a newer page, reload this one`;
  return version < LINK_VERSION ? DAMAGED : undefined;
}

/** Exclusive or with the stream of a 32-bit xorshift generator (Marsaglia 2003, J. Stat. Softw. 8(14), triple 13, 17, 5; recalled). */
function scrambled(bytes: Uint8Array, key: number): Uint8Array<ArrayBuffer> {
  // Zero is the one state xorshift cannot leave.
  let state = key || 1;
  return Uint8Array.from(bytes, (byte) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return byte ^ (state & 0xff);
  });
}
