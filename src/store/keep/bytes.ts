// Bytes of a link: text that is safe in an address bar, a checksum, and compression with a size limit.

/** Base64 with the URL alphabet and no padding (RFC 4648, section 5). */
export function toBase64Url(bytes: Uint8Array): string {
  const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** undefined for anything that is not base64url. */
export function fromBase64Url(text: string): Uint8Array<ArrayBuffer> | undefined {
  if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return undefined;
  return Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (sign) => sign.charCodeAt(0));
}

/** Reversed generator polynomial of CRC-32 (ISO/IEC/IEEE 8802-3; the one of gzip and PNG). */
const CRC_POLYNOMIAL = 0xedb88320;

export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (CRC_POLYNOMIAL & -(crc & 1));
  }
  return ~crc >>> 0;
}

export async function deflate(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  return collect(new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate-raw')), Infinity);
}

/** Stops as soon as more than `limit` bytes have come out; rejects with a RangeError then, or with a TypeError when damaged. */
export async function inflate(bytes: Uint8Array<ArrayBuffer>, limit: number): Promise<Uint8Array<ArrayBuffer>> {
  return collect(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')), limit);
}

async function collect(stream: ReadableStream<Uint8Array<ArrayBuffer>>, limit: number): Promise<Uint8Array<ArrayBuffer>> {
  const reader = stream.getReader();
  const parts: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    length += part.value.length;
    if (length > limit) {
      await reader.cancel();
      throw new RangeError(`inflated content: expected at most ${limit} bytes, received more`);
    }
    parts.push(part.value);
  }
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}
