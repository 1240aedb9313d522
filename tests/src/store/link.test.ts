import { deflateRawSync } from 'node:zlib';
import { assert, asyncProperty, jsonValue, nat, string } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { routeHash } from '../../../src/app/route.ts';
import { crc32, fromBase64Url, inflate, toBase64Url } from '../../../src/store/keep/bytes.ts';
import { LINK_MAX, decodeLink, encodeLink } from '../../../src/store/keep/link.ts';
import type { SavedRun } from '../../../src/store/keep/saved.ts';

const SEED = { seed: 20260824, numRuns: 60 };

const RUN: SavedRun = {
  base: 'cathode-leach',
  differences: { values: { 'bed.length_cm': 9 }, faults: [{ kind: 'wall channel', severity: 0.4 }] },
  seed: 7,
  log: [
    { do: 'pour', liquid: 'acid', volume_mL: 15 },
    { do: 'clamp', open_percent: 60 },
    { do: 'wait', until: { more_mL: 15 } },
  ],
};

async function linkOf(run: SavedRun, seal = false): Promise<string> {
  const link = await encodeLink(run, { seal });
  if (!link.ok) throw new Error(link.message);
  return link.value;
}

/** A link with any content, well formed and with a right checksum. */
function linkWith(content: string | Uint8Array, version = '1'): string {
  const bytes = new Uint8Array(deflateRawSync(content));
  return `${version}.${crc32(bytes).toString(16).padStart(8, '0')}.${toBase64Url(bytes)}`;
}

async function refusal(link: string): Promise<string> {
  const read = await decodeLink(link);
  return read.ok ? 'accepted' : read.message;
}

test.each([false, true])('decodeLink(...) reads back a run, sealed: %s', async (seal) => {
  await assert(
    asyncProperty(jsonValue(), nat(), string({ minLength: 1 }), async (value, seed, base) => {
      const run = { ...RUN, base, seed, differences: JSON.parse(JSON.stringify({ value })) };
      const read = await decodeLink(await linkOf(run, seal));
      expect(read).toEqual({ ok: true, value: run });
    }),
    SEED,
  );
});

test('decodeLink(...) takes a whole address hash', async () => {
  expect(await decodeLink(routeHash({ view: 'bench', shared: { kind: 'run', text: await linkOf(RUN) } }))).toEqual({ ok: true, value: RUN });
});

test('a link holds only signs that need no escape in a fragment (RFC 3986, 3.5)', async () => {
  expect(await linkOf(RUN, true)).toMatch(/^[A-Za-z0-9._-]+$/);
});

test('a sealed link shows nothing to someone who inflates it', async () => {
  const content = async (link: string) => inflate(fromBase64Url(link.split('.')[2] ?? '') ?? new Uint8Array(), 1e6);
  expect(new TextDecoder().decode(await content(await linkOf(RUN)))).toContain('wall channel');
  await expect(content(await linkOf(RUN, true))).rejects.toThrow();
});

describe('a link that cannot be applied says why', () => {
  test('when any one character of it is changed or lost', async () => {
    const link = await linkOf(RUN);
    for (let place = 0; place < link.length; place++) {
      const other = link[place] === 'A' ? 'B' : 'A';
      expect(await refusal(link.slice(0, place) + other + link.slice(place + 1)), `place ${place} changed`).toMatch(/^link: /);
      expect(await refusal(link.slice(0, place) + link.slice(place + 1)), `place ${place} lost`).toMatch(/^link: /);
    }
  });

  test.each(['', '#', 'hello', '1..', '1.00000000.', '1.zzzzzzzz.abc', '0.00000000.abcd', '1.12345678.ab cd'])('when it is %j', async (link) => {
    expect(await refusal(link)).toBe('link: it is damaged; a part of it is missing or was changed');
  });

  test('when it is from a newer version', async () => {
    expect(await refusal(linkWith('{}', '2'))).toContain('expected version 1, received 2');
  });

  test('when it is too long', async () => {
    expect(await refusal('a'.repeat(LINK_MAX + 1))).toContain(`expected at most ${LINK_MAX} characters, received ${LINK_MAX + 1}`);
  });

  test('when it inflates to more than a megabyte', async () => {
    expect(await refusal(linkWith(new Uint8Array(40_000_000)))).toContain('bytes of content, received more');
  });

  test('when the content is not a run', async () => {
    expect(await refusal(linkWith('{"base":"x","seed":1,"log":[{}]}'))).toBe(
      'link, log[0].do: expected an action: pour, clamp, receiver, wait, refill-from-below, pack, top-up, spill, stir, fault, received nothing',
    );
    expect(await refusal(linkWith('[1,2'))).toMatch(/^link, content/);
    expect(await refusal(linkWith(`${'['.repeat(5000)}${']'.repeat(5000)}`))).toMatch(/^link, content/);
    expect(await refusal(linkWith(new Uint8Array([0xff, 0xfe, 0xfd])))).toMatch(/^link: it is damaged/);
  });
});

test('encodeLink(...) of a run that is too long points to the file', async () => {
  // Figures that do not compress: a multiplicative sequence modulo a prime.
  const noise = Array.from({ length: 30_000 }, (_, place) => (place * 48_271 * 69_621) % 2_147_483_647);
  const link = await encodeLink({ ...RUN, differences: { noise } });
  expect(link).toMatchObject({ ok: false, message: expect.stringContaining('save it as a file instead') as string });
});
