import { Buffer } from 'node:buffer';
import { crc32 as zlibCrc32, inflateRawSync } from 'node:zlib';
import { assert, asyncProperty, property, uint8Array } from 'fast-check';
import { expect, test } from 'vitest';
import { crc32, deflate, fromBase64Url, inflate, toBase64Url } from '../../../src/store/keep/bytes.ts';

const SEED = { seed: 20260824 };
const bytesOf = (text: string) => new TextEncoder().encode(text);

test('crc32(...) gives the check value of CRC-32, CBF43926 for "123456789" (published check value, recalled)', () => {
  expect(crc32(bytesOf('123456789'))).toBe(0xcbf43926);
});

test('crc32(...) agrees with zlib', () => {
  assert(
    property(uint8Array(), (bytes) => crc32(bytes) === zlibCrc32(bytes)),
    SEED,
  );
});

test('base64url agrees with the Buffer of Node and reads back', () => {
  assert(
    property(uint8Array(), (bytes) => {
      expect(toBase64Url(bytes)).toBe(Buffer.from(bytes).toString('base64url'));
      expect(fromBase64Url(toBase64Url(bytes))).toEqual(bytes);
    }),
    SEED,
  );
});

test.each(['a', 'ab=', 'a+b/', 'a b', 'ä'])('fromBase64Url(%j) is undefined', (text) => {
  expect(fromBase64Url(text)).toBeUndefined();
});

test('deflate(...) is read by zlib and inflate(...) gives the bytes back', async () => {
  await assert(
    asyncProperty(uint8Array(), async (bytes) => {
      const small = await deflate(Uint8Array.from(bytes));
      expect(new Uint8Array(inflateRawSync(small))).toEqual(bytes);
      expect(await inflate(small, 1e6)).toEqual(bytes);
    }),
    { ...SEED, numRuns: 30 },
  );
});

test('inflate(...) stops at its limit', async () => {
  const bomb = await deflate(new Uint8Array(50_000_000));
  await expect(inflate(bomb, 1_000_000)).rejects.toThrow('inflated content: expected at most 1000000 bytes');
});
