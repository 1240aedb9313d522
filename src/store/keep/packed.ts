import { TEXT_MAX } from '../../../sim/input/index.ts';
import { crc32, deflate, fromBase64Url, inflate, toBase64Url } from './bytes.ts';
import type { Outcome } from './saved.ts';

// Text in an address: `<version>.<checksum>.<content>`, or `<version>s.` when sealed. The content is the text, deflated, in
// base64url; the checksum is the CRC-32 of the deflated bytes in eight hexadecimal digits.

/** Raised when older versions of the page cannot read the content. */
export const LINK_VERSION = 1;

/** Longest text of a link, characters. Mail programs and chats cut longer addresses; common practice, no source. */
export const LINK_MAX = 65_536;

const LONG = `link: expected at most ${LINK_MAX} characters`;
const DAMAGED = 'link: it is damaged; a part of it is missing or was changed';

/** Text for an address. Not ok when it would be too long. `seal` scrambles it, so that inflating the address does not show what is in it. */
export async function packed(text: string, seal = false): Promise<Outcome<string>> {
  const content = await deflate(new TextEncoder().encode(text));
  const checksum = crc32(content);
  const bytes = seal ? scrambled(content, checksum) : content;
  const address = `${LINK_VERSION}${seal ? 's' : ''}.${checksum.toString(16).padStart(8, '0')}.${toBase64Url(bytes)}`;
  if (address.length > LINK_MAX) return { ok: false, message: `${LONG}, received ${address.length}; save it as a file instead` };
  return { ok: true, value: address };
}

/** The text in it again. Never throws. */
export async function unpacked(address: string): Promise<Outcome<string>> {
  if (address.length > LINK_MAX) return { ok: false, message: `${LONG}, received ${address.length}` };
  const parts = /^(\d{1,6})(s?)\.([0-9a-f]{8})\.([A-Za-z0-9_-]+)$/.exec(address);
  if (!parts) return { ok: false, message: DAMAGED };
  const [, version = '', seal, sum = '', text = ''] = parts;
  const versionIssue = versionMessage(Number(version));
  if (versionIssue !== undefined) return { ok: false, message: versionIssue };
  const checksum = Number.parseInt(sum, 16);
  const bytes = fromBase64Url(text);
  const content = bytes && (seal ? scrambled(bytes, checksum) : bytes);
  if (!content || crc32(content) !== checksum) return { ok: false, message: DAMAGED };
  try {
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true }).decode(await inflate(content, TEXT_MAX)) };
  } catch (error) {
    return { ok: false, message: error instanceof RangeError ? `link: expected at most ${TEXT_MAX} bytes of content, received more` : DAMAGED };
  }
}

function versionMessage(version: number): string | undefined {
  if (version > LINK_VERSION) return `link: expected version ${LINK_VERSION}, received ${version}; it was made by a newer version of the page, reload this one`;
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
