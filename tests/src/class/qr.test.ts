import jsQR from 'jsqr';
import { expect, test } from 'vitest';
import { type Modules, qrOf } from '../../../src/class/qr.ts';

// Read back by a decoder that has nothing to do with the library that makes the code.

const SCALE = 4;

function picture(modules: Modules): { data: Uint8ClampedArray; size: number } {
  const size = modules.length * SCALE;
  const data = new Uint8ClampedArray(size * size * 4);
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      const light = modules[Math.floor(y / SCALE)][Math.floor(x / SCALE)] ? 0 : 255;
      data.set([light, light, light, 255], 4 * (y * size + x));
    }
  return { data, size };
}

test.each([200, 800, 1990])('a link of %d characters is read back from its QR code', async (length) => {
  const link = `https://lab.example/bandfall/#bench?task=1.0123abcd.${'aB3_-xYz09'.repeat(200)}`.slice(0, length);
  const modules = await qrOf(link);
  if (!modules) throw new Error('expected a code');
  const { data, size } = picture(modules);
  expect(jsQR(data, size, size)?.data).toBe(link);
});

test('a text beyond the largest code gives none', async () => {
  expect(await qrOf('a'.repeat(4000))).toBeUndefined();
});
